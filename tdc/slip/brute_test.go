package slip

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/refit"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
)

// A brute force that shares nothing with what it tests but the readings: kinematics of
// its own, every derivative a difference, every place refitted by distances that are
// minimised point by point, the weights straight from their formula (real-bench.md B and F
// by content; DEVELOPERS.md, How far to trust it), the interval by adding up.

const deg = math.Pi / 180

// The car engine, its instruments and what is known of them, in radians and mm.
const (
	throw, rod             = 43.0, 146.0
	sigmaAngle             = 0.2041241452319315 * deg // 0.25/sqrt 3 and 0.5/sqrt 12
	sigmaDepth             = 0.011902380714238083     // 0.02/sqrt 3 and 0.01/sqrt 12
	lashMean, lashSigma    = 0.06, 0.034641016151377546
	offsetSigma            = 0.28867513459481287 // 0.5/sqrt 3
	wheelSigma             = 0.0025              // 0.5 mm on 100, either component of a disc
	scaleSpread            = 0.07                // half-width of the gauge's own, of which more below
	tdcAt, zeroAt, scaleAt = 0, 1, 2
	lashAt, offsetAt       = 3, 4
	pAt, qAt, stepAt       = 5, 6, 7
)

// scaleSigma is the gauge's and what stroke (0.1) and rod (0.5) leave of the curve near
// TDC, r (1 + r/l).
var scaleSigma = math.Sqrt((scaleSpread*scaleSpread + math.Pow((1+2*throw/rod)/(throw*(1+throw/rod))*0.05, 2) +
	math.Pow(throw/rod/(1+throw/rod)*0.5/rod, 2)) / 3)

// height is the piston's with the crank at t from throw-along-bore.
func height(t, e float64) float64 {
	return throw*math.Cos(t) + math.Sqrt(rod*rod-math.Pow(throw*math.Sin(t)-e, 2))
}

// drop is how far the piston is below its highest at u from TDC.
func drop(u, e float64) float64 {
	top := math.Asin(e / (throw + rod))
	return height(top, e) - height(top+u, e)
}

// taken is one job: angles and depths as read, and the turn of each.
type taken struct{ angle, depth, turn []float64 }

// shown is the depth that the curve has where the protractor shows x.
func shown(beta []float64, x, turn float64, part curve.Part, before bool) float64 {
	if part == curve.Protractor && before {
		x += beta[stepAt]
	}
	v := x - beta[tdcAt]
	u := v - beta[pAt]*(math.Cos(v)-1) - beta[qAt]*math.Sin(v)
	u = v - beta[pAt]*(math.Cos(u)-1) - beta[qAt]*math.Sin(u)
	side := math.Copysign(1, u*turn)
	y := beta[zeroAt] + beta[scaleAt]*drop(u, beta[offsetAt]) - side*beta[lashAt]/2
	if part == curve.GaugeZero && before {
		y -= beta[stepAt]
	}
	return y
}

// brute is one hypothesis of a step, or of none.
type brute struct {
	job   taken
	part  curve.Part
	after int
}

// cost is the loss over the readings at their nearest to the curve, and the priors'.
func (b brute) cost(beta []float64) float64 {
	sum := 0.0
	for i := range b.job.angle {
		sum += loss(b.distance2(beta, i))
	}
	prior := func(j int, mean, sigma float64) { sum += math.Pow((beta[j]-mean)/sigma, 2) }
	prior(scaleAt, 1, scaleSigma)
	prior(lashAt, lashMean, lashSigma)
	prior(offsetAt, 0, offsetSigma)
	prior(pAt, 0, wheelSigma)
	prior(qAt, 0, wheelSigma)
	switch b.part {
	case curve.Protractor:
		prior(stepAt, 0, 20*deg)
	case curve.GaugeZero:
		prior(stepAt, 0, 5)
	}
	return sum
}

// loss lets go of what lies beyond three standard uncertainties by degrees, all of it at
// four and a half: the integral of 2 z (1 - ((z-3)/1.5)^2)^2, by Simpson's rule.
func loss(z2 float64) float64 {
	z := math.Sqrt(z2)
	if z <= 3 {
		return z2
	}
	end := math.Min(z, 4.5)
	pull := func(x float64) float64 { return 2 * x * math.Pow(1-math.Pow((x-3)/1.5, 2), 2) }
	const n = 200
	sum, h := 9.0, (end-3)/n
	for k := range n {
		a := 3 + float64(k)*h
		sum += h / 6 * (pull(a) + 4*pull(a+h/2) + pull(a+h))
	}
	return sum
}

