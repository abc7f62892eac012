package job

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
)

// decoder makes a job of a document.
type decoder struct {
	doc   *toml.Document
	files files
	job   Job
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
		toml.Key("joint", d.joints),
		toml.Key("mark", toml.Many(d.mark)),
		toml.Key("lobe", toml.Many(d.lobe)),
		toml.Key("sheet", toml.One(d.sheetTable)),
		toml.Key("photo", toml.Many(d.photo)),
	)
	if err != nil {
		return err
	}
	d.job.Sheet.Date = d.job.Date
	if !root.Has("cylinder") {
		return d.doc.Lacks(errors.New("expected a cylinder: add a line [[cylinder]], and below it number = 1 and readings = \"cylinder-1.csv\""))
	}
	// cylinder 1, from which all count, comes first
	slices.SortFunc(d.job.Cylinders, func(a, b evidence.Cylinder) int { return cmp.Compare(a.Number, b.Number) })
	return nil
}

// length takes a length: a number in the job's unit, or a text with its own.
func (d *decoder) length(into *geometry.Length, b measure.Bound) func(toml.Value) error {
	return func(v toml.Value) error {
		l, err := d.lengthOf(v)
		if err != nil {
			return v.Wrong("%v", err)
		}
		if !b.Holds(float64(l)) {
			return v.Wrong("%s", b.Of("a length"))
		}
		if math.Abs(float64(l)) < float64(least) {
			l = 0 // so small that sums with it would lose their digits
		}
		*into = l
		return nil
	}
}

func (d *decoder) lengthOf(v toml.Value) (geometry.Length, error) {
	if v.Kind == toml.TextKind {
		return measure.Length(v.Text, d.job.Unit)
	}
	x, ok := v.Number()
	if !ok {
		return 0, measure.ErrLength
	}
	return measure.InUnit(x, d.job.Unit)
}

// protractor takes an angle that was read on the protractor.
func (d *decoder) protractor(into *geometry.Angle) func(toml.Value) error {
	return func(v toml.Value) error {
		w, err := v.Written()
		if err == nil {
			*into, err = d.job.Setup.Protractor.Crank(w)
		}
		if err != nil {
			return v.Wrong("%v", err)
		}
		return nil
	}
}

// least is the least length that is told from none: no gauge shows it.
const least = 1e-9 * geometry.Millimetre
