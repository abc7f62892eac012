package tdc

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
	"evendrop/tdc/slip"
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

// Result is what one cylinder's evidence says, on the protractor as it was set last.
type Result struct {
	Number     int
	Set        int          // that it is of, from 1
	Earlier    []Result     // of the sets before it, the earliest first
	Taken      int          // readings of those sets
	TDC        gum.Estimate // as an error-free protractor would show it
	AgreeTo    gum.Estimate // TDC without the protractor's own error: what the readings agree to
	Methods    []Method
	Agreement  *Agreement   // of equal drop with the curve fit; nil where one is missing
	CrownDepth gum.Measured // what the gauge shows at TDC, mm, in its own sense
	Lash       gum.Measured // mm
	Scale      gum.Measured
	Dwell      *adjust.Dwell // nil without dwell pairs
	Budget     []adjust.Contribution
	Moved      float64    // probability that something moved while the readings were taken
	Slip       *slip.Slip // what moved: TDC is what holds since; nil when nothing is found to have
	Readings   []adjust.Judged
	Levels     []halve.Level // of equal drop, by drop
	Trend      halve.Trend   // of their midpoints
	WithAll    *gum.Estimate // TDC with suspect readings trusted; nil when none is
	Assumed    evidence.Assumed
	CannotTell finding.Finding   // why TDC is no answer to go by; nil when it is
	Findings   []finding.Finding // what weakens the answer, what must be said first before all else

	setup evidence.Setup // with the gauge as it was found to count
	fit   *adjust.Adjustment
	unit  *finding.WrongUnit
	cover []finding.Finding // where the readings lie
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

// FromTDC is how far a crank angle of the protractor lies after TDC, within half
// a turn.
func (r Result) FromTDC(angle geometry.Angle) geometry.Angle { return (angle - r.TDC.Angle).Signed() }

// Expect is what the gauge should show at an angle of the protractor, turned up
// to so, and the standard uncertainty of what it will show there.
func (r Result) Expect(angle geometry.Angle, turn evidence.TurnDirection) (depth, uncertainty geometry.Length) {
	return r.fit.Expect(angle, turn)
}

// Contradicted tells whether chance hardly makes readings of this curve scatter so: then one
// of them is wrong, or something that was stated.
func (r Result) Contradicted() bool { return r.fit.Widening.Told }

// Curve is the fitted curve at angles from TDC, with the crank turned one way.
func (r Result) Curve(turn evidence.TurnDirection, fromTDC []geometry.Angle) []adjust.CurvePoint {
	return r.fit.Curve(turn, fromTDC)
}

// Below is how far a depth of Readings lies below what the gauge shows at TDC.
func (r Result) Below(depth geometry.Length) geometry.Length { return r.fit.Below(depth) }

// ResidualUncertainty is the standard uncertainty that the instruments leave a
// residual at a point of the curve.
func (r Result) ResidualUncertainty(p adjust.CurvePoint) geometry.Length {
	return r.fit.ResidualUncertainty(p)
}

// After is how far after TDC the crank stands when the protractor shows what was
// read, repeats of one position averaged, and how sure that is.
func (r Result) After(read []geometry.Angle) position.Seen { return position.After(r.fit, read) }

// Through is a position reckoned from several places of the protractor, by their weights,
// with what is its own.
func (r Result) Through(places []position.Graduation, own gum.Component, ranges ...float64) position.Seen {
	return position.Through(r.fit, places, own, ranges...)
}

// Outlook is an outlook after the readings of the result.
func (r Result) Outlook(places []adjust.Place) *adjust.Outlook { return r.fit.Outlook(places) }

// Trials draws the whole job n times, the same for the same seed. A progress that is
// not nil is told how many are done.
func (r Result) Trials(n int, seed uint64, progress func(done int)) adjust.Trials {
	return r.fit.Trials(n, seed, progress)
}