// distance2 is a reading's squared distance from the curve, in standard uncertainties of
// both: minimised over where it was by Newton's steps.
func (b brute) distance2(beta []float64, i int) float64 {
	x, before := b.job.angle[i], i < b.after
	of := func(t float64) float64 {
		return math.Pow((x-t)/sigmaAngle, 2) + math.Pow((b.job.depth[i]-shown(beta, t, b.job.turn[i], b.part, before))/sigmaDepth, 2)
	}
	t, h := x, 1e-5
	for range 4 {
		low, middle, high := of(t-h), of(t), of(t+h)
		bend := (high - 2*middle + low) / (h * h)
		if bend <= 0 {
			break
		}
		t -= (high - low) / (2 * h) / bend
	}
	return math.Min(of(t), of(x))
}

// free is the parameters of the hypothesis.
func (b brute) free() int {
	if b.part == curve.NoPart {
		return stepAt
	}
	return stepAt + 1
}

// steps are differences that are small and not lost in rounding, by parameter.
var steps = []float64{1e-4, 1e-4, 1e-4, 1e-4, 1e-2, 1e-5, 1e-5, 1e-4}

// curvature is the gradient and half the second derivatives of the cost.
func (b brute) curvature(beta []float64) (*mat.VecDense, *mat.SymDense) {
	n := b.free()
	at := func(j, k int, sj, sk float64) float64 {
		moved := slices.Clone(beta)
		moved[j] += sj * steps[j]
		moved[k] += sk * steps[k]
		return b.cost(moved)
	}
	g, h := mat.NewVecDense(n, nil), mat.NewSymDense(n, nil)
	for j := range n {
		g.SetVec(j, (at(j, j, 1, 0)-at(j, j, -1, 0))/(2*steps[j]))
		for k := range j + 1 {
			d := (at(j, k, 1, 1) - at(j, k, 1, -1) - at(j, k, -1, 1) + at(j, k, -1, -1)) / (4 * steps[j] * steps[k])
			h.SetSym(j, k, d/2)
		}
	}
	return g, h
}

// solve is Newton's steps to the least cost from about the truth, damped where they
// overshoot, and the covariance there.
func (b brute) solve(t *testing.T, start []float64) (beta []float64, cov *mat.SymDense) {
	t.Helper()
	beta = slices.Clone(start)
	var factor mat.Cholesky
	for range 6 {
		g, h := b.curvature(beta)
		require.True(t, factor.Factorize(h))
		var step mat.VecDense
		require.NoError(t, factor.SolveVecTo(&step, g))
		now, share := b.cost(beta), 0.5
		for range 10 {
			next := slices.Clone(beta)
			for j := range step.Len() {
				next[j] -= share * step.AtVec(j)
			}
			if b.cost(next) <= now {
				beta = next
				break
			}
			share /= 2
		}
	}
	_, h := b.curvature(beta)
	require.True(t, factor.Factorize(h))
	cov = mat.NewSymDense(b.free(), nil)
	require.NoError(t, factor.InverseTo(cov))
	return beta, cov
}

// lnEvidence is the logarithm of a hypothesis's weight before its chance, by the cost and
// the room that the covariance leaves of the priors': of a step, Cauchy's.
func (b brute) lnEvidence(beta []float64, cov *mat.SymDense) float64 {
	room := math.Log(mat.Det(cov)) / 2
	switch b.part {
	case curve.Protractor:
		room += math.Log(math.Sqrt(2*math.Pi) / (math.Pi * 0.5 * deg * (1 + math.Pow(beta[stepAt]/(0.5*deg), 2))))
	case curve.GaugeZero:
		room += math.Log(math.Sqrt(2*math.Pi) / (math.Pi * 0.1 * (1 + math.Pow(beta[stepAt]/0.1, 2))))
	}
	return room
}

