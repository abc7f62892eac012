// Package healthy lays a cam lobe on the curve of a healthy engine's, where there is no
// card: how late it is, how much of its lift is missing, and whether more so the higher.
package healthy

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/lobe"
)

// Curve is a healthy engine's lobe, or the mean of several engines'.
type Curve struct {
	Top    geometry.Length
	Points []lobe.Point
	Doubts []geometry.Angle // standard uncertainty of each point's angle, by its rounding, its line and its lift
	Scale  float64          // standard uncertainty of its gauge's scale
	Zero   geometry.Length  // and of its gauge's zero, set at one place of a heel that runs out; of several, and how their lifts differ
	Shared geometry.Angle   // standard uncertainty that its TDC and protractor leave all points alike

	Engines int            // 0 stands for 1
	Scatter geometry.Angle // standard deviation of where engines have it, beyond what measuring them explains
	Freedom float64        // degrees of freedom of Scatter
}

// among is how far another healthy engine's lobe may stand from the mean of several: they
// scatter, and the mean is of so many.
func (c Curve) among() gum.Component {
	if c.Scatter == 0 {
		return gum.Component{Degrees: math.Inf(1)}
	}
	return gum.Component{Standard: float64(c.Scatter) * math.Sqrt(1+1/float64(c.Engines)), Degrees: c.Freedom}
}

// Of is the curve of a lobe, to be kept; false of one without events to place it by.
func Of(m lobe.Measured) (c Curve, ok bool) {
	if m.Events == nil {
		return c, false
	}
	c = Curve{Top: m.Top, Points: m.Points(), Scale: m.Gauge.ScaleKnownTo / math.Sqrt(3), Zero: m.Gauge.RunOut / 2, Shared: geometry.Angle(m.Shared())}
	for i := range c.Points {
		c.Doubts = append(c.Doubts, geometry.Angle(math.Sqrt(m.Doubt(1/c.slope(i))+m.Line())))
	}
	return c, true
}

// slope is how fast the lift changes about a point, mm a radian, by its neighbours.
func (c Curve) slope(i int) float64 {
	low, high := max(0, i-1), min(len(c.Points)-1, i+1)
	if c.Points[low].Opens != c.Points[i].Opens {
		low = i
	}
	if c.Points[high].Opens != c.Points[i].Opens {
		high = i
	}
	const flattest = 0.2 // mm a radian: no flank that is asked is flatter
	by := float64(c.Points[high].Lift-c.Points[low].Lift) / float64(c.Points[high].Angle-c.Points[low].Angle)
	if math.Abs(by) < flattest || math.IsNaN(by) {
		return flattest
	}
	return math.Abs(by)
}

// On a ramp and about the top an angle says little: a flank is from here to there, of the
// top.
const (
	lowest  = 0.05
	highest = 0.95
)

// flanks tells whether a lift lies on a flank proper.
func (c Curve) flanks(lift float64) bool {
	return lift > lowest*float64(c.Top) && lift < highest*float64(c.Top)
}

// straight is a lift in the measure in which a flank is nearly straight.
func (c Curve) straight(lift float64) float64 {
	return math.Asin(math.Sqrt(math.Min(1, math.Max(0, lift/float64(c.Top)))))
}

// flank is angles on one flank, a polynomial in the measure that straightens it.
type flank struct {
	at        []float64 // its coefficients
	cov       mat.Dense // of them
	low, high float64   // that its points reach from and to
	middle    float64
}

// degree is the most that a flank's polynomial has.
const degree = 5

// flank is the polynomial of one flank's points; false where they are too few.
func (c Curve) flank(opens bool) (f flank, ok bool) {
	var z, angle, doubt []float64
	for i, p := range c.Points {
		if p.Opens == opens && c.flanks(float64(p.Lift)) {
			z, angle, doubt = append(z, c.straight(float64(p.Lift))), append(angle, float64(p.Angle)), append(doubt, float64(c.Doubts[i]))
		}
	}
	n := len(z)
	if n < 3 {
		return f, false
	}
	each := n / max(1, c.Engines) // which are read at much the same lifts: together they bend no more
	f.at, f.middle = make([]float64, max(1, min(degree, each-2))+1), gum.Mean(z)
	f.low, f.high = math.Inf(1), math.Inf(-1)
	x, y := mat.NewDense(n, len(f.at), nil), mat.NewDense(n, 1, nil)
	for i := range z {
		f.low, f.high = math.Min(f.low, z[i]), math.Max(f.high, z[i])
		y.Set(i, 0, angle[i]/doubt[i])
		for k, power := range f.powers(z[i]) {
			x.Set(i, k, power/doubt[i])
		}
	}
	var normal, right, at mat.Dense
	normal.Mul(x.T(), x)
	if f.cov.Inverse(&normal) != nil {
		return f, false
	}
	right.Mul(x.T(), y)
	at.Mul(&f.cov, &right)
	for k := range f.at {
		f.at[k] = at.At(k, 0)
	}
	return f, true
}

// powers is those of z, about the middle of the points.
func (f flank) powers(z float64) []float64 {
	list := make([]float64, len(f.at))
	for k := range list {
		list[k] = math.Pow(z-f.middle, float64(k))
	}
	return list
}

// angle is where the flank passes z, radians after TDC.
func (f flank) angle(z float64) float64 {
	sum := 0.0
	for k, power := range f.powers(z) {
		sum += power * f.at[k]
	}
	return sum
}

// together is what the points leave the flank's angles at two places, radians squared.
func (f flank) together(z, other float64) float64 {
	a, b := mat.NewVecDense(len(f.at), f.powers(z)), mat.NewVecDense(len(f.at), f.powers(other))
	return mat.Inner(a, &f.cov, b)
}

// reaches tells whether the points reach as far as z, or nearly so.
func (f flank) reaches(z float64) bool {
	const nearly = 0.03 // some 2 deg of crank
	return z > f.low-nearly && z < f.high+nearly
}
