// Package knowngood reads and writes known-good files: what the marks and lobes of healthy
// engines showed, for another engine's to be compared with.
package knowngood

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
)

// File is a known-good file: what the marks of healthy engines showed, and
// how that was measured.
type File struct {
	File  string // as it was named
	From  []Condition
	Marks []mark.Healthy
	Lobes []healthy.Kept
}

// Condition is how one of the engines was measured.
type Condition struct {
	Title, Date, Engine string
	Protractor, Gauge   string // in words
	Readings            int
	TDC                 geometry.Angle // its standard uncertainty
}

// Open reads a known-good file. Whatever is wrong with it is an *Error.
func Open(path string) (File, error) {
	data, err := disk.ReadFile(path, source.Curable{Problem: "not found: check the name", Cure: source.NewKnownGood})
	if err != nil {
		return File{}, err
	}
	return Parse(path, data)
}

// Parse reads what a known-good file of such a name holds; an error has its place.
func Parse(name string, data []byte) (File, error) {
	k := File{File: name}
	if err := toml.Read(name, data, []string{"from", "mark", "lobe"}, k.decode); err != nil {
		return File{}, err
	}
	return k, nil
}

func (k *File) decode(doc *toml.Document) error {
	if v, is := doc.Root.Get("cylinder"); is {
		return v.Foreign(source.Curable{Problem: "this is a job file", Cure: source.KeepJob})
	}
	err := doc.Root.Read(toml.Key("from", toml.Many(k.condition)), toml.Key("mark", toml.Many(k.mark)), toml.Key("lobe", toml.Many(k.lobe)))
	if err == nil && len(k.Marks)+len(k.Lobes) == 0 {
		err = doc.Lacks(source.Curable{Problem: "expected a mark", Cure: source.KeepJob})
	}
	return err
}

// condition reads a [[from]].
func (k *File) condition(t *toml.Table) error {
	var c Condition
	err := t.Read(
		toml.Key("title", toml.Text(&c.Title)),
		toml.Key("date", toml.Date(&c.Date)),
		toml.Key("engine", toml.Text(&c.Engine)),
		toml.Key("protractor", toml.Text(&c.Protractor)),
		toml.Key("gauge", toml.Text(&c.Gauge)),
		toml.Key("readings", toml.Whole(&c.Readings, 0, math.MaxInt32)),
		toml.Key("tdc_standard_uncertainty", toml.Width(&c.TDC)),
	)
	k.From = append(k.From, c)
	return err
}

// mark reads a [[mark]]: as a job's, with what its place is known to.
func (k *File) mark(t *toml.Table) error {
	h := mark.Healthy{Against: "crank", DegreesOfFreedom: math.Inf(1), Engines: 1}
	var unit mark.Unit
	var off float64
	err := t.Read(
		toml.Key("name", toml.NewName(&h.Name, k.taken)),
		toml.Key("on", toml.Name(&h.On)),
		toml.Key("against", toml.Name(&h.Against)),
		toml.Key("should_be", toml.Crank(&h.Angle)),
		toml.Key("off", toml.Size(&off, measure.AnySize)),
		toml.Key("in", toml.OneOf(&unit, mark.CrankDegrees)),
		toml.Key("counts_two_turns", toml.Truth(&h.TwoTurns)),
		toml.Key("standard_uncertainty", toml.Width(&h.Uncertainty)),
		toml.Key("of_tdc", toml.Width(&h.OfTDC)),
		toml.Key("scatter", toml.Width(&h.Scatter)),
		toml.Key("degrees_of_freedom", freedom(&h.DegreesOfFreedom)),
		toml.Key("engines", toml.Whole(&h.Engines, 1, math.MaxInt32)),
		toml.Key("limit", toml.Width(&h.Limit)),
	)
	if err != nil {
		return err
	}
	if h.Measured = t.Has("off"); h.Measured {
		h.Angle = geometry.Angle(off) * geometry.Degree
	}
	h.HasLimit = t.Has("limit")
	if len(k.Marks) == job.MostMarks {
		return t.Wrong("more than %d marks: expected what somebody reads on one engine", job.MostMarks)
	}
	k.Marks = append(k.Marks, h)
	return wholeHealthy(t, h)
}

// freedom takes degrees of freedom: of fewer than one nothing is known, and there is
// no upper bound.
func freedom(into *float64) func(toml.Value) error {
	return toml.That(into, "expected a number of 1 or more, such as 4", func(x float64) bool { return x >= 1 })
}

func (k *File) taken(name string) bool {
	return slices.ContainsFunc(k.Marks, func(h mark.Healthy) bool { return h.Name == name }) ||
		slices.ContainsFunc(k.Lobes, func(l healthy.Kept) bool { return l.Name == name })
}

// wholeHealthy refuses a mark that lacks a key, or contradicts itself.
func wholeHealthy(t *toml.Table, h mark.Healthy) error {
	if err := t.Needs(`name = "locking pin hole"`, `on = "flywheel"`, "standard_uncertainty = 0.15"); err != nil {
		return err
	}
	v, _ := t.Get("standard_uncertainty")
	switch {
	case t.Has("off") == t.Has("should_be"):
		return t.Wrong("expected either should_be, of a mark read on the protractor, or off")
	case h.Uncertainty < job.SurestAngle:
		return v.Wrong("expected degrees above 0, such as 0.15")
	case h.OfTDC > h.Uncertainty:
		v, _ = t.Get("of_tdc")
		return v.Wrong("expected a part of standard_uncertainty, no more than %s", degrees(h.Uncertainty))
	}
	return nil
}
