package job

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
)

// MostMarks and mostJoints are more than any engine has, and few enough to weigh
// every one against every other.
const (
	MostMarks  = 200
	mostJoints = 100
)

func (d *decoder) mark(t *toml.Table) error {
	m := mark.Mark{}
	s, after := mark.Shift{}, 0
	err := t.Read(
		toml.Key("name", toml.Name(&m.Name)),
		toml.Key("on", d.member(&m.On)),
		toml.Key("against", d.member(&m.Against)),
		toml.Key("read", d.read(&m.Read)),
		toml.Key("set", toml.Whole(&m.Set, 1, evidence.MostSets)),
		toml.Key("after_reading", toml.Whole(&after, 0, sheet.MostReadings)),
		toml.Key("should_be", nominal(&m)),
		toml.Key("zero", toml.Either(&m.Zero, "piston", mark.Piston, "throw", mark.Throw)),
		toml.Key("off", toml.Size(&s.Value, measure.AnySize)),
		toml.Key("in", toml.OneOf(&s.Unit, mark.CrankDegrees, mark.CamDegrees, mark.Teeth, mark.Arc, mark.Chord)),
		toml.Key("radius", d.length(&s.Radius, measure.AboveZero)),
		toml.Key("pitches", toml.Whole(&s.Pitches, 1, mostTeeth)),
		toml.Key("known_to", toml.Size(&s.KnownTo, measure.FromZero)),
		toml.Key("certain", toml.Truth(&m.Certain)),
		toml.Key("limit", toml.Width(&m.Limit)),
		toml.Key("source", toml.Text(&m.Source)),
	)
	if err == nil {
		err = complete(t)
	}
	if err == nil && t.Has("off") {
		m.Off, err = &s, checkShift(t, s)
	}
	if err != nil {
		return err
	}
	if t.Has("after_reading") {
		m.After = &after
	}
	m.HasLimit = t.Has("limit")
	m.Unstated = !t.Has("should_be", "off")
	if err := d.sameName(t, &m); err != nil {
		return err
	}
	if len(d.job.Marks) == MostMarks {
		return t.Wrong("more than %d marks: expected what somebody reads on one engine", MostMarks)
	}
	d.job.Marks = append(d.job.Marks, m)
	d.job.markLines = append(d.job.markLines, d.doc.Line(t))
	d.job.markSets = append(d.job.markSets, d.placeOf(t, "set"))
	return nil
}

// member takes the name of a member, as the drive has it. One that the drive lacks is left
// as it is written, for the check of the drive to refuse: readings can be taken without it.
func (d *decoder) member(into *string) func(toml.Value) error {
	return func(v toml.Value) error {
		err := toml.Name(into)(v)
		*into = names.Settled(*into, d.job.Drive.Members())
		return err
	}
}

// placeOf is where a key's value stands; nowhere without it.
func (d *decoder) placeOf(t *toml.Table, key string) (p place) {
	if v, has := t.Get(key); has {
		p.line, p.column = d.doc.Place(v)
	}
	return p
}

// unknown is written for what a mark should be when nobody knows.
const unknown = "unknown"

// nominal takes what a mark should be, or that it is not known.
func nominal(m *mark.Mark) func(toml.Value) error {
	return func(v toml.Value) error {
		if m.Unknown = v.Kind == toml.TextKind && names.Settled(v.Text, []string{unknown}) == unknown; m.Unknown {
			return nil
		}
		if toml.Crank(&m.ShouldBe)(v) != nil {
			return v.Wrong(`expected crank degrees from -720 to 720, such as -12.5 or "12.5 BTDC", or "unknown"`)
		}
		return nil
	}
}

// read takes one protractor angle or a list of them.
func (d *decoder) read(into *[]geometry.Angle) func(toml.Value) error {
	return func(v toml.Value) error {
		take := func(item toml.Value) error {
			var a geometry.Angle
			err := d.protractor(&a)(item)
			*into = append(*into, a)
			return err
		}
		if v.Kind != toml.ListKind {
			return take(v)
		}
		return v.Each("expected protractor readings, as in [3.8, 3.9]", take)
	}
}

// complete refuses a mark that lacks a key, or has two that exclude each other.
func complete(t *toml.Table) error {
	if err := t.Needs(`name = "locking pin hole"`, `on = "flywheel"`); err != nil {
		return err
	}
	switch {
	case t.Has("read") && t.Has("off"):
		off, _ := t.Get("off")
		return off.Wrong("the mark has read as well: leave out one of the two")
	case t.Has("off") && !t.Has("in"):
		return t.Missing("in", `in = "crank degrees"`)
	case t.Has("off") && t.Has("set"):
		set, _ := t.Get("set")
		return set.Misplaced("goes with read, which is missing: leave it out")
	case t.Has("off"):
		return onlyWithRead(t)
	case !t.Has("read"):
		return t.Missing("read", "read = [3.8, 3.9] (or give off)")
	}
	for _, key := range []string{"in", "radius", "pitches", "known_to"} {
		if v, ok := t.Get(key); ok {
			return v.Misplaced("goes with off, which is missing: leave it out")
		}
	}
	return nil
}

// onlyWithRead refuses what goes with a reading on the protractor.
func onlyWithRead(t *toml.Table) error {
	if v, ok := t.Get("after_reading"); ok {
		return v.Misplaced("goes with read, which is missing: leave it out")
	}
	return nil
}

// checkShift refuses a shift that is no angle.
func checkShift(t *toml.Table, s mark.Shift) error {
	switch {
	case s.Unit == mark.Teeth && s.Pitches == 0:
		return t.Missing("pitches", "pitches = 42")
	case (s.Unit == mark.Arc || s.Unit == mark.Chord) && s.Radius == 0:
		return t.Missing("radius", "radius = 21.0")
	}
	farthest := s.Value + math.Copysign(s.KnownTo, s.Value)
	if _, err := mark.Turn(farthest, s.Unit, s.Pitches, s.Radius); err != nil {
		off, _ := t.Get("off")
		return off.Wrong("%v", err)
	}
	return nil
}
