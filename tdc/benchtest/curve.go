package benchtest

import (
	"math"
	"math/rand/v2"
	"strconv"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/tdc/evidence"
)

// Curve is what a protractor shows too much where it ought to show so many degrees.
type Curve func(shown float64) float64

// CurveKind is a family of protractors.
type CurveKind struct {
	Name string
	// Draw makes one of them. Its graduations begin and end half a turn from middle, in
	// degrees.
	Draw func(rng *rand.Rand, p evidence.Protractor, middle float64) Curve
}

// The kinds of protractor. All keep to the stated error, and all but the eccentric have
// its standard uncertainty, error/sqrt(3), on average over the turn.
var (
	// FreshErrors is an error drawn anew at every reading, as no protractor has it.
	FreshErrors = CurveKind{"fresh", func(rng *rand.Rand, p evidence.Protractor, _ float64) Curve {
		return func(float64) float64 { return Within(rng, p.Error.Degrees()) }
	}}
	// IndependentErrors is every graduation out by its own error.
	IndependentErrors = CurveKind{"independent", func(rng *rand.Rand, p evidence.Protractor, middle float64) Curve {
		return graduated(p, middle, func(int) float64 { return Within(rng, p.Error.Degrees()) })
	}}
	// EccentricErrors is graduations on a circle whose centre is off as far as the error
	// allows: one wave a turn that reaches the error, with a standard deviation of
	// error/sqrt(2).
	EccentricErrors = CurveKind{"eccentric", eccentric}
)

// CurveKinds is every kind of protractor, but the one of fresh errors.
func CurveKinds() []CurveKind {
	return []CurveKind{
		IndependentErrors, exponential(1), exponential(3), exponential(5), exponential(10), exponential(45),
		waves(1, "one wave"), waves(2, "two waves"), waves(4, "four waves"), EccentricErrors,
	}
}

// graduated is a curve of one error a graduation, asked for in their order.
func graduated(p evidence.Protractor, middle float64, next func(i int) float64) Curve {
	step := p.Step.Degrees()
	n := int(math.Round(360 / step))
	errors := make([]float64, n)
	for i := range errors {
		errors[i] = next(i)
	}
	return func(shown float64) float64 {
		i := int(math.Round((shown - middle + 180) / step))
		return errors[((i%n)+n)%n]
	}
}

// exponential is protractors whose errors at x degrees from one another correlate by
// exp(-x/length): a normal random walk with a pull to the middle (Ornstein and
// Uhlenbeck), each value moved to where it stands in a rectangle of the stated error.
func exponential(length float64) CurveKind {
	name := "exp " + strconv.FormatFloat(length, 'f', -1, 64)
	return CurveKind{name, func(rng *rand.Rand, p evidence.Protractor, middle float64) Curve {
		rho := math.Exp(-p.Step.Degrees() / length)
		at := rng.NormFloat64()
		return graduated(p, middle, func(i int) float64 {
			if i > 0 {
				at = rho*at + math.Sqrt(1-rho*rho)*rng.NormFloat64()
			}
			return p.Error.Degrees() * (2*distuv.UnitNormal.CDF(at) - 1)
		})
	}}
}

// waves is protractors whose error is so many even waves a turn.
func waves(n float64, name string) CurveKind {
	return CurveKind{name, func(rng *rand.Rand, p evidence.Protractor, _ float64) Curve {
		size, phase := p.Error.Degrees()*math.Sqrt(2./3), 2*math.Pi*rng.Float64()
		return func(shown float64) float64 { return size * math.Sin(n*shown*Degree+phase) }
	}}
}

// eccentric draws one of EccentricErrors.
func eccentric(rng *rand.Rand, p evidence.Protractor, _ float64) Curve {
	off, phase := p.Error.Radians(), 2*math.Pi*rng.Float64()
	return func(shown float64) float64 {
		sin, cos := math.Sincos(shown * Degree)
		seen := math.Atan2(sin-off*math.Sin(phase), cos-off*math.Cos(phase))
		return math.Remainder(seen/Degree-shown, 360)
	}
}
