// Package joint finds which joints of the drive explain what the marks show: the
// fewest that must have slipped, what their sizes agree with, and what would tell
// those apart that the marks cannot.
package joint

import (
	"cmp"
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/fit/subset"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/joint/seen"
)

// mostWork is how many sets of joints are tried before it is enough.
const mostWork = 200_000

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
//
// Witnesses, nil without, tell whether the first cylinder's TDC may be what is wrong, or the
// protractor. Where they leave that alone, the fewest may all need the protractor or pointer to
// have moved, which is not a part of the engine: the sets of one slip more that do without are
// given too.
func Explain(setup evidence.Setup, drive mark.Drive, findings []mark.Judged, w *seen.Witnesses) (Diagnosis, error) {
	if len(findings) == 0 {
		return Diagnosis{}, nil
	}
	x, err := newExplainer(setup, drive, findings, w)
	if err != nil {
		return Diagnosis{}, err
	}
	return x.diagnosis(), nil
}

// explainer makes explanations of what the search finds.
type explainer struct {
	sizes
	search *search
}

func newExplainer(setup evidence.Setup, drive mark.Drive, findings []mark.Judged, w *seen.Witnesses) (*explainer, error) {
	s, err := seen.Of(drive, findings, w)
	if err != nil {
		return nil, err
	}
	search, err := newSearch(s)
	if err != nil {
		return nil, err
	}
	return &explainer{sizes{s, setup}, search}, nil
}

func (x *explainer) diagnosis() Diagnosis {
	d := Diagnosis{Notes: x.Apart}
	for _, j := range x.Unseen {
		if x.Parts[j].Kind != seen.Scale { // the first cylinder's TDC stands for it
			d.Unmeasured = append(d.Unmeasured, x.Parts[j].Name)
		}
	}
	fits, tried, given := x.fewestSlips()
	d.Tried, d.GivenAngles = tried, given
	d.OnBench = len(fits) > 0 && !slices.ContainsFunc(fits, func(f fitted) bool { return len(f.set) == tried && x.offBench(f) })
	for _, f := range fits {
		d.Explanations = append(d.Explanations, x.explanation(f))
	}
	if len(fits) > 0 && d.Tried == 0 {
		limits := x.search.limits()
		d.DetectionLimit, d.limits = slices.Max(limits), map[string]geometry.Angle{}
		for k, g := range x.Groups {
			for _, j := range g.Parts {
				d.limits[x.Parts[j].Name] = limits[k]
			}
		}
	}
	if d.Tried > 0 {
		d.Notes = append(d.Notes, worn(x.sizes, x.search)...)
	}
	sets := make([]inspect.Set, len(fits))
	for i, f := range fits {
		sets[i] = inspect.Set{Groups: f.set, Shifts: f.shift}
		for k, g := range f.set {
			sets[i].Left = append(sets[i].Left, x.Left(x.Groups[g], f.slips[k]))
		}
	}
	d.TellApart = inspect.Next(x.System, sets, x.mayHaveJumped(d))
	return d
}

// mayHaveJumped is the parts that the likely explanations have jump by whole teeth.
func (x *explainer) mayHaveJumped(d Diagnosis) (parts []int) {
	likely, _, _ := d.Ranked()
	for j, p := range x.Parts {
		if slices.ContainsFunc(likely, func(e Explanation) bool { return e.jumps(p.Name) }) {
			parts = append(parts, j)
		}
	}
	return parts
}

// fewestSlips is every set of the smallest size that explains the marks, best
// first, and how many slips at once were tried. Where chance speaks against each
// of them, or each leaves a mark beyond its limit, the sets that are whole of the next
// size follow; where each is of the bench, those of them that are not. Of what witnesses
// speak against, given angles that count from elsewhere are left.
func (x *explainer) fewestSlips() (fits []fitted, tried int, given bool) {
	most := min(subset.Most, len(x.Marks))
	for size := 0; size <= most && (size == 0 || x.search.count(size) <= mostWork); size++ {
		sets := x.search.sets(size)
		found := len(sets)
		sets = slices.DeleteFunc(sets, x.refuted)
		given = given || len(sets) < found
		if len(fits) == 0 {
			tried = size
		} else {
			bench := !slices.ContainsFunc(fits, x.offBench)
			sets = slices.DeleteFunc(sets, func(f fitted) bool { return !f.whole() || bench && x.onBench(f) })
		}
		x.sort(sets)
		if fits = append(fits, sets...); len(fits) > 0 && x.enough(fits, size, tried) {
			break
		}
	}
	return fits, tried, given
}

// enough tells whether no sets of more slips are sought: nothing has to have moved, or a set
// of the engine's parts is whole, or one slip more was tried for the sake of a mark beyond its
// limit alone, or of the engine's parts.
func (x *explainer) enough(fits []fitted, size, tried int) bool {
	whole := func(f fitted) bool { return f.whole() && x.offBench(f) }
	return size == 0 || slices.ContainsFunc(fits, whole) || size > tried && slices.ContainsFunc(fits, fitted.byChance)
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
		if slices.ContainsFunc(x.Groups[g].Parts, func(j int) bool { return jumped(x.Parts[j], f.slips[k]) }) {
			n++
		}
	}
	return n
}

func (x *explainer) explanation(f fitted) Explanation {
	e := Explanation{ChiSquare: f.chiSquare, DegreesOfFreedom: f.degrees, P: f.p}
	for k, g := range f.set {
		e.Slips = append(e.Slips, x.slip(x.Groups[g], f.slips[k]))
	}
	return e
}

// slip is a group's, told of the joint whose slip is whole teeth first.
func (x *explainer) slip(g seen.Group, e gum.Estimate) Slip {
	order := x.Left(g, e)
	slices.SortStableFunc(order, func(a, b int) int {
		return first(jumped(x.Parts[g.Parts[a]], e), jumped(x.Parts[g.Parts[b]], e))
	})
	leading := geometry.Angle(g.Signs[order[0]])
	s := Slip{Estimate: e}
	s.Angle *= leading
	for _, k := range order {
		p, sign := x.Parts[g.Parts[k]], geometry.Angle(g.Signs[k])
		own := e
		own.Angle *= sign
		s.Joints = append(s.Joints, p.Name)
		if sign != leading {
			s.Opposite = append(s.Opposite, p.Name)
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
