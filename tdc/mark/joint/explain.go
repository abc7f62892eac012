// Package joint finds which joints of the drive explain what the marks show: the
// fewest that must have slipped, what their sizes agree with, and what would tell
// those apart that the marks cannot.
package joint

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// mostSlips is how many joints at once are thought to have slipped, and mostWork
// how many sets of them are tried before it is enough.
const (
	mostSlips = 3
	mostWork  = 200_000
)

// Diagnosis is which joints explain what the marks say.
type Diagnosis struct {
	// Explanations are all those of the fewest slips that suffice, best first, and,
	// where chance speaks against each of those or each leaves a mark beyond its limit,
	// then those of more slips than Tried of which neither is so: one without a slip
	// when nothing need have moved, none when no set explains.
	Explanations []Explanation
	TellApart    []Look            // what would choose between them: what shows a jump of whole teeth, then the cheapest
	Unmeasured   []string          // what no mark sees, and so may have moved by anything
	Tried        int               // slips at once, the fewest that explain
	Notes        []finding.Finding // what the marks show together, whichever explanation is right
	// DetectionLimit is, when nothing need have moved, by how much any one of the
	// others may have, as sure as 95 %.
	DetectionLimit geometry.Angle

	limits map[string]geometry.Angle // the same of each part
}

// Explain finds the fewest slips that the marks can be explained by, weighing
// each mark by how well it was measured, how closely it was made and what it
// shares with the others (generalised least squares). A sound mark lies anywhere
// within its limit, so its limit is a scatter of its own: without it chance would
// blame a joint for what the maker allows.
//
// A set explains when no mark with a limit, once the slips are taken off, is
// called outside it, and when those without one are left no more than chance
// explains. So nothing is named unless a mark is called outside; and one that is
// called outside must be explained, however many others are not. A slip whose 95 %
// interval covers zero is no slip. Where chi-square rejects at 5 % all of the
// fewest, the smallest sets that it does not reject are given after them; and where
// each of them leaves a mark beyond its limit, though by no more than it is known to,
// the sets of one slip more that leave none.
func Explain(setup evidence.Setup, drive mark.Drive, findings []mark.Judged) (Diagnosis, error) {
	if len(findings) == 0 {
		return Diagnosis{}, nil
	}
	x, err := newExplainer(setup, drive, findings)
	if err != nil {
		return Diagnosis{}, err
	}
	return x.diagnosis(), nil
}

// explainer makes explanations of what the search finds.
type explainer struct {
	setup    evidence.Setup
	findings []mark.Judged
	system   *system
	groups   []group
	unseen   []int
	search   *search
	found    []finding.Finding // for Diagnosis
}

func newExplainer(setup evidence.Setup, drive mark.Drive, findings []mark.Judged) (*explainer, error) {
	marks := make([]mark.Mark, len(findings))
	for i, f := range findings {
		marks[i] = f.Mark
	}
	t, err := mark.TreeFor(drive, marks)
	if err != nil {
		return nil, err
	}
	edges := wheels(t, marks)
	v := covariance(findings, edges)
	w, err := newWhitener(v)
	if err != nil {
		return nil, err
	}
	x := &explainer{setup: setup, findings: findings}
	x.system = newSystem(t, marks, edges, x.disagreeing(edges, v))
	x.groups, x.unseen = x.system.groups()
	x.search = newSearch(w, findings, asBuilt(findings, edges), x.groups)
	return x, nil
}

// disagreeing is the edges of wheels that disagree among themselves, by mark.
func (x *explainer) disagreeing(wheels []wheel, v *mat.SymDense) map[int]bool {
	of := map[int]bool{}
	for _, w := range wheels {
		f, apart := w.apart(x.findings, v)
		if !apart {
			continue
		}
		x.found = append(x.found, f)
		for _, i := range w.marks {
			of[i] = true
		}
	}
	return of
}

