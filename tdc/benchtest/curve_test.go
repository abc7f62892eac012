package benchtest_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// spreadOf is the standard deviation about zero of a kind's errors, over many protractors
// at a few of their graduations, and the correlation of those so many degrees apart.
func spreadOf(kind benchtest.CurveKind, p evidence.Protractor, apart float64) (standard, correlation, most float64) {
	rng := rand.New(rand.NewPCG(1, 2))
	square, product, n := 0.0, 0.0, 0.0
	for range 1000 {
		curve := kind.Draw(rng, p, 0)
		for _, at := range []float64{-100, -20, 0, 35} {
			a, b := curve(at), curve(at+apart)
			square, product, n = square+(a*a+b*b)/2, product+a*b, n+1
			most = math.Max(most, math.Abs(a))
		}
	}
	return math.Sqrt(square / n), product / square, most
}

// Every protractor keeps to its error, and has its standard uncertainty. 1,000 protractors
// leave 1.4 % at one standard deviation where each is all of a piece: three are allowed.
func TestCurvesAreAsStated(t *testing.T) {
	p := benchtest.Protractor(0.5, 0.25)
	for _, kind := range append([]benchtest.CurveKind{benchtest.FreshErrors}, benchtest.CurveKinds()...) {
		want := 0.25 / math.Sqrt(3)
		if kind.Name == benchtest.EccentricErrors.Name {
			want = 0.25 / math.Sqrt2
		}
		standard, _, most := spreadOf(kind, p, 0)
		require.InEpsilon(t, want, standard, 0.042, kind.Name)
		require.LessOrEqual(t, most, 0.25*1.0001, kind.Name) // the eccentric's sine is an arctangent
	}
}

// Errors a correlation length apart correlate by 1/e as normal ones; moved into a
// rectangle by 6/pi asin(rho/2) (Pearson's formula for ranks, from memory). Of 1,000
// protractors, each all of a piece, it is known to 0.03: three standard deviations are
// allowed.
func TestExponentialCurvesCorrelate(t *testing.T) {
	p := benchtest.Protractor(0.5, 0.25)
	want := 6 / math.Pi * math.Asin(math.Exp(-1)/2)
	for _, length := range []float64{1, 3, 5, 10, 45} {
		for _, kind := range benchtest.CurveKinds() {
			if kind.Name == fmt.Sprintf("exp %g", length) {
				_, correlation, _ := spreadOf(kind, p, length)
				require.InDelta(t, want, correlation, 0.09, kind.Name)
			}
		}
	}
	_, correlation, _ := spreadOf(benchtest.IndependentErrors, p, 0.5)
	require.InDelta(t, 0, correlation, 0.05) // 4,000 pairs: 0.016
}

// One graduation has one error, whoever looks; the next has another.
func TestGraduationsKeepTheirErrors(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	curve := benchtest.IndependentErrors.Draw(rng, benchtest.Protractor(0.5, 0.25), 37.2)
	for _, at := range []float64{0, 37, 180, 217.5, 359.5} {
		g := math.Round((at-37.2)/0.5)*0.5 + 37.2
		require.Equal(t, curve(g), curve(g+0.2))
		require.Equal(t, curve(g-360), curve(g))
		require.NotEqual(t, curve(g), curve(g+0.5))
	}
	fresh := benchtest.FreshErrors.Draw(rng, benchtest.Protractor(0.5, 0.25), 0)
	require.NotEqual(t, fresh(3), fresh(3))
}
