package found

import (
	"slices"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
)

// Isolated is f with every name from outside between marks that keep its direction of
// writing to itself.
func (f All) Isolated() All {
	isolate(&f.Job.Title)
	isolate(&f.Job.Setup.Engine.Name)
	f.Marks, f.Measured = each(f.Marks, isolateMark), each(f.Measured, isolateMark)
	f.Lobes = each(f.Lobes, func(m *lobe.Measured) { isolate(&m.Name) })
	f.LobePairs = each(f.LobePairs, func(p *LobePair) {
		isolate(&p.Exhaust)
		isolate(&p.Inlet)
	})
	d := &f.Diagnosis
	d.Unmeasured = each(d.Unmeasured, isolate)
	d.TellApart = each(d.TellApart, func(l *inspect.Look) {
		isolate(&l.Part)
		isolate(&l.On)
		l.Apart = each(l.Apart, isolate)
	})
	d.Explanations = each(d.Explanations, func(e *joint.Explanation) {
		e.Slips = each(e.Slips, func(s *joint.Slip) {
			s.Joints, s.Opposite = each(s.Joints, isolate), each(s.Opposite, isolate)
		})
	})
	return f
}

func isolate(name *string) { *name = legible.Isolated(*name) }

func isolateMark(m *mark.Judged) {
	isolate(&m.Name)
	isolate(&m.Source)
}

// each is a list of its own with every item changed.
func each[T any](list []T, change func(*T)) []T {
	list = slices.Clone(list)
	for i := range list {
		change(&list[i])
	}
	return list
}
