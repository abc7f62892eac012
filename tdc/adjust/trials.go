package adjust

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
)

// Trials is what trials of the whole job say of TDC (JCGM 101): readings and
// stated ranges drawn anew, the adjustment solved for each.
type Trials struct {
	Count               int
	Seed                uint64
	Estimate            geometry.Angle    // crank, from the protractor's zero
	Uncertainty         geometry.Angle    // standard
	Symmetric, Shortest [2]geometry.Angle // 95 % intervals
}

// Trials draws n times, the same for the same seed. A progress that is not nil is
// told how many are done.
func (a *Adjustment) Trials(n int, seed uint64, progress func(done int)) Trials {
	sample := fit.Trials(n, seed, a.newTrial, progress)
	at := func(beta float64) geometry.Angle { return (geometry.Angle(a.Centre + beta)).Signed() }
	mean := at(sample.Mean())
	interval := func(low, high float64) [2]geometry.Angle {
		middle := geometry.Angle(sample.Mean())
		return [2]geometry.Angle{mean + geometry.Angle(low) - middle, mean + geometry.Angle(high) - middle}
	}
	return Trials{
		Count: n, Seed: seed, Estimate: mean, Uncertainty: geometry.Angle(sample.Deviation()),
		Symmetric: interval(sample.Symmetric(0.95)), Shortest: interval(sample.Shortest(0.95)),
	}
}

// trial draws jobs like the one adjusted and solves them; it is one core's own.
type trial struct {
	*Adjustment
	solver *fit.Solver
	start  []float64
	hang   []float64 // mm, standard: what hanging in the lash adds to the gauge's error
	lines  []float64 // radians: the protractor's error at each line, drawn once a job
}

// trialTolerance is the step, in standard uncertainties, at which a trial is good
// enough: Gauss-Newton's next would be about its square.
const trialTolerance = 1e-3

// newTrial makes room for trials. What the loss held back of a reading is kept as a
// greater uncertainty: drawing about what was read adds each error a second time,
// which a loss would take for bad readings.
func (a *Adjustment) newTrial() fit.Trial {
	n := len(a.Depth)
	t := trial{Adjustment: a, start: append([]float64(nil), a.Best.Beta...), hang: make([]float64, n), lines: make([]float64, len(a.Lines.Read))}
	sigmaX, sigmaY := make([]float64, n), make([]float64, n)
	gauge := float64(a.Setup.Gauge.Uncertainty())
	for i := range n {
		root := math.Sqrt(math.Max(1e-12, a.Weight[i]))
		sigmaX[i], sigmaY[i] = a.SigmaX[i]/root, a.SigmaY[i]/root
		if i >= len(a.Read) {
			continue
		}
		t.hang[i] = math.Sqrt(math.Max(0, sq(a.SigmaY[i])-sq(gauge)))
	}
	// the problem was good when the adjustment solved it
	t.solver, _ = fit.NewSolver(fit.Problem{
		Model: &a.Model, X: make([]float64, n), Y: make([]float64, n), SigmaX: sigmaX, SigmaY: sigmaY,
		Priors: append([]fit.Prior(nil), a.Priors...), Tolerance: trialTolerance,
	})
	return t.tdc
}

// tdc draws a job and is its TDC on the protractor, in radians from the adjustment's
// centre: where TDC comes the protractor has an error too.
func (t trial) tdc(rng *rand.Rand) float64 {
	t.drawPriors(rng)
	t.drawReadings(rng)
	return t.solver.Solve(t.start, fit.LeastSquares()).Beta[curve.TDC] + float64(t.Setup.Protractor.Error)*even(rng)
}

// drawPriors draws what was known before: each from its range, the wheel's centre
// from its disc.
func (t trial) drawPriors(rng *rand.Rand) {
	for j, prior := range t.Priors {
		if !math.IsInf(prior.Sigma, 1) {
			t.solver.Priors[j].Mean = prior.Mean + math.Sqrt(3)*prior.Sigma*even(rng)
		}
	}
	bound := 2 * t.Priors[curve.WheelP].Sigma
	sin, cos := math.Sincos(2 * math.Pi * rng.Float64())
	off := bound * math.Sqrt(rng.Float64())
	t.solver.Priors[curve.WheelP].Mean, t.solver.Priors[curve.WheelQ].Mean = off*cos, off*sin
}

// drawReadings draws each reading within its instruments' error and rounding, all
// of them wider where they scatter by more than that explains. The protractor's error is
// the same wherever one line was read; what scatter adds to it is not.
func (t trial) drawReadings(rng *rand.Rand) {
	wide := t.Widening.Factor
	if degrees := t.Widening.Degrees; wide > 1 {
		wide *= math.Sqrt(degrees / distuv.ChiSquared{K: degrees, Src: rng}.Rand())
	}
	protractor, gauge := t.Setup.Protractor, t.Setup.Gauge
	for i := range t.lines {
		t.lines[i] = float64(protractor.Error) * even(rng)
	}
	beyond := math.Sqrt(math.Max(0, wide*wide-1)) * float64(protractor.Error)
	for i := range t.Read {
		t.solver.X[i] = t.Angle[i] + t.ofLines(i) + beyond*even(rng) + wide*float64(protractor.Step)/2*even(rng)
		t.solver.Y[i] = t.Depth[i] + wide*(float64(gauge.Error)*even(rng)+float64(gauge.Step)/2*even(rng))
		if t.hang[i] > 0 {
			t.solver.Y[i] += wide * t.hang[i] * rng.NormFloat64()
		}
	}
	for i := len(t.Read); i < len(t.Depth); i++ {
		own := math.Sqrt(sq(wide*t.SigmaY[i]) - t.Lines.Own/2)
		t.solver.Y[i] = t.Depth[i] + t.ofLines(i) + own*rng.NormFloat64()
	}
}

// ofLines is what the protractor's error makes of a reading's angle or a pair's midpoint.
func (t trial) ofLines(i int) float64 {
	sum := 0.0
	for _, line := range t.Lines.Of[i] {
		sum += t.lines[line]
	}
	return sum / float64(len(t.Lines.Of[i]))
}

// even is a number drawn evenly from -1 to 1.
func even(rng *rand.Rand) float64 { return 2*rng.Float64() - 1 }
