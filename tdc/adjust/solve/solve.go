package solve

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
func (a *Solved) solve(start []float64) {
	a.Scatter = 1
	a.Solver.Tolerance = startTolerance
	for range scatterRounds {
		if a.step(start, fit.Huber(a.Scatter)); a.lost() {
			break
		}
		a.Scatter = a.robustScatter()
	}
	a.Solver.Tolerance = endTolerance
	a.Settle(start)
	if a.Judge(); a.Widening.Told || slices.Contains(a.Suspect, true) {
		a.thinkAgain()
		a.Judge()
	}
}

// What is only a start, and a scatter to begin with, need not be found to the last digit:
// the steps, in standard uncertainties, at which either search ends.
const startTolerance, endTolerance = 1e-3, 1e-10

// scatterRounds is how often the scatter is taken anew from the residuals that
// it weighed: it changes little after the second.
const scatterRounds = 3

// Settle solves from a start with the loss that lets bad readings go, the scatter
// taken anew between.
func (a *Solved) Settle(start []float64) {
	a.step(start, fit.Redescending(a.Scatter))
	for range scatterRounds {
		before := a.Scatter
		if a.Scatter = a.robustScatter(); a.Scatter == before || a.lost() {
			return
		}
		a.step(start, fit.Redescending(a.Scatter))
	}
}

// step solves once, and leaves the end in start.
func (a *Solved) step(start []float64, loss fit.Loss) {
	a.AllowForHang(start[curve.TDC])
	a.Best = a.Solver.Solve(start, loss)
	a.Cov = a.Best.Covariance()
	copy(start, a.Best.Beta)
}

// lost tells whether the last search ran out of steps: one more with another scatter would
// too, and readings of no piston need not be searched for long.
func (a *Solved) lost() bool { return a.Best.Status == fit.OutOfSteps }

// thinkAgain settles from a look at the three quarters of the readings that agree
// best, and keeps the solution that costs less in the smaller of both scatters; where neither
// search ends there is none to keep.
func (a *Solved) thinkAgain() {
	lost, first, firstScatter := a.lost(), slices.Clone(a.Best.Beta), a.Scatter
	n := len(a.Read)
	if n < look.Fewest {
		return
	}
	rough := look.Trimmed(a.Crank, a.Angle[:n], a.Depth[:n])
	other := a.start(rough)
	a.Scatter = math.Max(1, rough.Misfit/gum.Mean(a.SigmaY[:n]))
	if a.Settle(other); lost && a.lost() {
		return
	}
	yardstick := fit.Redescending(math.Min(firstScatter, a.Scatter))
	costOther := a.Solver.Solve(other, yardstick).Cost
	costFirst := a.Solver.Solve(first, yardstick).Cost
	if costOther < costFirst {
		a.Settle(other)
		return
	}
	a.Scatter = firstScatter
	a.Settle(first)
}

// AllowForHang fills the depths' uncertainties with TDC at tdc: the gauge's, and
// where the piston may hang in its lash, what that leaves.
func (a *Solved) AllowForHang(tdc float64) {
	gauge := float64(a.Setup.Gauge.Uncertainty())
	for i, r := range a.Read {
		u := a.Angle[i] - tdc
		drop := float64(a.Crank.Drop(geometry.Angle(u)))
		a.SigmaY[i] = math.Hypot(gauge, a.Model.Hang.Uncertainty(drop, u*float64(r.Turn) > 0))
	}
}

// Judge names the suspect readings, and widens the answer when the others
// scatter by more than the instruments explain.
func (a *Solved) Judge() {
	a.Suspect, a.Weight = make([]bool, len(a.Depth)), make([]float64, len(a.Depth))
	for i := range a.Depth {
		a.Weight[i] = a.Best.Weight(i)
		a.Suspect[i] = a.Best.Distance(i) > SuspectBeyond*a.Scatter
	}
	a.Widening = a.birge()
}

// SuspectBeyond is how many scatters off a reading is named as suspect: one good
// reading in 16,000 lies as far.
const SuspectBeyond = 4
