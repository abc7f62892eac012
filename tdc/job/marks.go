package job

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// mostMarks and mostJoints are more than any engine has, and few enough to weigh
// every one against every other.
const (
	mostMarks  = 200
	mostJoints = 100
)

// mark reads a [[mark]].
func (d *decoder) mark(t *table) error {
	m := mark.Mark{}
	s := mark.Shift{}
	err := t.read(
		field{"name", d.newName(&m.Name)},
		field{"on", name(&m.On)},
		field{"against", name(&m.Against)},
		field{"read", d.read(&m.Read)},
		field{"should_be", nominal(&m)},
		field{"zero", either(&m.Zero, "piston", mark.Piston, "throw", mark.Throw)},
		field{"off", size(&s.Value, anySize)},
		field{"in", oneOf(&s.Unit, mark.CrankDegrees, mark.CamDegrees, mark.Teeth, mark.Arc, mark.Chord)},
		field{"radius", d.length(&s.Radius, aboveNought)},
		field{"pitches", whole(&s.Pitches, 1, mostTeeth)},
		field{"known_to", size(&s.KnownTo, noughtUp)},
		field{"certain", truth(&m.Certain)},
		field{"limit", width(&m.Limit)},
		field{"source", text(&m.Source)},
	)
	if err == nil {
		err = complete(t)
	}
	if err == nil && t.has("off") {
		m.Off, err = &s, checkShift(t, s)
	}
	if err != nil {
		return err
	}
	m.HasLimit = t.has("limit")
	m.Unstated = !t.has("should_be", "off")
	if len(d.job.Marks) == mostMarks {
		return faultf(t.at, "%s: more than %d marks: expected what somebody reads on one engine", t.name, mostMarks)
	}
	d.job.Marks = append(d.job.Marks, m)
	d.job.markLines = append(d.job.markLines, lineOf(d.doc.data, t.at))
	return nil
}

// unknown is written for what a mark should be when nobody knows.
const unknown = "unknown"

// nominal takes what a mark should be, or that it is not known.
func nominal(m *mark.Mark) func(value) error {
	return func(v value) error {
		if m.Unknown = v.kind == textKind && v.text == unknown; m.Unknown {
			return nil
		}
		if crank(&m.ShouldBe)(v) != nil {
			return v.wrong(`expected crank degrees from -720 to 720, such as -12.5 or "12.5 BTDC", or "unknown"`)
		}
		return nil
	}
}

// newName takes a mark's name that no other has; a mark is told from the others
// by it, in this job and in the next.
func (d *decoder) newName(into *string) func(value) error {
	return func(v value) error {
		if err := name(into)(v); err != nil {
			return err
		}
		for _, other := range d.job.Marks {
			if other.Name == *into {
				return v.wrong("another mark has this name: expected a name of its own")
			}
		}
		return nil
	}
}

// read takes one protractor angle or a list of them.
func (d *decoder) read(into *[]geometry.Angle) func(value) error {
	return func(v value) error {
		take := func(item value) error {
			var a geometry.Angle
			err := d.protractor(&a)(item)
			*into = append(*into, a)
			return err
		}
		if v.kind != listKind {
			return take(v)
		}
		return v.each("expected protractor readings, as in [3.8, 3.9]", take)
	}
}

// size takes a number.
func size(into *float64, b bound) func(value) error {
	return func(v value) error {
		x, ok := v.number()
		if !ok || !b.holds(x) || math.Abs(x) > float64(longest) {
			return v.wrong("%s", b.of("a number"))
		}
		*into = x
		return nil
	}
}

// complete refuses a mark that lacks a key, or has two that exclude each other.
func complete(t *table) error {
	switch {
	case !t.has("name"):
		return t.missing("name", `name = "locking pin hole"`)
	case !t.has("on"):
		return t.missing("on", `on = "flywheel"`)
	case t.has("read") && t.has("off"):
		off, _ := t.get("off")
		return off.wrong("the mark has read as well: leave out the one or the other")
	case t.has("off") && !t.has("in"):
		return t.missing("in", `in = "crank degrees"`)
	case t.has("off"):
		return nil
	case !t.has("read"):
		return t.missing("read", "read = [3.8, 3.9] (or give off)")
	}
	for _, key := range []string{"in", "radius", "pitches", "known_to"} {
		if v, ok := t.get(key); ok {
			return faultf(v.keyAt, "%s: goes with off, which is missing: leave it out", key)
		}
	}
	return nil
}

// checkShift refuses a shift that is no angle.
func checkShift(t *table, s mark.Shift) error {
	switch {
	case s.Unit == mark.Teeth && s.Pitches == 0:
		return t.missing("pitches", "pitches = 42")
	case (s.Unit == mark.Arc || s.Unit == mark.Chord) && s.Radius == 0:
		return t.missing("radius", "radius = 21.0")
	}
	farthest := s.Value + math.Copysign(s.KnownTo, s.Value)
	if _, err := mark.Turn(farthest, s.Unit, s.Pitches, s.Radius); err != nil {
		off, _ := t.get("off")
		return off.wrong("%v", err)
	}
	return nil
}
