package geometry_test

import (
	"math"
	"testing"

	"evendrop/geometry"
)

// Heights and drops of mechanisms in books. All are heights of the piston pin
// above the crank axis at an angle from throw-along-bore, or drops from it.
func TestBooks(t *testing.T) {
	norton42 := must(t, 2*40, 120, -20)
	nortonP42 := must(t, 2*1.4, 4, 1)
	khurmi := must(t, 2*300, 1500, 0)
	const omega = 150 * 2 * math.Pi / 60 // rad/s
	for _, row := range []struct {
		source         string
		got, want      float64
		printed        float64 // half a unit of the last digit
		exact, atLeast float64 // recomputed, and its last digit
	}{
		{"Norton, Design of Machinery, example 4-2 (from memory), d, mm",
			height(norton42, 60*deg).Millimetres(), 126.84, 5e-3, 126.83801, 5e-6},
		{"Norton, table P4-2 row a (from memory), d",
			height(nortonP42, 45*deg).Millimetres(), 4.99, 5e-3, 4.9899369, 5e-8},
		// The book's approximate formula gives 3.4931; the exact one must be
		// within what it leaves out, lambda^3 / 8 of the speed.
		{"Khurmi and Gupta, Theory of Machines, ch. 15, 150 rev/min at 40 deg, m/s",
			float64(khurmi.Slope(40*deg)) * omega / 1000, 3.49, 5e-3 + 0.0048, 3.497028, 5e-7},
		{"Nikravesh, Planar Multibody Dynamics, example 5.1 (inputs; computed), m",
			height(must(t, 240, 260, 0), 65*deg).Millimetres() / 1000, 0.286875, 5e-7, 0.28687500359, 5e-12},
		// Stroke 6 in and rod 12 in are inferred from the engine, not printed
		// there: so one unit of the last digit, not half.
		{"US NAVFAC P-8-631-34: drop at 19 deg, in",
			must(t, 6*geometry.Inch, 12*geometry.Inch, 0).Drop(-19 * deg).Inches(), 0.2032, 1e-4, 0.20326, 5e-6},
	} {
		near(t, row.want, row.got, row.printed, row.source)
		near(t, row.exact, row.got, row.atLeast, row.source+", recomputed")
	}
}

// Fractions of the stroke, R = rod over throw, in line. Computed, 18 digits; at
// 90 deg the closed form (R + 1 - sqrt(R^2 - 1)) / 2.
func TestFractionOfStroke(t *testing.T) {
	for _, row := range []struct{ ratio, degrees, want float64 }{
		{3, 5, 0.00253579486902422174},
		{4, 5, 0.00237746503459848544},
		{6, 5, 0.00221917279738577591},
		{3.5, 1, 0.0000979087349330074787},
		{4.5, 2, 0.000372252778507359046},
		{4, 90, (5 - math.Sqrt(15)) / 2},
		{5, 90, (6 - math.Sqrt(24)) / 2},
		{3, 90, (4 - math.Sqrt(8)) / 2},
		{4, 180, 1},
	} {
		s := must(t, 200, geometry.Length(100*row.ratio), 0)
		for _, side := range []geometry.Angle{-1, 1} {
			got := s.Drop(side*geometry.Angle(row.degrees)*deg) / s.Stroke()
			near(t, row.want, float64(got), 1e-14, "fraction of stroke") // roundings of 700 over 200
		}
	}
}

// height is the pin's height above the crank axis at phi from throw-along-bore.
func height(s geometry.SliderCrank, phi geometry.Angle) geometry.Length {
	return s.Top() - s.Drop(phi-s.TDC())
}

// order is an order of the acceleration of a piston in line, which moves alike either side
// of TDC: so much of the cosine, as the speed has of the sine. A sum over equal steps of a
// smooth periodic function is exact.
func order(s geometry.SliderCrank, k float64) (sum float64) {
	const steps = 128
	for i := range steps {
		u := geometry.Turn * geometry.Angle(i) / steps
		sum += k * float64(s.Slope(u)) * math.Sin(k*u.Radians()) * 2 / steps
	}
	return sum
}

// acceleration is the sum of its orders; for a rod of three throws or more those above the
// thirtieth are below a rounding.
func acceleration(s geometry.SliderCrank, degrees float64) (sum float64) {
	for k := 1.0; k <= 30; k++ {
		sum += order(s, k) * math.Cos(k*degrees*math.Pi/180)
	}
	return sum
}

// Angle of the greatest piston speed: sin^2 is a root of u^3 - R^2 u^2 - R^4 u +
// R^4 (Zhang and Li, J. Mech. Des. 128 (2006) 654), computed to 12 digits or 10.
func TestGreatestSpeed(t *testing.T) {
	for _, row := range []struct{ ratio, degrees, lastDigit float64 }{
		{3, 73.1752966362, 5e-11}, {3.5, 75.13558695, 5e-9}, {4, 76.72097792, 5e-9}, {5, 79.1001353, 5e-8},
	} {
		s := must(t, 2, geometry.Length(row.ratio), 0)
		for _, side := range []float64{-1, 1} {
			from := acceleration(s, side*(row.degrees-row.lastDigit))
			to := acceleration(s, side*(row.degrees+row.lastDigit))
			if !(from > 0 && to < 0) {
				t.Errorf("R = %g: acceleration is %g before and %g after the greatest speed", row.ratio, from, to)
			}
		}
	}
}

// Second and fourth orders of piston acceleration for lambda = 1/R: computed by
// quadrature; Taylor's series lambda + lambda^3/4 + 15 lambda^5/128 (from memory)
// agrees.
func TestOrdersOfAcceleration(t *testing.T) {
	for _, row := range []struct{ ratio, second, fourth float64 }{
		{4, 0.2540250423, -0.0040981112}, {3.5, 0.2917795398, -0.0062105364}, {3, 0.3431085773, -0.010099079},
	} {
		s := must(t, 2, geometry.Length(row.ratio), 0)
		order := func(k float64) float64 { return order(s, k) }
		near(t, 1, order(1), 1e-12, "first")                // the crank itself
		near(t, row.second, order(2), 5e-11, "second")      // last digit given
		near(t, row.fourth, order(4), 5e-10, "fourth")      // last digit given
		near(t, 0, order(3), 1e-12, "third: none, in line") // symmetry
	}
}
