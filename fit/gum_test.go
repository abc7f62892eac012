package fit_test

import (
	"math"
	"testing"

	"evendrop/fit"
)

// JCGM 100:2008 H.3: the correction of a thermometer as a line in temperature,
// b(t) = y1 + y2 (t - 20 degC), eleven readings. The uncertainty of a reading
// is that of the residuals. Unrounded values: the same, recomputed to 40 digits.
func thermometer(sigma float64) fit.Problem {
	p := fit.Problem{
		Model:  curve(straight),
		X:      []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511},
		Y:      []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160},
		SigmaY: constant(11, sigma),
		Priors: free(2),
	}
	for i := range p.X {
		p.X[i] -= 20
	}
	return p
}

func TestGUMThermometer(t *testing.T) {
	unit := solve(t, thermometer(1), []float64{0, 0}, fit.LeastSquares())
	s, sd := scatter(t, unit)
	got := solve(t, thermometer(s), []float64{0, 0}, fit.LeastSquares())
	cov := got.Covariance()
	correlation := cov[0][1] / math.Sqrt(cov[0][0]*cov[1][1])
	at30 := got.Beta[0] + 10*got.Beta[1]
	u30 := math.Sqrt(cov[0][0] + 100*cov[1][1] + 2*10*cov[0][1])
	// The temperature at which the two are uncorrelated and u is least.
	middle := -cov[0][1] / cov[1][1]

	for _, row := range []struct {
		quantity  string
		got       float64
		printed   float64
		lastDigit float64
		exact     float64
	}{
		{"y1, degC", got.Beta[0], -0.1712, 5e-5, -0.17120379013135},
		{"y2", got.Beta[1], 0.00218, 5e-6, 0.00218269773988728},
		{"s(y1), degC", math.Sqrt(cov[0][0]), 0.0029, 5e-5, 0.00287759783516},
		{"s(y2)", math.Sqrt(cov[1][1]), 0.00067, 5e-6, 0.000667938773227832},
		{"s(y1) by scaling", sd[0], 0.0029, 5e-5, 0.00287759783516},
		{"s(y2) by scaling", sd[1], 0.00067, 5e-6, 0.000667938773227832},
		{"r(y1,y2)", correlation, -0.930, 5e-4, -0.930429603093446},
		{"s, degC", s, 0.0035, 5e-5, 0.00349756396350528},
		{"b(30 degC), degC", at30, -0.1494, 5e-5, -0.149376812732477},
		{"u(b(30 degC)), degC", u30, 0.0041, 5e-5, 0.00413859575285495},
		{"mean temperature, degC", 20 + middle, 24.0085, 5e-5, 24.0084545454545},
		{"y1' at the mean, degC", got.Beta[0] + middle*got.Beta[1], -0.1625, 5e-5, -0.162454545454545},
		{"u(y1'), degC", s / math.Sqrt(11), 0.0011, 5e-5, 0.00105455521338},
	} {
		near(t, []float64{row.printed}, []float64{row.got}, 0, row.lastDigit, "H.3: "+row.quantity)
		// Twelve digits are given; QR and the subtraction of 20 cost one or two.
		near(t, []float64{row.exact}, []float64{row.got}, 1e-10, 0, "H.3, unrounded: "+row.quantity)
	}
}

// H.3.6: every reading also carries one error in common, of standard
// uncertainty 0.005 degC. It is a third parameter that the readings cannot tell
// from the intercept and only its prior fixes, so it adds to s(y1) and nothing
// else: sqrt(s(y1)^2 + 0.005^2) = 0.00576893138 degC, also computed so by GTC.
func TestGUMThermometerCommonError(t *testing.T) {
	const s = 0.00349756396350528 // degC, H.3, unrounded
	p := thermometer(s)
	p.Model = curve(func(b []float64, x float64, g []float64) (y, slope float64) {
		g[0], g[1], g[2] = 1, x, 1
		return b[0] + b[1]*x + b[2], b[1]
	})
	p.Priors = append(p.Priors, fit.Prior{Sigma: 0.005})
	got := solve(t, p, []float64{0, 0, 0}, fit.LeastSquares())
	// As many digits as are given of s and s(y1), less one.
	near(t, []float64{-0.17120379013135, 0.00218269773988728, 0}, got.Beta, 1e-10, 1e-13, "parameters")
	near(t, []float64{0.00576893138292676, 0.000667938773227832, 0.005},
		deviations(t, got.Covariance()), 1e-10, 0, "deviations")
	near(t, []float64{9}, []float64{float64(got.DegreesOfFreedom())}, 0, 0, "degrees of freedom")
}
