package lobe

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// Level is the middle between two angles of equal lift.
type Level struct {
	Lift     geometry.Length
	Midpoint Quantity       // crank after TDC
	Duration geometry.Angle // for which the lift is greater
	Place    finding.Place  // of the opening flank's reading
	Apart    bool           // it does not lie on the line of the others

	sum sum
}

// Lean is the line of the midpoints against their duration: one of unlike flanks leans.
type Lean struct {
	Nose   gum.Estimate // crank after TDC, where the line ends at the top
	Lambda gum.Measured // degrees of midpoint a degree of duration
	chance float64      // of midpoints that scatter so about a line
}

// Spoken is how many standard uncertainties make something that is said of a lobe: chance
// does so in 1 % of sound ones.
const Spoken = 2.576

// Leans tells whether the flanks are unlike.
func (l Lean) Leans() bool { return math.Abs(l.Lambda.Value) > Spoken*l.Lambda.Uncertainty }

// leastSlope is that of a ramp: where a flank rises by less a degree, an angle says
// nothing (lobes.md 4).
const leastSlope = 0.02 // mm a degree

// mostLevelBias is what the straight line between two readings may put a midpoint out by.
const mostLevelBias = 0.1 * geometry.Degree

// mostLevels is enough for a line, and few enough to weigh each against each.
const mostLevels = 30

// levels is the middles at the lifts that the opening flank was read at, and their line.
func (m *Measured) levels() {
	d, used := &m.laid, map[int]bool{}
	for _, i := range d.opening.of {
		if len(m.Levels) == mostLevels {
			break
		}
		if l, other, ok := m.level(i); ok && !used[other] {
			used[other] = true
			m.Levels = append(m.Levels, l)
		}
	}
	m.lean()
}

// level is the middle at the lift of a reading on the opening flank, and the reading of
// the closing flank that tells most of it.
func (m *Measured) level(i int) (l Level, other int, ok bool) {
	d := &m.laid
	c, ok := d.cross(d.closing, d.lift[i], beyond)
	if !ok || c.bias > 2*float64(mostLevelBias) {
		return l, 0, false
	}
	slope, _ := d.slope(d.opening, d.z[i], d.angle[i])
	if !(math.Min(slope, -c.slope)*float64(geometry.Degree) >= leastSlope) { // one reading alone has none
		return l, 0, false
	}
	if other = c.below; c.share > 0.5 {
		other = c.above
	}
	own := d.newSum().add(i, 1)
	own.lift[i], own.heel = 1/c.slope, sq(1/slope) // its lift is what the closing flank is asked for
	c.zero, c.stated = 0, append(c.stated, c.bias/math.Sqrt(3), float64(d.lobe.Slack)/math.Sqrt(12))
	l = Level{Lift: d.read[i].Lift, Place: d.read[i].place(), Duration: geometry.Angle(c.of(d.angle) - d.angle[i]), sum: own.plus(0.5, c.sum, 0.5)}
	l.Midpoint = d.quantity(l.sum, m.through, d.lobe.Slack/4)
	l.Midpoint.move(l.Midpoint.Angle.Signed() - l.Midpoint.Angle)
	return l, other, true
}

// fewestLevels is how few make a line that can be tested.
const fewestLevels = 3

// lean draws the line through the levels; where they scatter about it by more than chance
// makes, without the one that lies apart.
func (m *Measured) lean() {
	line, ok := m.line(-1)
	if !ok {
		return
	}
	m.Lean = &line
	if line.chance >= apartChance || len(m.Levels) <= fewestLevels {
		return
	}
	best, at := line.chance, -1
	for i := range m.Levels {
		if without, ok := m.line(i); ok && without.chance > best {
			best, at = without.chance, i
			m.Lean = &without
		}
	}
	if at >= 0 && best > apartChance {
		m.Levels[at].Apart = true
		by := m.Levels[at].Midpoint.Angle - m.Lean.Nose.Angle - geometry.Angle(m.Lean.Lambda.Value)*m.Levels[at].Duration
		m.Findings = append(m.Findings, finding.LevelApart{Mark: m.about(), Place: m.Levels[at].Place, Lift: m.Levels[at].Lift, By: by.Signed()})
	} else {
		m.Lean = &line
	}
}

// apartChance is how seldom chance scatters midpoints so that it is spoken of.
const apartChance = 0.01

// line is the line through the levels but one, -1 for all, by generalised least squares.
func (m *Measured) line(but int) (Lean, bool) {
	var of []Level
	for i, l := range m.Levels {
		if i != but {
			of = append(of, l)
		}
	}
	n := len(of)
	if n < fewestLevels {
		return Lean{}, false
	}
	v, x, y := mat.NewSymDense(n, nil), mat.NewDense(n, 2, nil), mat.NewVecDense(n, nil)
	for i, a := range of {
		x.Set(i, 0, 1)
		x.Set(i, 1, float64(a.Duration))
		y.SetVec(i, float64((a.Midpoint.Angle - of[0].Midpoint.Angle).Signed()))
		for j, b := range of[:i+1] {
			v.SetSym(i, j, a.Midpoint.Seen.Covariance(b.Midpoint.Seen)+a.sum.covariance(&m.laid, b.sum))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(v) {
		return Lean{}, false
	}
	var vx, normal, right, cov, beta mat.Dense
	if chol.SolveTo(&vx, x) != nil {
		return Lean{}, false
	}
	normal.Mul(x.T(), &vx)
	right.Mul(vx.T(), y)
	if cov.Inverse(&normal) != nil {
		return Lean{}, false
	}
	beta.Mul(&cov, &right)
	var rest, solved mat.VecDense
	rest.MulVec(x, beta.ColView(0))
	rest.SubVec(y, &rest)
	if chol.SolveVecTo(&solved, &rest) != nil {
		return Lean{}, false
	}
	nose := gum.Spread{Normal: []gum.Component{{Standard: math.Sqrt(cov.At(0, 0)), Degrees: math.Inf(1)}}}
	return Lean{
		Nose:   nose.Estimate((of[0].Midpoint.Angle + geometry.Angle(beta.At(0, 0))).Signed()),
		Lambda: gum.Measured{Value: beta.At(1, 0), Uncertainty: math.Sqrt(cov.At(1, 1))},
		chance: distuv.ChiSquared{K: float64(n - 2)}.Survival(mat.Dot(&rest, &solved)),
	}, true
}
