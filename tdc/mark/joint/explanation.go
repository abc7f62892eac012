package joint

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark/joint/inspect"
)

// Diagnosis is which joints explain what the marks say.
type Diagnosis struct {
	// Explanations are all those of the fewest slips that suffice, best first, and,
	// where chance speaks against each of those or each leaves a mark beyond its limit,
	// then those of more slips than Tried of which neither is so: one without a slip
	// when nothing need have moved, none when no set explains.
	Explanations []Explanation
	OnBench      bool              // the fewest need the protractor or pointer to have moved; those of more slips do not
	GivenAngles  bool              // no more slips would do, had witnesses not left of one only given angles that count from elsewhere
	TellApart    []inspect.Look    // what would choose between them: what shows a jump of whole teeth, then the cheapest
	Unmeasured   []string          // what no mark sees, and so may have moved by anything
	Tried        int               // slips at once, the fewest that explain
	Notes        []finding.Finding // what the marks show together, whichever explanation is right
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
}

// ByLimits tells whether an explanation stands only because it leaves every mark
// within its limit: that so many lie so near the ends of theirs, chance alone does
// not explain.
func (e Explanation) ByLimits() bool {
	return e.DegreesOfFreedom > 0 && e.ChiSquare > chiSquare95(e.DegreesOfFreedom)
}

// muchLess is by how much more chi-square an explanation is much less likely than
// another: the 0.95 quantile of one degree of freedom, likelihoods of 7 to 1.
var muchLess = chiSquare95(1)

// Ranked parts the explanations: of the fewest slips those that neither chance nor
// a better one speaks against, and the others; and those of more slips. Where
// chance speaks against all of the fewest, the first are the best of them.
func (d Diagnosis) Ranked() (likely, less, more []Explanation) {
	least, forgiven := math.Inf(1), true
	for _, e := range d.Explanations {
		if len(e.Slips) <= d.Tried {
			least, forgiven = math.Min(least, e.ChiSquare), forgiven && e.ByLimits()
		}
	}
	for _, e := range d.Explanations {
		switch {
		case len(e.Slips) > d.Tried:
			more = append(more, e)
		case e.ChiSquare > least+muchLess || e.ByLimits() && !forgiven:
			less = append(less, e)
		default:
			likely = append(likely, e)
		}
	}
	return likely, less, more
}

// Slip is a joint that has moved, or one of several.
type Slip struct {
	Joints       []string          // more than one: nothing measured so far separates them
	Opposite     []string          // those of them that would have moved the other way
	gum.Estimate                   // late positive
	Notes        []finding.Finding // what its size agrees with
}

// jumps tells whether an explanation has a joint jump by whole teeth.
func (e Explanation) jumps(joint string) bool {
	return slices.ContainsFunc(e.Slips, func(s Slip) bool {
		return slices.ContainsFunc(s.Teeth(), func(w finding.WholeSteps) bool { return w.Name == joint })
	})
}

// Teeth is what its notes say of whole teeth that it agrees with, a joint each.
func (s Slip) Teeth() (list []finding.WholeSteps) {
	for _, n := range s.Notes {
		if w, is := n.(finding.WholeSteps); is && w.Step == finding.Tooth {
			list = append(list, w)
		}
	}
	return list
}

// Finding is the slip as a finding has it.
func (s Slip) Finding() finding.Slip {
	return finding.Slip{Joints: s.Joints, Opposite: s.Opposite, Off: s.Angle, Expanded: s.Expanded}
}
