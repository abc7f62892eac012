package tdc

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Throw is one cylinder's crank throw and piston against the others'.
type Throw struct {
	Cylinder     int
	gum.Estimate            // Angle is how late its TDC comes against its nominal place after cylinder 1's
	Crown        *Estimated // how much lower its crown stands at TDC than the others', mm; nil when the gauge's zero is not shared
}

// Estimated is a length with its uncertainty, mm.
type Estimated struct {
	Value, Uncertainty, Expanded float64
}

// Throws holds every cylinder against the first, and its crown against the others'
// when one set-up of the gauge read them all.
func Throws(cylinders []evidence.Cylinder, results []Result) []Throw {
	if len(results) < 2 {
		return nil
	}
	var list []Throw
	for i, r := range results {
		t := Throw{Cylinder: r.Number, Estimate: gum.Spread{}.Estimate(0)}
		if i > 0 {
			t.Estimate = later(results[0], r).Estimate((r.TDC.Angle - results[0].TDC.Angle - cylinders[i].Throw).Signed())
		}
		t.Crown = crownOff(results, i)
		list = append(list, t)
	}
	return list
}

// later is the uncertainty of one cylinder's TDC after another's. They share the
// engine's offset and the protractor's error. The wheel shows their places on it each
// with its own error when it stands off centre: by chord over radius between the two.
func later(first, other Result) gum.Spread {
	s := other.fit.Later(first.fit)
	between := float64((other.TDC.Angle - first.TDC.Angle).Signed())
	chord := 2 * math.Abs(math.Sin(between/2))
	index := chord * first.setup.Protractor.OffCentreBound() / 2
	s.Rectangular = append(s.Rectangular, index)
	return s
}

// crownOff is how much lower a cylinder's crown stands than the middle one of the
// others'.
func crownOff(results []Result, i int) *Estimated {
	var others []float64
	square := 0.0
	for j, r := range results {
		if !r.setup.Gauge.SameZero || math.IsNaN(r.CrownDepth.Value) {
			return nil
		}
		if j != i {
			others = append(others, r.fit.Zero().Value)
			square += r.CrownDepth.Uncertainty * r.CrownDepth.Uncertainty
		}
	}
	n := float64(len(others))
	// a median of n is less sure than their mean by sqrt(pi/2), of one or two it is the mean
	ofMedian := square / n / n
	if n > 2 {
		ofMedian *= math.Pi / 2
	}
	slices.Sort(others)
	middle := (others[(len(others)-1)/2] + others[len(others)/2]) / 2
	r := results[i]
	s := gum.Spread{Normal: []gum.Component{{Standard: math.Sqrt(r.CrownDepth.Uncertainty*r.CrownDepth.Uncertainty + ofMedian), Degrees: r.fit.Widening.Degrees}}}
	return &Estimated{r.fit.Zero().Value - middle, s.Standard(), s.Expanded()}
}

// Index is what the throws' errors say of a wheel off its centre, which shows as an
// error that goes once round with the crank.
type Index struct {
	Places    int            // at which throws come up, of the crank's turn
	Amplitude geometry.Angle // of the once-round error; where enough places tell it
	Expanded  geometry.Angle // half-width of its 95 % interval
	Told      bool
}

// fewestPlaces is how many places on the wheel it takes to tell a wheel off centre:
// a constant and a sine and cosine take up three.
const fewestPlaces = 4

// WheelIndex looks for a once-round error in the throws.
func WheelIndex(results []Result, throws []Throw) Index {
	var at, off, sigma []float64
	var places []geometry.Angle
	for i, t := range throws {
		place := (results[i].TDC.Angle - results[0].TDC.Angle)
		if !slices.ContainsFunc(places, func(p geometry.Angle) bool { return math.Abs((p - place).Signed().Degrees()) < 10 }) {
			places = append(places, place)
		}
		at, off = append(at, float64(place)), append(off, float64(t.Angle))
		sigma = append(sigma, float64(results[i].AgreeTo.Uncertainty))
	}
	index := Index{Places: len(places)}
	if len(places) < fewestPlaces {
		return index
	}
	sine, cosine, u, ok := onceRound(at, off, sigma)
	index.Told = ok
	index.Amplitude, index.Expanded = geometry.Angle(math.Hypot(sine, cosine)), geometry.Angle(gum.Normal95*u)
	return index
}
