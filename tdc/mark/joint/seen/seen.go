// Package seen is what marks see: what may have moved in a drive, how each mark shows it,
// and what the marks share of how they were read and made.
package seen

import (
	"gonum.org/v1/gonum/mat"

	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// System is what marks measure: each is off by the sum over parts of how late they have
// moved, times how it shows them.
type System struct {
	Tree       *mark.Tree
	Marks      []mark.Judged
	Parts      []Part
	Shows      [][]float64       // how each mark shows each part
	Groups     []Group           // of parts that the marks see
	Unseen     []int             // parts that no mark sees
	Covariance *mat.SymDense     // of the marks, radians squared
	Built      []Built           // of that, how they were made
	Apart      []finding.Finding // wheels whose edges disagree among themselves
	witnesses  *Witnesses
}

// Of is what the marks of a drive see, beside what witnesses say, nil where there are none;
// an error where the drive cannot be understood.
func Of(drive mark.Drive, marks []mark.Judged, w *Witnesses) (*System, error) {
	plain := make([]mark.Mark, len(marks))
	for i, m := range marks {
		plain[i] = m.Mark
	}
	t, err := mark.TreeFor(drive, plain)
	if err != nil {
		return nil, err
	}
	edges := wheels(t, plain)
	s := &System{Tree: t, Marks: marks, Built: asBuilt(marks, edges), witnesses: w}
	s.Covariance = covariance(marks, edges, s.Built)
	s.addParts(s.grounds(edges, s.disagreeing(edges)))
	s.addGroups()
	return s, nil
}

// disagreeing is the edges of wheels that disagree among themselves, by mark.
func (s *System) disagreeing(wheels []wheel) map[int]bool {
	of := map[int]bool{}
	for _, w := range wheels {
		f, apart := w.apart(s.Marks, s.Covariance)
		if !apart {
			continue
		}
		s.Apart = append(s.Apart, f)
		for _, i := range w.marks {
			of[i] = true
		}
	}
	return of
}
