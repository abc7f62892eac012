package job

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// KnownGood is a known-good file: what the marks of healthy engines showed, and
// how that was measured.
type KnownGood struct {
	File  string // as it was named
	From  []Condition
	Marks []mark.Healthy
}

// Condition is how one of the engines was measured.
type Condition struct {
	Title, Date, Engine string
	Protractor, Gauge   string // in words
	Readings            int
	TDC                 geometry.Angle // its standard uncertainty
}

// noKnownGood is said of a known-good file that is not there.
const noKnownGood = "not found: check the name, or make one with evendrop keep JOB FILE"

// OpenKnownGood reads a known-good file. Whatever is wrong with it is an *Error.
func OpenKnownGood(path string) (KnownGood, error) {
	data, err := ReadFile(path, noKnownGood)
	if err != nil {
		return KnownGood{}, err
	}
	return parseKnownGood(path, data)
}

// parseKnownGood reads the bytes of a known-good file.
func parseKnownGood(name string, data []byte) (KnownGood, error) {
	data, err := plainText(name, data)
	if err != nil {
		return KnownGood{}, err
	}
	doc, err := newDocument(data)
	k := KnownGood{File: name}
	if err == nil {
		err = k.decode(doc)
	}
	if err != nil {
		return KnownGood{}, locate(name, data, err)
	}
	return k, nil
}

func (k *KnownGood) decode(doc *document) error {
	if v, is := doc.root.get("cylinder"); is {
		return faultf(v.at, "this is a job file: make a known-good file of it with evendrop keep")
	}
	err := doc.root.read(field{"from", many(k.condition)}, field{"mark", many(k.mark)})
	if err == nil && len(k.Marks) == 0 {
		err = faultf(len(doc.data), "expected a mark: make a known-good file with evendrop keep")
	}
	return err
}

// condition reads a [[from]].
func (k *KnownGood) condition(t *table) error {
	var c Condition
	err := t.read(
		field{"title", text(&c.Title)},
		field{"date", date(&c.Date)},
		field{"engine", text(&c.Engine)},
		field{"protractor", text(&c.Protractor)},
		field{"gauge", text(&c.Gauge)},
		field{"readings", whole(&c.Readings, 0, math.MaxInt32)},
		field{"tdc_standard_uncertainty", width(&c.TDC)},
	)
	k.From = append(k.From, c)
	return err
}

// mark reads a [[mark]]: as a job's, with what its place is known to.
func (k *KnownGood) mark(t *table) error {
	h := mark.Healthy{Against: "crank", DegreesOfFreedom: math.Inf(1), Engines: 1}
	var unit mark.Unit
	var off float64
	err := t.read(
		field{"name", k.newName(&h.Name)},
		field{"on", name(&h.On)},
		field{"against", name(&h.Against)},
		field{"should_be", crank(&h.Angle)},
		field{"off", size(&off, anySize)},
		field{"in", oneOf(&unit, mark.CrankDegrees)},
		field{"counts_two_turns", truth(&h.TwoTurns)},
		field{"standard_uncertainty", width(&h.Uncertainty)},
		field{"of_tdc", width(&h.OfTDC)},
		field{"scatter", width(&h.Scatter)},
		field{"degrees_of_freedom", freedom(&h.DegreesOfFreedom)},
		field{"engines", whole(&h.Engines, 1, math.MaxInt32)},
		field{"limit", width(&h.Limit)},
	)
	if err != nil {
		return err
	}
	if h.Measured = t.has("off"); h.Measured {
		h.Angle = geometry.Angle(off) * geometry.Degree
	}
	h.HasLimit = t.has("limit")
	if len(k.Marks) == mostMarks {
		return faultf(t.at, "%s: more than %d marks: expected what somebody reads on one engine", t.name, mostMarks)
	}
	k.Marks = append(k.Marks, h)
	return wholeHealthy(t, h)
}

// freedom takes degrees of freedom: of fewer than one nothing is known, and there is
// no upper bound.
func freedom(into *float64) func(value) error {
	return func(v value) error {
		x, ok := v.number()
		if !ok || x < 1 {
			return v.wrong("expected a number of 1 or more, such as 4")
		}
		*into = x
		return nil
	}
}

// newName takes a mark's name that no other has.
func (k *KnownGood) newName(into *string) func(value) error {
	return func(v value) error {
		err := name(into)(v)
		for _, other := range k.Marks {
			if err == nil && other.Name == *into {
				err = v.wrong("another mark has this name: expected a name of its own")
			}
		}
		return err
	}
}

// wholeHealthy refuses a mark that lacks a key, or contradicts itself.
func wholeHealthy(t *table, h mark.Healthy) error {
	for _, need := range [][2]string{{"name", `name = "locking pin hole"`}, {"on", `on = "flywheel"`}, {"standard_uncertainty", "standard_uncertainty = 0.15"}} {
		if !t.has(need[0]) {
			return t.missing(need[0], need[1])
		}
	}
	v, _ := t.get("standard_uncertainty")
	switch {
	case t.has("off") == t.has("should_be"):
		return faultf(t.at, "%s: expected either should_be, of a mark read on the protractor, or off", t.name)
	case h.Uncertainty < surestAngle:
		return v.wrong("expected degrees above 0, such as 0.15")
	case h.OfTDC > h.Uncertainty:
		v, _ = t.get("of_tdc")
		return v.wrong("expected a part of standard_uncertainty, no more than %s", degrees(h.Uncertainty))
	}
	return nil
}
