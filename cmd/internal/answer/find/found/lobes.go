package found

import (
	"fmt"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
)

// LobePair is an exhaust and an inlet lobe of one cylinder.
type LobePair struct {
	Cylinder       int
	Exhaust, Inlet string // their names
	lobe.Pair
}

// measureLobes is what the job's lobes say by cylinder 1's TDC, and by the throw of their
// own cylinder: so they share that TDC with every other mark.
func (f *All) measureLobes(result tdc.Result) error {
	for _, l := range f.Job.Lobes {
		r, read := result.OfSet(l.Set)
		if !read {
			return f.Job.Locate(mark.NotInSet(l.Mark(), result.Number))
		}
		m, err := healthy.Hold(lobe.Measure(f.Job.Setup.Protractor, lobe.From{Result: r, Throw: f.throw(l.Cylinder)}, l), f.healthy)
		if err != nil {
			return f.Job.Locate(mark.OfLobe(l.Mark(), err))
		}
		f.Lobes = append(f.Lobes, f.readAgain(result, m))
	}
	for _, exhaust := range f.Lobes {
		for _, inlet := range f.Lobes {
			if pair, ok := lobe.Paired(exhaust, inlet); ok && !f.betterPaired(exhaust, inlet) {
				f.LobePairs = append(f.LobePairs, LobePair{exhaust.Cylinder, exhaust.Name, inlet.Name, pair})
			}
		}
	}
	return nil
}

// betterPaired tells whether two lobes were read in two sets, and one of them in the
// other's as well, where they share more.
func (f All) betterPaired(a, b lobe.Measured) bool {
	return evidence.SetOf(a.Set) != evidence.SetOf(b.Set) && slices.ContainsFunc(f.Lobes, func(m lobe.Measured) bool {
		set := evidence.SetOf(m.Set)
		return m.Events != nil && (m.Name == a.Name && set == evidence.SetOf(b.Set) || m.Name == b.Name && set == evidence.SetOf(a.Set))
	})
}

// readAgain is a lobe that says nothing of its cam where it may have been read before the
// protractor moved: it has to be read again.
func (f *All) readAgain(result tdc.Result, m lobe.Measured) lobe.Measured {
	if again := mark.Again(result, []mark.Mark{m.Lobe.Mark()}); len(again) > 0 && m.Events != nil {
		f.Again = append(f.Again, again...)
		m.NoEvidence = again[0]
		m.Findings = append(m.Findings, again...)
	}
	return m
}

// throw is how far after cylinder 1's the TDC of another comes, by its nominal throw.
func (f All) throw(number int) geometry.Angle {
	for _, c := range f.Job.Cylinders {
		if c.Number == number {
			return c.Throw
		}
	}
	return 0
}

// allMarks is the job's marks, and its lobes that say where their cams stand.
func (f All) allMarks() []mark.Mark {
	list := slices.Clone(f.Job.Marks)
	for _, m := range f.Lobes {
		if k, says := m.Mark(); says {
			list = append(list, k)
		}
	}
	return list
}

// checkLobes is what is wrong with the members that lobes are on, measured or not.
func (f All) checkLobes() error {
	list := slices.Clone(f.Job.Marks)
	for _, l := range f.Job.Lobes {
		list = append(list, l.Mark())
	}
	return mark.Check(f.Job.Drive, list)
}

// OfLobes is what was found of the lobes, but for those to be read again, which Again has.
func (f All) OfLobes() (list []finding.Finding) {
	for _, m := range f.Lobes {
		for _, n := range m.Findings {
			if _, again := n.(finding.ReadBeforeMove); !again {
				list = append(list, n)
			}
		}
	}
	return list
}

// LobeName is a lobe's name, with its set where it was read in several.
func (f All) LobeName(m lobe.Measured) string {
	if slices.ContainsFunc(f.Lobes, func(other lobe.Measured) bool { return other.Name == m.Name && other.Set != m.Set }) {
		return fmt.Sprintf("%s, set %d", m.Name, evidence.SetOf(m.Set))
	}
	return m.Name
}
