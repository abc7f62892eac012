package healthy

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// Laid is a lobe laid on a healthy engine's curve.
type Laid struct {
	Shift    gum.Estimate  // crank, late positive
	Seen     position.Seen // the shift as the protractor showed it
	Offset   gum.Measured  // mm of lift that is missing
	times    gum.Measured  // what the gauge shows of the healthy lift, by the flanks alone
	scale    float64       // what this gauge shows more of a lift than the curve's, as a share
	readings int
	// Misfit is chi-square a degree of freedom with shift and missing lift free; without the
	// missing lift it is ByShift, far more where some is.
	Misfit, ByShift float64
}

// Findings is what the lobe's lift is out by: by the same everywhere, or more so the higher.
func (l Laid) Findings(name string) []finding.Finding {
	of := finding.Mark{Name: name}
	if off := l.times.Value - 1; math.Abs(off) > lobe.Spoken*l.times.Uncertainty {
		return []finding.Finding{finding.RatioOff{Mark: of, Times: l.times.Value, Expanded: 2 * l.times.Uncertainty}}
	}
	if math.Abs(l.Offset.Value) > lobe.Spoken*l.Offset.Uncertainty {
		return []finding.Finding{finding.LiftOffset{Mark: of, Offset: geometry.Length(l.Offset.Value), Expanded: geometry.Length(2 * l.Offset.Uncertainty)}}
	}
	return nil
}

// Lay lays a lobe on a curve, with its shift and its missing lift free; false where too few
// of its readings lie on what the curve has of both flanks.
func Lay(c Curve, m lobe.Measured) (Laid, bool) {
	p, ok := newProblem(c, m)
	if !ok {
		return Laid{}, false
	}
	shift, ok1 := p.solve([]int{late, scale}, p.scales())
	both, ok2 := p.solve([]int{late, lost, scale}, p.scales())
	scaled, ok3 := p.solve([]int{late, lost, scale}, math.Inf(1))
	if !ok1 || !ok2 || !ok3 {
		return Laid{}, false
	}
	l := Laid{readings: len(p.of), Misfit: both.chi, ByShift: shift.chi, scale: both.theta[scale]}
	l.Offset = p.offset(both)
	l.times = gum.Measured{Value: 1 + scaled.theta[scale], Uncertainty: math.Hypot(math.Sqrt(scaled.cov.At(scale, scale)), p.scales())}
	l.Seen = p.seen(both, late)
	spread := l.Seen.Spread()
	spread.Normal = append(spread.Normal, gum.Component{Standard: float64(c.Shared), Degrees: math.Inf(1)}, c.among())
	l.Shift = spread.Estimate(geometry.Angle(both.theta[late]).Signed())
	return l, true
}

// problem is a lobe's readings beside the flanks of a curve.
type problem struct {
	m      lobe.Measured
	c      Curve
	points []lobe.Point
	of     []int // points that lie on it
	flanks map[bool]flank
}

func newProblem(c Curve, m lobe.Measured) (p problem, ok bool) {
	p = problem{m: m, c: c, points: m.Points(), flanks: map[bool]flank{}}
	count := map[bool]int{}
	for _, opens := range []bool{true, false} {
		f, ok := c.flank(opens)
		if !ok {
			return p, false
		}
		p.flanks[opens] = f
	}
	for i, point := range p.points {
		if lift := float64(point.Lift); c.flanks(lift) && p.flanks[point.Opens].reaches(c.straight(lift)) {
			p.of = append(p.of, i)
			count[point.Opens]++
		}
	}
	return p, count[true] > 1 && count[false] > 1
}

// scales is the standard uncertainty of the gauge's scale beside that of the curve's.
func (p problem) scales() float64 { return math.Hypot(p.c.Scale, p.m.Gauge.ScaleKnownTo/math.Sqrt(3)) }

// The parameters, in theta.
const (
	late  = iota // radians
	lost         // mm
	scale        // what it is more than 1
)

// solution is shift, missing lift, and what the scale is more than 1.
type solution struct {
	theta [3]float64
	cov   mat.Dense // by all that scatters
	gain  mat.Dense // how theta answers to each reading's angle
	chi   float64   // a degree of freedom
}

// mostSteps is far more than a good start takes.
const mostSteps = 30

