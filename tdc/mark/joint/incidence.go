package joint

import (
	"slices"

	"evendrop/tdc/mark"
)

// kind is what sort of thing may have moved.
type kind int

const (
	fastening kind = iota // a joint of the drive
	drive                 // a chain, belt or gear of it
	sensor                // what a sensor wheel's teeth are seen by, on the block or the head
	ground                // a mark's other half: pin boss, pointer, lock's seat
	zeroPoint             // TDC that the marks are compared with
)

// part is something that may have moved.
type part struct {
	name  string
	kind  kind
	joint mark.Joint // of a fastening or a drive
	mark  int        // of a ground part, the first of a wheel's edges
	wheel string     // of a ground part that is the edges of a cam's wheel
}

// sensors is what each sensor wheel is seen by. A sensor that has moved shows in
// every mark that it sees, just as its wheel does.
var sensors = map[string]string{
	mark.CrankWheel: "crank sensor",
	"cam wheel":     "cam sensor",
	"inlet wheel":   "inlet cam sensor",
	"exhaust wheel": "exhaust cam sensor",
}

// TDCPart is what is said to have moved when the marks agree with one another and
// not with the piston.
const TDCPart = "TDC of cylinder 1"

// system is what the marks measure: mark i is off by the sum over parts j of
// incidence[i][j] times how late part j has moved.
type system struct {
	tree      *mark.Tree
	parts     []part
	incidence [][]float64
}

// newSystem is the marks of a drive, of which some are edges of one cam's wheel, and some
// of those disagree: a tooth of its own may then be to blame.
func newSystem(t *mark.Tree, marks []mark.Mark, wheels []wheel, disagree map[int]bool) *system {
	s := &system{tree: t}
	for _, j := range t.Joints {
		k := fastening
		if j.Jumps() {
			k = drive
		}
		s.parts = append(s.parts, part{name: j.Name(), kind: k, joint: j})
	}
	for _, j := range t.Joints {
		if name, has := sensors[j.Carried]; has {
			s.parts = append(s.parts, part{name: name, kind: sensor, joint: j})
		}
	}
	grounds := s.grounds(marks, wheels, disagree)
	for _, g := range grounds {
		s.parts = append(s.parts, g.part)
	}
	s.parts = append(s.parts, part{name: TDCPart, kind: zeroPoint})
	for i, m := range marks {
		row := s.row(m.On, m.Reference())
		for k, g := range grounds {
			row[len(s.parts)-1-len(grounds)+k] = g.shows[i]
		}
		s.incidence = append(s.incidence, row)
	}
	return s
}

// grounded is a ground part, and how each mark shows it.
type grounded struct {
	part  part
	shows map[int]float64
}

// grounds is the marks' other halves. What a cam's wheel is seen against moves all its
// edges; one of them alone moves by itself only where they disagree.
func (s *system) grounds(marks []mark.Mark, wheels []wheel, disagree map[int]bool) (list []grounded) {
	edge := map[int]bool{}
	for _, w := range wheels {
		g := grounded{part{name: w.itself(), kind: ground, mark: w.marks[0], wheel: w.name}, map[int]float64{}}
		for k, i := range w.marks {
			edge[i] = true
			if !marks[i].Certain {
				g.shows[i] = w.signs[k]
			}
		}
		if len(g.shows) > 0 {
			list = append(list, g)
		}
	}
	for i, m := range marks {
		if !m.Certain && (!edge[i] || disagree[i]) {
			list = append(list, grounded{part{name: m.Itself(), kind: ground, mark: i}, map[int]float64{i: 1}})
		}
	}
	return list
}

// row is what a mark on one member against another measures, but for its own
// ground part.
func (s *system) row(on, against string) []float64 {
	row := make([]float64, len(s.parts))
	for _, i := range s.tree.Path(on) {
		row[i]++
	}
	for _, i := range s.tree.Path(against) {
		row[i]--
	}
	_, sensed := sensors[against]
	for j, p := range s.parts {
		switch {
		case p.kind == sensor && p.joint.Carried == on && (sensed || against == mark.Crank):
			row[j]++
		case p.kind == sensor && p.joint.Carried == against && sensors[on] != "":
			row[j]--
		case p.kind == zeroPoint && against == mark.Crank:
			row[j]++
		}
	}
	return row
}

// group is parts that the marks cannot tell apart: their columns are equal, or
// opposite.
type group struct {
	parts  []int
	signs  []float64 // of each part's column against the group's
	column []float64
}

// groups gathers the parts by column, in the order of the parts; unseen are
// those that no mark sees.
func (s *system) groups() (groups []group, unseen []int) {
	for j := range s.parts {
		column, opposite := make([]float64, len(s.incidence)), make([]float64, len(s.incidence))
		seen := false
		for i, row := range s.incidence {
			column[i], opposite[i] = row[j], -row[j]
			seen = seen || row[j] != 0
		}
		if !seen {
			unseen = append(unseen, j)
			continue
		}
		at, sign := -1, 1.0
		for k, g := range groups {
			if slices.Equal(g.column, column) {
				at = k
			} else if slices.Equal(g.column, opposite) {
				at, sign = k, -1
			}
		}
		if at < 0 {
			at = len(groups)
			groups = append(groups, group{column: column})
		}
		groups[at].parts = append(groups[at].parts, j)
		groups[at].signs = append(groups[at].signs, sign)
	}
	return groups, unseen
}
