package solve

import (
	"math"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
)

// Evaluate is the curve with room of its own: depths, slopes, derivatives.
func (a *Solved) Evaluate(beta, angle []float64) (y, slope []float64, jac [][]float64) {
	y, slope, jac = make([]float64, len(angle)), make([]float64, len(angle)), make([][]float64, curve.Count)
	for j := range jac {
		jac[j] = make([]float64, len(angle))
	}
	a.Model.Evaluate(beta, angle, y, slope, jac)
	return y, slope, jac
}

// DepthsOnCurve is what the gauge should have shown at the angles read, mm.
func (a *Solved) DepthsOnCurve() []float64 {
	y, _, _ := a.Evaluate(a.Best.Beta, a.Angle)
	return y
}

// At is the crank angle of TDC, from the protractor's zero.
func (a *Solved) At() geometry.Angle { return a.FromCentre(a.Best.Beta[curve.TDC]) }

// FromCentre is a crank angle from the protractor's zero that is so many radians from the
// adjustment's centre.
func (a *Solved) FromCentre(angle float64) geometry.Angle {
	return geometry.Angle(a.Centre + angle).Signed()
}

// WithAll is TDC by plain least squares, every reading trusted, when some are
// suspect.
func (a *Solved) WithAll() *gum.Estimate {
	for _, suspect := range a.Suspect {
		if suspect {
			b := *a
			start := append([]float64(nil), a.Best.Beta...)
			b.Solver, _ = fit.NewSolver(a.Solver.Problem)
			b.Best = b.Solver.Solve(start, fit.LeastSquares())
			if b.Cov = b.Best.Covariance(); b.Cov == nil {
				return nil
			}
			b.Suspect, b.Weight = make([]bool, len(b.Depth)), nil
			b.Widening = b.birge()
			e := b.OnScale(b.Spread(b.OwnParts())).Estimate(b.At())
			return &e
		}
	}
	return nil
}

// Determined tells whether what was read fixes TDC.
func (a *Solved) Determined() bool { return a.Cov != nil && a.Best.Status != fit.Undetermined }

// Settled tells whether the search for the best curve ended.
func (a *Solved) Settled() bool { return a.Best.Status == fit.Converged }

// Estimate is an angle, in radians from the adjustment's centre, with such a half-width
// of its 95 % interval before the protractor's own error.
func (a *Solved) Estimate(angle, half float64) gum.Estimate {
	own := gum.Spread{Normal: []gum.Component{{Standard: half / gum.Normal95, Degrees: math.Inf(1)}}}
	return a.OnScale(own).Estimate(a.FromCentre(angle))
}

// OnScale is a spread with the error of the protractor where TDC comes on it: with an
// error-free one in its place, TDC would be shown anywhere within that of where it is.
func (a *Solved) OnScale(s gum.Spread) gum.Spread {
	if a.Lines.Own > 0 {
		s.Rectangular = append(s.Rectangular, math.Sqrt(a.Lines.Own))
	}
	return s
}

func sq(x float64) float64 { return x * x }