// solve fits some of the parameters by generalised least squares, the scale within its
// standard uncertainty.
func (p problem) solve(free []int, scales float64) (s solution, ok bool) {
	n, count := len(p.of), len(free)
	if n <= count {
		return s, false
	}
	for range mostSteps {
		jac, rest, v := p.linear(s.theta, free)
		var chol mat.Cholesky
		var vj, vr, normal, right, step, chi mat.Dense
		if !chol.Factorize(v) || chol.SolveTo(&vj, jac) != nil || chol.SolveTo(&vr, rest) != nil {
			return s, false
		}
		normal.Mul(jac.T(), &vj)
		right.Mul(vj.T(), rest)
		last, known := count-1, 1/(scales*scales) // the scale is the last
		normal.Set(last, last, normal.At(last, last)+known)
		right.Set(last, 0, right.At(last, 0)-known*s.theta[scale])
		s.cov, s.gain = mat.Dense{}, mat.Dense{}
		if s.cov.Inverse(&normal) != nil {
			return s, false
		}
		s.gain.Mul(&s.cov, vj.T())
		step.Mul(&s.cov, &right)
		chi.Mul(rest.T(), &vr)
		s.chi = (chi.At(0, 0) + known*s.theta[scale]*s.theta[scale]) / float64(n-count+1)
		most := 0.0
		for k, parameter := range free {
			s.theta[parameter] += step.At(k, 0)
			most = math.Max(most, math.Abs(step.At(k, 0)))
		}
		if most < 1e-9 {
			return s, true
		}
	}
	return s, false
}

// linear is what is left of each reading's angle, how it answers to the parameters, and
// the covariance of what scatters.
func (p problem) linear(theta [3]float64, free []int) (jac, rest *mat.Dense, v *mat.SymDense) {
	n := len(p.of)
	jac, rest, v = mat.NewDense(n, len(free), nil), mat.NewDense(n, 1, nil), mat.NewSymDense(n, nil)
	for a, i := range p.of {
		point := p.points[i]
		f := p.flanks[point.Opens]
		at := p.healthyLift(theta, point)
		here := f.angle(p.c.straight(at))
		const by = 1e-4 // mm
		slope := (f.angle(p.c.straight(at+by)) - here) / by
		answers := [3]float64{late: 1, lost: slope / (1 + theta[scale]), scale: -slope * at / (1 + theta[scale])}
		rest.Set(a, 0, float64(point.Angle)-theta[late]-here)
		for k, parameter := range free {
			jac.Set(a, k, answers[parameter])
		}
		for b, j := range p.of[:a+1] {
			if other := p.points[j]; other.Opens == point.Opens {
				v.SetSym(a, b, f.together(p.c.straight(at), p.c.straight(p.healthyLift(theta, other))))
			}
		}
		v.SetSym(a, a, v.At(a, a)+p.m.Doubt(slope)+p.m.Line())
	}
	return jac, rest, v
}

// healthyLift is what the curve's gauge showed where this one shows a point's lift, mm.
func (p problem) healthyLift(theta [3]float64, point lobe.Point) float64 {
	return (float64(point.Lift) + theta[lost]) / (1 + theta[scale])
}

// seen is a parameter as a position on the protractor: what scatters is its own, but for
// the errors of the lines.
func (p problem) seen(s solution, parameter int) position.Seen {
	weights, own := make([]float64, len(p.points)), s.cov.At(parameter, parameter)
	for a, i := range p.of {
		weights[i] = s.gain.At(parameter, a)
		own -= weights[i] * weights[i] * p.m.Line()
	}
	return p.m.Position(weights, gum.Component{Standard: math.Sqrt(math.Max(0, own)), Degrees: math.Inf(1)})
}

// offset is the missing lift. What both protractors' errors along their scales do to it is
// taken as alike for this one and the curve's; each gauge has a zero of its own.
func (p problem) offset(s solution) gum.Measured {
	scatter := s.cov.At(lost, lost)
	along := math.Max(0, math.Pow(p.seen(s, lost).Spread().Standard(), 2)-scatter)
	zeros := math.Hypot(float64(p.c.Zero), float64(p.m.Gauge.RunOut)/2)
	return gum.Measured{Value: s.theta[lost], Uncertainty: math.Sqrt(scatter + 2*along + zeros*zeros)}
}
