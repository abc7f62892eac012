package adjust

import (
	"math"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/look"
)

// polished is a rough curve moved to where it fits best: TDC, zero and scale,
// with nothing known before.
func polished(rough look.Rough, crank geometry.SliderCrank, angle, depth []float64) look.Rough {
	sigma := make([]float64, len(angle))
	for i := range sigma {
		sigma[i] = 1
	}
	held := fit.Held(0)
	solver, err := fit.NewSolver(fit.Problem{
		Model: &curve{crank: crank, turn: make([]float64, len(angle))},
		X:     angle, Y: depth, SigmaY: sigma,
		Priors: []fit.Prior{
			parTDC: fit.Free(), parZero: fit.Free(), parScale: fit.Free(), parLash: held,
			parOffset: fit.Held(float64(crank.Offset())), parWheelP: held, parWheelQ: held,
		},
		MaxSteps: 50,
	})
	if err != nil {
		return rough
	}
	found := solver.Solve([]float64{parTDC: rough.TDC, parZero: rough.Zero, parScale: rough.Scale, parCount - 1: 0}, fit.LeastSquares())
	better := look.Rough{TDC: found.Beta[parTDC], Zero: found.Beta[parZero], Scale: found.Beta[parScale]}
	if found.Status != fit.Converged || better.Scale <= 0 || math.Abs(better.TDC-rough.TDC) > 0.1 {
		return rough
	}
	return better
}
