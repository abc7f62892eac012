package job

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

// MostLobes is more than anybody reads on one engine.
const MostLobes = 64

// No rocker or finger has a ratio beyond these.
const (
	leastRatio = 0.2
	mostRatio  = 5
)

// lobe reads a [[lobe]] and its file of lifts.
func (d *decoder) lobe(t *toml.Table) error {
	l, after, file := lobe.Lobe{Cylinder: 1, Gauge: lobe.DefaultGauge()}, 0, ""
	err := t.Read(
		toml.Key("name", toml.NewName(&l.Name, d.takenByMark)),
		toml.Key("on", d.member(&l.On)),
		toml.Key("valve", toml.OneOf(&l.Valve, lobe.Inlet, lobe.Exhaust)),
		toml.Key("cylinder", d.knownNumber(&l.Cylinder)),
		toml.Key("set", toml.Whole(&l.Set, 1, evidence.MostSets)),
		toml.Key("after_reading", toml.Whole(&after, 0, sheet.MostReadings)),
		toml.Key("lift", d.length(&l.Card.Lift, measure.AboveZero)),
		toml.Key("opens", toml.Crank(&l.Card.Opens)),
		toml.Key("closes", toml.Crank(&l.Card.Closes)),
		toml.Key("centre", toml.Crank(&l.Card.Centre)),
		toml.Key("top", d.length(&l.Card.Top, measure.AboveZero)),
		toml.Key("limit", toml.Width(&l.Limit)),
		toml.Key("source", toml.Text(&l.Source)),
		toml.Key("ratio", toml.That(&l.Ratio, "expected a ratio from 0.2 to 5, such as 1.5", func(x float64) bool { return x >= leastRatio && x <= mostRatio })),
		toml.Key("lash", d.length(&l.Lash, measure.FromZero)),
		toml.Key("slack", toml.Width(&l.Slack)),
		toml.Key("gauge", d.lobeGauge(&l.Gauge)),
		toml.Key("readings", d.lifts(&l, &file)),
	)
	if err == nil {
		err = t.Needs(`name = "inlet lobe, cylinder 1"`, `on = "inlet cam"`, `valve = "inlet"`, `readings = "inlet-1.csv"`, "lift = 1.0")
	}
	if err == nil {
		l.HasLimit, l.Card.HasEvents, l.Card.HasCentre = t.Has("limit"), t.Has("opens"), t.Has("centre")
		err = checkCard(t, l)
	}
	if err == nil {
		err = d.lobeAgain(t, &l)
	}
	if err != nil {
		return err
	}
	if t.Has("after_reading") {
		l.After = &after
	}
	if len(d.job.Lobes) == MostLobes {
		return t.Wrong("more than %d lobes: expected what somebody reads on one engine", MostLobes)
	}
	d.job.Lobes, d.job.LobeFiles = append(d.job.Lobes, l), append(d.job.LobeFiles, file)
	d.job.lobeLines = append(d.job.lobeLines, d.doc.Line(t))
	return nil
}

// takenByMark tells whether a mark has a name.
func (d *decoder) takenByMark(name string) bool {
	return slices.ContainsFunc(d.job.Marks, func(m mark.Mark) bool { return m.Name == name })
}

// knownNumber takes the number of a cylinder that the job has.
func (d *decoder) knownNumber(into *int) func(toml.Value) error {
	return func(v toml.Value) error {
		if err := toml.Whole(into, 1, mostCylinders)(v); err != nil {
			return err
		}
		if !slices.ContainsFunc(d.job.Cylinders, func(c evidence.Cylinder) bool { return c.Number == *into }) {
			return v.Wrong("the job has no such cylinder: add a [[cylinder]] with this number, or name one that it has")
		}
		return nil
	}
}

// lobeGauge takes what is known of the dial on a valve.
func (d *decoder) lobeGauge(into *lobe.Gauge) func(toml.Value) error {
	return func(v toml.Value) error {
		if v.Kind != toml.TableKind {
			return v.Wrong("expected a gauge such as { step = 0.01, error = 0.02, runout = 0.02, scale_known_to = 0.015 }")
		}
		err := v.Table.Read(
			toml.Key("step", d.length(&into.Step, measure.FromZero)),
			toml.Key("error", d.length(&into.Error, measure.FromZero)),
			toml.Key("runout", d.length(&into.RunOut, measure.FromZero)),
			toml.Key("scale_known_to", toml.Fraction(&into.ScaleKnownTo)),
		)
		if err == nil && into.Uncertainty() < surestLength {
			err = v.Table.Wrong("step and error are both 0: state at least a step, such as step = 0.01")
		}
		return err
	}
}

// lifts takes the name of a file of lifts, and reads it.
func (d *decoder) lifts(l *lobe.Lobe, file *string) func(toml.Value) error {
	return d.sheet(func(path string) { *file = path }, func(path string, data []byte) (err error) {
		l.Readings, err = sheet.ReadLifts(path, data, d.job.Setup.Protractor, d.job.Unit)
		return err
	})
}

// leastOpen is the least duration that any card has, at any lift: what is less has its
// opening and closing mixed up, or a side left out.
const leastOpen = 60 * geometry.Degree

// checkCard refuses a card that is not one lobe's.
func checkCard(t *toml.Table, l lobe.Lobe) error {
	opens, closes := `opens = "12 BTDC"`, `closes = "48 ABDC"`
	if l.Valve == lobe.Exhaust {
		opens, closes = `opens = "50 BBDC"`, `closes = "10 ATDC"`
	}
	switch v, has := t.Get("centre"); {
	case has && t.Has("opens", "closes"):
		return v.Wrong("the lobe has opens or closes as well: leave out centre, or both of them")
	case t.Has("closes") && !t.Has("opens"):
		return t.Missing("opens", opens+", or leave out closes")
	case t.Has("opens") && !t.Has("closes"):
		return t.Missing("closes", closes+", or leave out opens")
	}
	if v, has := t.Get("lift"); has && l.Checking() <= 0 {
		return v.Wrong("no lift is left of it on the gauge with this lash: correct lift, ratio or lash")
	}
	if v, has := t.Get("closes"); has && lobe.Timed(l.Card.Opens, l.Card.Closes).Duration() < leastOpen {
		return v.Wrong("that is less than 60 deg after it opens. Write the side of each, as in %s and %s", opens, closes)
	}
	return nil
}
