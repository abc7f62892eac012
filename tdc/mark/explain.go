package mark

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc"
)

// mostSlips is how many joints at once are thought to have slipped, and mostWork
// how many sets of them are tried before it is enough.
const (
	mostSlips = 3
	mostWork  = 200_000
)

// Diagnosis is which joints explain what the marks say.
type Diagnosis struct {
	// Explanations are all those of the fewest slips that suffice, best first: one
	// without a slip when nothing need have moved, none when no set explains.
	Explanations []Explanation
	TellApart    []Look   // what would choose between them, cheapest first
	Unmeasured   []string // what no mark sees, and so may have moved by anything
	Tried        int      // slips at once
	// DetectionLimit is, when nothing need have moved, by how much any one of the
	// others may have, as sure as 95 %.
	DetectionLimit geometry.Angle

	limits map[string]geometry.Angle // the same of each part
}

// Explanation is a set of slips that agrees with every mark.
type Explanation struct {
	Slips            []Slip
	ChiSquare        float64
	DegreesOfFreedom int
	P                float64 // of a greater chi-square by chance; not a number without degrees of freedom

	members []member
}

// ByLimits tells whether an explanation stands only because it leaves every mark
// within its limit: chance alone does not explain what it leaves.
func (e Explanation) ByLimits() bool {
	return e.DegreesOfFreedom > 0 && e.ChiSquare > chiSquare95(e.DegreesOfFreedom)
}

// Slip is a joint that has moved, or one of several.
type Slip struct {
	Joints       []string // more than one: nothing measured so far separates them
	Opposite     []string // those of them that would have moved the other way
	tdc.Estimate          // late positive
	Notes        []string // what its size agrees with
}

// member is a group in an explanation, by number, and its slip in radians.
type member struct {
	group int
	shift float64
}

// Explain finds the fewest slips that the marks can be explained by, weighing
// each by its uncertainty and what it shares with the others (generalised least
// squares). A set is kept when chi-square does not reject it at 5 % or when it
// leaves every mark within its limit, a slip inside the limits being no finding.
// A mark called outside its limit is a finding, however many others are not; and
// a slip that may as well be nought explains nothing.
func Explain(setup tdc.Setup, drive Drive, findings []Finding) (Diagnosis, error) {
	if len(findings) == 0 {
		return Diagnosis{}, nil
	}
	x, err := newExplainer(setup, drive, findings)
	if err != nil {
		return Diagnosis{}, err
	}
	return x.diagnosis(), nil
}

// explainer puts what the search finds into words and numbers.
type explainer struct {
	setup    tdc.Setup
	findings []Finding
	system   *system
	groups   []group
	unseen   []int
	search   *search
}

func newExplainer(setup tdc.Setup, drive Drive, findings []Finding) (*explainer, error) {
	marks := make([]Mark, len(findings))
	for i, f := range findings {
		marks[i] = f.Mark
	}
	t, err := treeFor(drive, marks)
	if err != nil {
		return nil, err
	}
	w, err := newWhitener(findings)
	if err != nil {
		return nil, err
	}
	x := &explainer{setup: setup, findings: findings, system: newSystem(t, marks)}
	x.groups, x.unseen = x.system.groups()
	x.search = newSearch(w, findings, x.groups)
	return x, nil
}

func (x *explainer) diagnosis() Diagnosis {
	d := Diagnosis{}
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
	d.TellApart = x.tellApart(d.Explanations)
	return d
}

// fewestSlips is every set of the smallest size that explains the marks, best
// first, and how many slips at once were tried.
func (x *explainer) fewestSlips() (fits []fitted, tried int) {
	for ; ; tried++ {
		fits = x.search.sets(tried)
		if len(fits) > 0 || tried == min(mostSlips, len(x.findings)) || x.search.count(tried+1) > mostWork {
			slices.SortStableFunc(fits, better)
			return fits, tried
		}
	}
}

// better puts the lower chi-square first, and of equals the smaller slips.
func better(a, b fitted) int {
	if math.Abs(a.chiSquare-b.chiSquare) > 1e-6*(1+a.chiSquare) {
		return cmp.Compare(a.chiSquare, b.chiSquare)
	}
	return cmp.Compare(a.size(), b.size())
}

func (x *explainer) explanation(f fitted) Explanation {
	e := Explanation{ChiSquare: f.chiSquare, DegreesOfFreedom: f.degrees, P: f.p}
	wide := 1.0 // Birge: what limits forgave and chance does not explain
	if f.degrees > 0 {
		wide = math.Sqrt(math.Max(1, f.chiSquare/float64(f.degrees)))
	}
	for k, g := range f.set {
		e.members = append(e.members, member{g, f.shift[k]})
		spread := tdc.Spread{Normal: []tdc.Component{{Standard: wide * f.uncertainty[k], Degrees: x.fewest()}}}
		e.Slips = append(e.Slips, x.slip(x.groups[g], spread.Estimate(geometry.Angle(f.shift[k]))))
	}
	return e
}

// fewest is the degrees of freedom behind the least known of the marks.
func (x *explainer) fewest() float64 {
	fewest := math.Inf(1)
	for _, f := range x.findings {
		fewest = math.Min(fewest, f.DegreesOfFreedom)
	}
	return fewest
}

func (x *explainer) slip(g group, e tdc.Estimate) Slip {
	s := Slip{Estimate: e}
	for k, j := range g.parts {
		p := x.system.parts[j]
		own := e
		own.Angle = geometry.Angle(g.signs[k]) * e.Angle
		s.Joints = append(s.Joints, p.name)
		if g.signs[k] < 0 {
			s.Opposite = append(s.Opposite, p.name)
		}
		s.Notes = append(s.Notes, x.notes(p, own)...)
	}
	return s
}