// bruteJob is readings of a bench with everything a little off, both ways, away from where
// the piston hangs, and what was wrong with it.
func bruteJob(seed uint64, part curve.Part, after int, by float64) (taken, []float64) {
	rng := rand.New(rand.NewPCG(seed, 7))
	beta := []float64{0.02, 3, 1.02, 0.08, 0.1, 0.001, -0.001, by}
	var job taken
	for _, turn := range []float64{1, -1} {
		for _, u := range []float64{-26, -19, -12, 11, 18, 25} {
			x := beta[tdcAt] + (u*turn+2*rng.Float64())*deg
			before := len(job.angle) < after
			job.depth = append(job.depth, shown(beta, x, turn, part, before)+sigmaDepth*rng.NormFloat64())
			job.angle, job.turn = append(job.angle, x+sigmaAngle*rng.NormFloat64()), append(job.turn, turn)
		}
	}
	return job, beta
}

// The weights of nothing and of a step at every place, and what they make of TDC, are
// those of the brute force.
func TestBruteForce(t *testing.T) {
	for _, c := range []struct {
		name  string
		part  curve.Part
		after int
		by    float64
	}{{"healthy", curve.NoPart, 0, 0}, {"0.6 deg at the turn-back", curve.Protractor, 6, 0.6 * deg}, {"0.1 mm elsewhere", curve.GaugeZero, 4, 0.1}} {
		t.Run(c.name, func(t *testing.T) {
			job, truth := bruteJob(11, c.part, c.after, c.by)
			a, p, read := job.adjusted(t)
			r := refit.New(a, p.Step, asStated)
			list := newlyTried(t, newSession(read, p.Still(), false), r)
			require.InDelta(t, 1, scatterOfBest(list), 1e-12, "so that gains count in full")
			weigh(list)

			nothing := brute{job: job}
			near := slices.Clone(truth)
			near[tdcAt] = list[0].End.At + centreOf(a)
			beta, cov := nothing.solve(t, near)
			base, room := nothing.cost(beta), nothing.lnEvidence(beta, cov)
			tried := 0
			for _, w := range list[1:] {
				if w.Part == curve.NoPart || w.Assumption.Lash > 0 {
					continue
				}
				b := brute{job, w.Part, w.After}
				start := slices.Clone(truth)
				start[stepAt], start[tdcAt] = w.Step, w.End.At+centreOf(a)
				beta, cov := b.solve(t, start)
				ln := math.Log(w.chance/list[0].chance) + (base-b.cost(beta))/2 + math.Min(0, b.lnEvidence(beta, cov)-room)
				// the second derivatives of the curve, which the program's covariance leaves out,
				// change it by a few per cent; and 0.03 of a standard uncertainty is where it stops
				require.InDelta(t, ln, math.Log(w.weight/list[0].weight), 0.12, "%v after %d", w.Part, w.After)
				require.InDelta(t, beta[tdcAt], w.End.At+centreOf(a), 0.05*math.Sqrt(cov.At(0, 0)))
				require.InEpsilon(t, math.Sqrt(cov.At(0, 0)), math.Hypot(w.End.Read, math.Hypot(w.End.Range, w.End.Ranges)), 0.05)
				tried++
			}
			require.Equal(t, 2*9, tried, "every place")
		})
	}
}

// centreOf is what an adjustment's angles count from.
func centreOf(a *solve.Solved) float64 {
	return math.Remainder(float64(a.Estimate(0, 0).Angle), 2*math.Pi)
}

// adjusted is the job as the program sees it.
func (j taken) adjusted(t *testing.T) (*solve.Solved, evidence.Protractor, []evidence.Reading) {
	t.Helper()
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 2 * throw, Rod: rod, KnownTo: evidence.DefaultKnownTo(true), OffsetStated: true},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	var read []evidence.Reading
	for i := range j.angle {
		read = append(read, evidence.Reading{Angle: geometry.Angle(j.angle[i]), Depth: geometry.Length(j.depth[i]), Turn: evidence.TurnDirection(j.turn[i])})
	}
	return fitted(t, setup, read), setup.Protractor, read
}

// fitted is the adjustment of readings.
func fitted(t *testing.T, setup evidence.Setup, read []evidence.Reading) *solve.Solved {
	t.Helper()
	crank, assumed, err := evidence.WithAssumed(setup.Engine)
	require.NoError(t, err)
	angle, depth := evidence.Columns(read)
	first, err := look.Open(crank, true, angle, depth)
	require.NoError(t, err)
	a, err := solve.Readings(setup, crank, assumed, read, nil, first.Rough)
	require.NoError(t, err)
	return a
}

// newlyTried is a session's hypotheses refitted.
func newlyTried(t *testing.T, s session, r *refit.Solver) []weighed {
	t.Helper()
	list, ok := s.try(r)
	require.True(t, ok)
	return list
}
