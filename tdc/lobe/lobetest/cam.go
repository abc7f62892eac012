// Package lobetest is cams that share nothing with what they test: lobes of polynomials,
// on a piston's bench, read with a gauge that tilts, on a heel that runs out.
package lobetest

import (
	"math"
	"math/rand/v2"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
)

// Shape is a cam lobe of the tests' own: a polynomial of x = u/length on either side of
// the nose, 1 + c2 x^2 + cp x^p + cq x^q, that ends with neither speed nor acceleration,
// and below it a ramp of even speed (lobes.md 3, profiles).
type Shape struct {
	Name             string
	Top              float64 // mm
	Before, After    float64 // crank degrees from where the flank begins to the nose, and to its end
	P, Q             float64
	Ramp, RampLength float64 // mm, crank degrees
}

// Shapes are the lobes that are read.
var Shapes = []Shape{
	{"symmetric", 9.2, 160, 160, 6, 10, 0, 1},
	{"leaning", 9.2, 150, 172, 6, 10, 0, 1},
	{"ramped", 9.2, 150, 150, 6, 10, 0.25, 30},
}

// At is the lift at crank degrees from the nose.
func (s Shape) At(u float64) float64 {
	length := s.Before
	if u > 0 {
		length = s.After
	}
	x := math.Abs(u) / length
	if x >= 1 {
		return s.Ramp * math.Max(0, 1-(x-1)*length/s.RampLength)
	}
	// 1 + a + b + c = 0, 2a + pb + qc = 0, 2a + p(p-1)b + q(q-1)c = 0
	p, q := s.P, s.Q
	a := -p * q / ((p - 2) * (q - 2))
	b := 2 * q / ((p - 2) * (q - p))
	c := -2 * p / ((q - 2) * (q - p))
	return s.Ramp + (s.Top-s.Ramp)*(1+a*x*x+b*math.Pow(x, p)+c*math.Pow(x, q))
}

// Where is how far from the nose a flank, -1 the opening one, has a lift, by halving.
func (s Shape) Where(lift, side float64) float64 {
	low, high := 0.0, 240.0
	for range 60 {
		if middle := (low + high) / 2; s.At(side*middle) > lift {
			low = middle
		} else {
			high = middle
		}
	}
	return side * low
}

// Cam is a lobe on an engine: where its nose stands, and what its gauge sees.
type Cam struct {
	Shape
	Nose   float64 // crank degrees after TDC
	Lost   float64 // mm of lift: lash, wear
	Worn   float64 // mm that the nose has lost besides, the flanks far less
	Tilt   float64 // what the gauge shows of a millimetre, less 1
	RunOut float64 // mm in all
	Phase  float64
	Slack  float64 // crank degrees that a closing lobe is early
}

// Lift is what a perfect gauge, its zero on the heel, shows with the crank so many degrees
// after TDC.
func (c Cam) Lift(u float64) float64 {
	from := u - c.Nose
	if from > 0 {
		from += c.Slack
	}
	out := func(crank float64) float64 { return c.RunOut / 2 * math.Sin(crank/2*benchtest.Degree+c.Phase) }
	heel := out(360)
	lift := c.At(from)
	lift -= c.Worn * math.Pow(lift/c.Top, 6)
	return (1 + c.Tilt) * (math.Max(0, lift-c.Lost) + out(from) - heel)
}

// Event is where the lobe truly has a lift, crank degrees after TDC.
func (c Cam) Event(lift, side float64) float64 { return c.Nose + c.Where(lift+c.Lost, side) }

// Planned is the lifts of a default plan: four about the checking lift 2-3 deg apart, two
// at half lift and two near the top, on either flank, and the top (lobes.md 4).
func (c Cam) Planned(rng *rand.Rand, checking float64) (places []float64) {
	for _, side := range []float64{-1, 1} {
		at := c.Event(checking, side)
		for _, off := range []float64{-3.75, -1.25, 1.25, 3.75} {
			places = append(places, at+off+benchtest.Within(rng, 0.4))
		}
		for _, share := range []float64{0.5, 0.9} {
			at := c.Event(share*c.Top-c.Lost, side)
			places = append(places, at-2+benchtest.Within(rng, 0.5), at+2+benchtest.Within(rng, 0.5))
		}
	}
	return append(places, c.Nose+benchtest.Within(rng, 2))
}

// Readings is what is read of a cam on the session's protractor with a gauge, in order.
func (c Cam) Readings(rng *rand.Rand, b benchtest.Bench, s benchtest.Session, g lobe.Gauge, places []float64) (list []lobe.Reading) {
	for i, u := range slices.Sorted(slices.Values(places)) {
		shown := benchtest.Rounded(c.Lift(u)+benchtest.Within(rng, float64(g.Error)), float64(g.Step))
		list = append(list, lobe.Reading{Angle: b.Mark(s, u*benchtest.Degree), Lift: geometry.Length(shown), Turn: evidence.Forward, Line: i + 2})
	}
	return list
}

// Bench is a piston read both ways on a protractor of a kind, and its result.
func Bench(rng *rand.Rand, kind benchtest.CurveKind, p evidence.Protractor) (benchtest.Bench, benchtest.Session, lobe.From, error) {
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: p, Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	b := benchtest.Drawn(rng, setup)
	s := benchtest.Session{Setup: setup, Layout: benchtest.Balanced(2, 24), Curve: kind.Draw(rng, p, b.Start/benchtest.Degree)}
	r, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: b.ReadIn(rng, s)})
	return b, s, lobe.From{Result: r}, err
}

// Drawn is a cam drawn from what a lobe's gauge and drive leave open, its zero within
// their bounds.
func Drawn(rng *rand.Rand, s Shape, l lobe.Lobe) Cam {
	g := l.Gauge
	return Cam{Shape: s, Nose: 105 + benchtest.Within(rng, 10), Tilt: benchtest.Within(rng, g.ScaleKnownTo), RunOut: float64(g.RunOut),
		Phase: 2 * math.Pi * rng.Float64(), Slack: l.Slack.Degrees() * rng.Float64()}
}
