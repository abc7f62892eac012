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
	mark  int        // of a ground part
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

func newSystem(t *mark.Tree, marks []mark.Mark) *system {
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
	for i, m := range marks {
		if !m.Certain {
			s.parts = append(s.parts, part{name: m.Itself(), kind: ground, mark: i})
		}
	}
	s.parts = append(s.parts, part{name: TDCPart, kind: zeroPoint})
	for i, m := range marks {
		row := s.row(m.On, m.Reference())
		for j, p := range s.parts {
			if p.kind == ground && p.mark == i {
				row[j] = 1
			}
		}
		s.incidence = append(s.incidence, row)
	}
	return s
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
