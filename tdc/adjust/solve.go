package adjust

import (
	"math"
	"slices"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/look"
)

// solve finds the best solution: a scatter and a safe start by a loss whose
// minimum is the same from every start, then one that lets bad readings go. Where
// the instruments do not explain what is left, another start is tried that no
// mistyped angle can have drawn away.
func (a *Adjustment) solve(start []float64) {
	a.scatter = 1
	for range scatterRounds {
		a.step(start, fit.Huber(a.scatter))
		a.scatter = a.robustScatter()
	}
	a.settle(start)
	if a.judge(); a.widening.told || slices.Contains(a.suspect, true) {
		a.thinkAgain()
		a.judge()
	}
}

// scatterRounds is how often the scatter is taken anew from the residuals that
// it weighed: it changes little after the second.
const scatterRounds = 3

// settle solves from a start with the loss that lets bad readings go, the scatter
// taken anew between.
func (a *Adjustment) settle(start []float64) {
	a.step(start, fit.Redescending(a.scatter))
	for range scatterRounds {
		before := a.scatter
		if a.scatter = a.robustScatter(); a.scatter == before {
			return
		}
		a.step(start, fit.Redescending(a.scatter))
	}
}

// step solves once, and leaves the end in start.
func (a *Adjustment) step(start []float64, loss fit.Loss) {
	a.allowForHang(start[curve.TDC])
	a.best = a.solver.Solve(start, loss)
	a.cov = a.best.Covariance()
	copy(start, a.best.Beta)
}

// thinkAgain settles from a look at the three quarters of the readings that agree
// best, and keeps the solution that costs less in the smaller of both scatters.
func (a *Adjustment) thinkAgain() {
	first, firstScatter := slices.Clone(a.best.Beta), a.scatter
	n := len(a.read)
	if n < look.Fewest {
		return
	}
	rough := look.Trimmed(a.crank, a.angle[:n], a.depth[:n])
	other := a.start(rough)
	a.scatter = math.Max(1, rough.Misfit/gum.Mean(a.sigmaY[:n]))
	a.settle(other)
	yardstick := fit.Redescending(math.Min(firstScatter, a.scatter))
	costOther := a.solver.Solve(other, yardstick).Cost
	costFirst := a.solver.Solve(first, yardstick).Cost
	if costOther < costFirst {
		a.settle(other)
		return
	}
	a.scatter = firstScatter
	a.settle(first)
}

// allowForHang fills the depths' uncertainties with TDC at tdc: the gauge's, and
// where the piston may hang in its lash, what that leaves.
func (a *Adjustment) allowForHang(tdc float64) {
	gauge := float64(a.setup.Gauge.Uncertainty())
	for i, r := range a.read {
		u := a.angle[i] - tdc
		drop := float64(a.crank.Drop(geometry.Angle(u)))
		a.sigmaY[i] = math.Hypot(gauge, a.curve.Hang.Uncertainty(drop, u*float64(r.Turn) > 0))
	}
}

// judge names the suspect readings, and widens the answer when the others
// scatter by more than the instruments explain.
func (a *Adjustment) judge() {
	a.suspect, a.weight = make([]bool, len(a.depth)), make([]float64, len(a.depth))
	for i := range a.depth {
		a.weight[i] = a.best.Weight(i)
		a.suspect[i] = a.best.Distance(i) > SuspectBeyond*a.scatter
	}
	a.widening = a.birge()
}

// SuspectBeyond is how many scatters off a reading is named as suspect: one good
// reading in 16,000 lies as far.
const SuspectBeyond = 4
