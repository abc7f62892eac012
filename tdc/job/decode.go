package job

import (
	"evendrop/tdc/evidence"
)

// decoder makes a job of a document.
type decoder struct {
	doc  *document
	open func(name string) ([]byte, error) // a readings file
	job  Job
}

// decode reads the whole document: the unit first, since lengths need it, and
// the instruments before what was read on them.
func (d *decoder) decode() error {
	d.job.Setup.Engine.KnownTo = evidence.DefaultKnownTo(false)
	d.job.Setup.Protractor = evidence.DefaultProtractor()
	d.job.Setup.Gauge = evidence.DefaultGauge(evidence.Dial)
	root := d.doc.root
	err := root.read(
		field{"unit", oneOf(&d.job.Unit, "mm", "in")},
		field{"title", text(&d.job.Title)},
		field{"date", date(&d.job.Date)},
		field{"engine", one(d.engine)},
		field{"protractor", one(d.protractorTable)},
		field{"gauge", one(d.gauge)},
		field{"cylinder", many(d.cylinder)},
		field{"drive", one(d.drive)},
		field{"joint", many(d.joint)},
		field{"mark", many(d.mark)},
	)
	if err != nil {
		return err
	}
	if !root.has("cylinder") {
		return faultf(len(d.doc.data), "expected a cylinder: add a line [[cylinder]], and below it number = 1 and readings = \"cylinder-1.csv\"")
	}
	d.sortCylinders()
	return nil
}

// one takes a table that is there once.
func one(read func(*table) error) func(value) error {
	return func(v value) error {
		switch {
		case v.open:
			return faultf(v.at, "[[%s]]: there is only one: write [%s]", v.key, v.key)
		case v.kind != tableKind:
			return v.wrong("expected a table: write [%s] on a line of its own", v.key)
		}
		return read(v.table)
	}
}

// many takes a table that may be there more than once.
func many(read func(*table) error) func(value) error {
	return func(v value) error {
		if v.kind == tableKind {
			return faultf(v.at, fewBrackets, v.key, v.key)
		}
		expected := "expected tables: write [[" + v.key + "]] on a line of its own"
		return v.each(expected, func(item value) error {
			if item.kind != tableKind {
				return item.wrong("%s", expected)
			}
			return read(item.table)
		})
	}
}
