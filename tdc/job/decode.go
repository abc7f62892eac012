package job

import (
	"errors"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
)

// decoder makes a job of a document.
type decoder struct {
	doc  *toml.Document
	open func(name string) ([]byte, error) // a readings file
	job  Job
}

// decode reads the whole document: the unit first, since lengths need it, and
// the instruments before what was read on them.
func (d *decoder) decode(doc *toml.Document) error {
	d.doc = doc
	if v, is := doc.Root.Get("from"); is {
		return v.Foreign(source.Curable{Problem: "this is a known-good file", Cure: source.AsKnownGood})
	}
	d.job.Setup.Engine.KnownTo = evidence.DefaultKnownTo(false)
	d.job.Setup.Protractor = evidence.DefaultProtractor()
	d.job.Setup.Gauge = evidence.DefaultGauge(evidence.Dial)
	root := d.doc.Root
	err := root.Read(
		toml.Key("unit", toml.OneOf(&d.job.Unit, "mm", "in")),
		toml.Key("title", toml.Text(&d.job.Title)),
		toml.Key("date", toml.Date(&d.job.Date)),
		toml.Key("engine", toml.One(d.engine)),
		toml.Key("protractor", toml.One(d.protractorTable)),
		toml.Key("gauge", toml.One(d.gauge)),
		toml.Key("cylinder", toml.Many(d.cylinder)),
		toml.Key("drive", toml.One(d.drive)),
		toml.Key("joint", toml.Many(d.joint)),
		toml.Key("mark", toml.Many(d.mark)),
	)
	if err != nil {
		return err
	}
	if !root.Has("cylinder") {
		return d.doc.Lacks(errors.New("expected a cylinder: add a line [[cylinder]], and below it number = 1 and readings = \"cylinder-1.csv\""))
	}
	d.sortCylinders()
	return nil
}