func (x *explainer) diagnosis() Diagnosis {
	d := Diagnosis{Notes: x.found}
	for _, j := range x.unseen {
		d.Unmeasured = append(d.Unmeasured, x.system.parts[j].name)
	}
	fits, tried := x.fewestSlips()
	d.Tried = tried
	for _, f := range fits {
		d.Explanations = append(d.Explanations, x.explanation(f))
	}
	if len(fits) > 0 && d.Tried == 0 {
		limits := x.search.limits()
		d.DetectionLimit, d.limits = slices.Max(limits), map[string]geometry.Angle{}
		for k, g := range x.groups {
			for _, j := range g.parts {
				d.limits[x.system.parts[j].name] = limits[k]
			}
		}
	}
	if d.Tried > 0 {
		d.Notes = append(d.Notes, x.worn()...)
	}
	d.TellApart = x.countedFirst(d, x.tellApart(d.Explanations))
	return d
}

// fewestSlips is every set of the smallest size that explains the marks, best
// first, and how many slips at once were tried. Where chance speaks against each
// of them, or each leaves a mark beyond its limit, the sets that are whole of the next
// size follow.
func (x *explainer) fewestSlips() (fits []fitted, tried int) {
	most := min(mostSlips, len(x.findings))
	for size := 0; size <= most && (size == 0 || x.search.count(size) <= mostWork); size++ {
		sets := x.search.sets(size)
		if len(fits) == 0 {
			tried = size
		} else {
			sets = slices.DeleteFunc(sets, func(f fitted) bool { return !f.whole() })
		}
		x.sort(sets)
		if fits = append(fits, sets...); len(fits) > 0 && enough(fits, size, tried) {
			break
		}
	}
	return fits, tried
}

// enough tells whether no sets of more slips are sought: nothing has to have moved, or a set
// is whole, or one slip more was tried for the sake of a mark beyond its limit alone.
func enough(fits []fitted, size, tried int) bool {
	return size == 0 || slices.ContainsFunc(fits, fitted.whole) || size > tried && slices.ContainsFunc(fits, fitted.byChance)
}

// sort puts the likely first, of those the most jumps of whole teeth, then the
// lower chi-square, and of equals the smaller slips.
func (x *explainer) sort(fits []fitted) {
	least := math.Inf(1)
	for _, f := range fits {
		least = math.Min(least, f.chiSquare)
	}
	slices.SortStableFunc(fits, func(a, b fitted) int {
		return cmp.Or(first(a.likely(least), b.likely(least)), cmp.Compare(x.jumps(b), x.jumps(a)), lower(a.chiSquare, b.chiSquare), lower(a.size(), b.size()))
	})
}

// lower puts the lower first; what differs by rounding alone is equal, so that every machine
// has the same order.
func lower(a, b float64) int {
	if math.Abs(a-b) <= 1e-6*(1+a) {
		return 0
	}
	return cmp.Compare(a, b)
}

// jumps is how many slips of a set may be jumps of whole teeth.
func (x *explainer) jumps(f fitted) (n int) {
	for k, g := range f.set {
		if slices.ContainsFunc(x.groups[g].parts, func(j int) bool { return jumped(x.system.parts[j], f.slips[k]) }) {
			n++
		}
	}
	return n
}

func (x *explainer) explanation(f fitted) Explanation {
	e := Explanation{ChiSquare: f.chiSquare, DegreesOfFreedom: f.degrees, P: f.p}
	for k, g := range f.set {
		e.members = append(e.members, member{g, f.shift[k]})
		e.Slips = append(e.Slips, x.slip(x.groups[g], f.slips[k]))
	}
	return e
}

// slip is a group's, told of the joint whose slip is whole teeth first.
func (x *explainer) slip(g group, e gum.Estimate) Slip {
	order := make([]int, len(g.parts))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return first(jumped(x.system.parts[g.parts[a]], e), jumped(x.system.parts[g.parts[b]], e))
	})
	leading := geometry.Angle(g.signs[order[0]])
	s := Slip{Estimate: e}
	s.Angle *= leading
	for _, k := range order {
		p, sign := x.system.parts[g.parts[k]], geometry.Angle(g.signs[k])
		own := e
		own.Angle *= sign
		s.Joints = append(s.Joints, p.name)
		if sign != leading {
			s.Opposite = append(s.Opposite, p.name)
		}
		s.Notes = append(s.Notes, x.notes(p, own)...)
	}
	return s
}

// first puts what is so before what is not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}
