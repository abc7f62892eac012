package seen

import (
	"slices"

	"evendrop/tdc/mark"
)

// Kind is what sort of thing may have moved.
type Kind int

// The kinds.
const (
	Fastening Kind = iota // a joint of the drive
	Drive                 // a chain, belt or gear of it
	Sensor                // what a sensor wheel's teeth are seen by, on the block or the head
	Ground                // a mark's other half: pin boss, pointer, lock's seat
	ZeroPoint             // TDC that the marks are compared with
	Scale                 // protractor and pointer, by which TDC and marks are read
)

// Part is something that may have moved.
type Part struct {
	Name  string
	Kind  Kind
	Joint mark.Joint // of a fastening or a drive; of a sensor the joint of its wheel
	Mark  int        // of a ground part, the first of a wheel's edges
	Wheel string     // of a ground part that is the edges of a cam's wheel
}

// sensors is what each sensor wheel is seen by. A sensor that has moved shows in
// every mark that it sees, just as its wheel does.
var sensors = map[string]string{
	mark.CrankWheel: "crank sensor",
	"cam wheel":     "cam sensor",
	"inlet wheel":   "inlet cam sensor",
	"exhaust wheel": "exhaust cam sensor",
}

// IsZero tells whether a part is what all marks are compared with, or what they and it were
// read by.
func (p Part) IsZero() bool { return p.Kind == ZeroPoint || p.Kind == Scale }

// Sensed tells whether a member is a sensor wheel of the layouts.
func Sensed(member string) bool { return sensors[member] != "" }

// TDC is what is said to have moved when the marks agree with one another and not with
// the piston.
const TDC = "TDC of cylinder 1"

// Protractor is what is said to have moved instead where the other cylinders' TDCs agree with
// the first one's.
const Protractor = "protractor or pointer"

// IsZero tells whether a part's name is that of what all marks are compared with, or of what
// they and it were read by.
func IsZero(name string) bool { return name == TDC || name == Protractor }

// addParts is the parts of the tree, with the marks' other halves, and how each mark shows
// them.
func (s *System) addParts(grounds []grounded) {
	for _, j := range s.Tree.Joints {
		k := Fastening
		if j.Jumps() {
			k = Drive
		}
		s.Parts = append(s.Parts, Part{Name: j.Name(), Kind: k, Joint: j})
	}
	for _, j := range s.Tree.Joints {
		if Sensed(j.Carried) {
			s.Parts = append(s.Parts, Part{Name: sensors[j.Carried], Kind: Sensor, Joint: j})
		}
	}
	first := len(s.Parts)
	for _, g := range grounds {
		s.Parts = append(s.Parts, g.part)
	}
	s.Parts = append(s.Parts, Part{Name: TDC, Kind: ZeroPoint})
	if s.witnesses != nil {
		s.Parts = append(s.Parts, Part{Name: Protractor, Kind: Scale})
	}
	for i, m := range s.Marks {
		row := s.Row(m.On, m.Reference())
		for k, g := range grounds {
			row[first+k] = g.shows[i]
		}
		s.Shows = append(s.Shows, row)
	}
}

// grounded is a ground part, and how each mark shows it.
type grounded struct {
	part  Part
	shows map[int]float64
}

// grounds is the marks' other halves. What a cam's wheel is seen against moves all its
// edges; one of them alone moves by itself only where they disagree.
func (s *System) grounds(wheels []wheel, disagree map[int]bool) (list []grounded) {
	edge := map[int]bool{}
	for _, w := range wheels {
		g := grounded{Part{Name: w.itself(), Kind: Ground, Mark: w.marks[0], Wheel: w.name}, map[int]float64{}}
		for k, i := range w.marks {
			edge[i] = true
			if !s.Marks[i].Certain {
				g.shows[i] = w.signs[k]
			}
		}
		if len(g.shows) > 0 {
			list = append(list, g)
		}
	}
	for i, m := range s.Marks {
		if !m.Certain && (!edge[i] || disagree[i]) {
			list = append(list, grounded{Part{Name: m.Itself(), Kind: Ground, Mark: i}, map[int]float64{i: 1}})
		}
	}
	return list
}

// Row is how a mark on one member against another shows each part, but for its own ground
// part.
func (s *System) Row(on, against string) []float64 {
	row := make([]float64, len(s.Parts))
	for _, i := range s.Tree.Path(on) {
		row[i]++
	}
	for _, i := range s.Tree.Path(against) {
		row[i]--
	}
	for j, p := range s.Parts {
		switch {
		case p.Kind == Sensor && p.Joint.Carried == on && (Sensed(against) || against == mark.Crank):
			row[j]++
		case p.Kind == Sensor && p.Joint.Carried == against && Sensed(on):
			row[j]--
		case p.IsZero() && against == mark.Crank:
			row[j]++
		}
	}
	return row
}

// OfLobe tells whether a part is a cam lobe itself, or its follower.
func (s *System) OfLobe(p Part) bool { return p.Kind == Ground && s.Marks[p.Mark].Lobe != nil }

// Group is parts that the marks cannot tell apart: their columns are equal, or
// opposite.
type Group struct {
	Parts  []int
	Signs  []float64 // of each part's column against the group's
	Column []float64 // how each mark shows it
}

// addGroups gathers the parts by column, in the order of the parts.
func (s *System) addGroups() {
	for j := range s.Parts {
		column, opposite := make([]float64, len(s.Shows)), make([]float64, len(s.Shows))
		seen := false
		for i, row := range s.Shows {
			column[i], opposite[i] = row[j], -row[j]
			seen = seen || row[j] != 0
		}
		if !seen {
			s.Unseen = append(s.Unseen, j)
			continue
		}
		at, sign := -1, 1.0
		for k, g := range s.Groups {
			if slices.Equal(g.Column, column) {
				at = k
			} else if slices.Equal(g.Column, opposite) {
				at, sign = k, -1
			}
		}
		if at < 0 {
			at = len(s.Groups)
			s.Groups = append(s.Groups, Group{Column: column})
		}
		s.Groups[at].Parts = append(s.Groups[at].Parts, j)
		s.Groups[at].Signs = append(s.Groups[at].Signs, sign)
	}
}
