package tdc

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// The names of the methods.
const (
	EqualDrop = "equal drop"
	CurveFit  = "curve fit"
)

// Method is one way's answer.
type Method struct {
	Name string
	gum.Estimate
	Readings int // that had a part in it
}

// Agreement is whether two methods that share their readings tell the same.
type Agreement struct {
	Difference geometry.Angle // equal drop less curve fit
	Limit      geometry.Angle // 95 % bound on it when nothing is wrong (Hausman1978)
}

// Agrees tells whether the difference is within its limit.
func (a Agreement) Agrees() bool {
	return math.Abs(float64(a.Difference)) <= float64(a.Limit)
}

// Contribution is what one source adds to TDC's standard uncertainty; the
// contributions add up in quadrature.
type Contribution struct {
	Source string
	Angle  geometry.Angle
}

// Judged is a reading against the curve.
type Judged struct {
	evidence.Reading
	Residual geometry.Length // depth read less the curve's at the angle read
	Weight   float64         // what the adjustment left of its pull, 1 to 0
	Suspect  bool
}

// Result is what one cylinder's evidence says.
type Result struct {
	Number     int
	TDC        gum.Estimate
	Methods    []Method
	Agreement  *Agreement   // of equal drop with the curve fit; nil where one is missing
	CrownDepth gum.Measured // what the gauge shows at TDC, mm, in its own sense
	Lash       gum.Measured // mm
	Scale      gum.Measured
	Dwell      *Dwell // nil without dwell pairs
	Budget     []Contribution
	Readings   []Judged
	Levels     []halve.Level // of equal drop, by drop
	Trend      halve.Trend   // of their midpoints
	WithAll    *gum.Estimate // TDC with suspect readings trusted; nil when none is
	Assumed    evidence.Assumed
	CannotTell finding.Finding   // why TDC is no answer to go by; nil when it is
	Findings   []finding.Finding // what weakens the answer, what must be said first before all else

	fit   *adjustment
	apart []finding.Finding // kinds of evidence that disagree with the rest
}

// AgainstTurn tells that CannotTell is for the order of what was read: the sense
// of the protractor is in doubt, its number at TDC less so.
func (r Result) AgainstTurn() bool {
	switch r.CannotTell.(type) {
	case finding.CountsContradicted, finding.SidesContradicted:
		return true
	}
	return false
}
