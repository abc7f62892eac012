package curve

import (
	"math"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/look"
)

// Polished is a rough curve moved to where it fits best: TDC, zero and scale,
// with nothing known before.
func Polished(rough look.Rough, crank geometry.SliderCrank, angle, depth []float64) look.Rough {
	sigma := make([]float64, len(angle))
	for i := range sigma {
		sigma[i] = 1
	}
	held := fit.Held(0)
	solver, err := fit.NewSolver(fit.Problem{
		Model: &Model{Crank: crank, Turn: make([]float64, len(angle))},
		X:     angle, Y: depth, SigmaY: sigma,
		Priors: []fit.Prior{
			TDC: fit.Free(), Zero: fit.Free(), Scale: fit.Free(), Lash: held,
			Offset: fit.Held(float64(crank.Offset())), WheelP: held, WheelQ: held,
		},
		MaxSteps: 50,
	})
	if err != nil {
		return rough
	}
	found := solver.Solve([]float64{TDC: rough.TDC, Zero: rough.Zero, Scale: rough.Scale, Count - 1: 0}, fit.LeastSquares())
	better := look.Rough{TDC: found.Beta[TDC], Zero: found.Beta[Zero], Scale: found.Beta[Scale]}
	if found.Status != fit.Converged || better.Scale <= 0 || math.Abs(better.TDC-rough.TDC) > 0.1 {
		return rough
	}
	return better
}
