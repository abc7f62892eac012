package fit

import "math"

// Solver holds a problem and the room to solve it: solving again, with the
// observations changed in place, allocates nothing.
type Solver struct {
	Problem
	loss  Loss
	free  []int // parameters that are not held
	now   state
	next  state
	rows  [][]float64 // weighted Jacobian, used up by each fold
	right []float64
	pull  []float64 // what the loss leaves of each reading
	gauss triangle  // the linearised problem
	damp  triangle  // the same, damped
	reach []float64
	step  []float64
	zero  []float64
	copyR [][]float64
	copyQ []float64
}

// state is a trial solution and the curve there.
type state struct {
	beta, t  []float64
	f, slope []float64
	jac      [][]float64
	cost     float64
}

// NewSolver checks p and makes room for it. The slices of p are kept, not copied.
func NewSolver(p Problem) (*Solver, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if p.Tolerance == 0 {
		p.Tolerance = 1e-10
	}
	if p.MaxSteps == 0 {
		p.MaxSteps = 1000
	}
	s := &Solver{Problem: p}
	for j, prior := range p.Priors {
		if prior.Sigma > 0 {
			s.free = append(s.free, j)
		}
	}
	n, m, k := len(p.X), len(p.Priors), len(s.free)
	s.now, s.next = newState(n, m), newState(n, m)
	s.rows, s.right, s.pull = matrix(k, n), make([]float64, n), make([]float64, n)
	s.gauss, s.damp = newTriangle(k), newTriangle(k)
	s.reach, s.step, s.zero = make([]float64, k), make([]float64, k), make([]float64, k)
	s.copyR, s.copyQ = matrix(k, k), make([]float64, k)
	return s, nil
}

func newState(n, m int) state {
	return state{
		beta: make([]float64, m), t: make([]float64, n),
		f: make([]float64, n), slope: make([]float64, n), jac: matrix(m, n),
	}
}

// Status is how a solution ended.
type Status int

// The ends a solution can come to.
const (
	// Converged: the last step was below the tolerance.
	Converged Status = iota
	// Stalled: no shorter step made things better, yet the step was not small.
	Stalled
	// OutOfSteps: MaxSteps were tried.
	OutOfSteps
	// Undetermined: the observations and priors do not fix every parameter where
	// the search ended, whatever its units: there it could be 1e13 times what
	// its uncertainty would be were the others known.
	Undetermined
	// NotANumber: the curve could not be computed at the start.
	NotANumber
	// BadStart: the start did not hold one value a parameter. The parameters
	// are NaN.
	BadStart
)

// String says the status in words.
func (s Status) String() string {
	return [...]string{
		"converged", "no step makes it better", "ran out of steps",
		"the observations do not fix every parameter", "the curve is not a number at the start",
		"the start has not one value for every parameter",
	}[s]
}

// Solve minimises from a start, one value a parameter; held parameters take
// their prior's mean whatever the start says. The solution's slices are the
// solver's own and last until it solves again.
func (s *Solver) Solve(start []float64, loss Loss) Solution {
	s.loss = loss
	status, steps := BadStart, 0
	if s.place(start) {
		status, steps = s.descend()
	}
	return s.solution(status, steps)
}

// place puts s.now at the start, or nowhere when it is not one.
func (s *Solver) place(start []float64) bool {
	good := len(start) == len(s.Priors)
	for j, prior := range s.Priors {
		switch {
		case !good:
			s.now.beta[j] = math.NaN()
		case prior.Sigma == 0:
			s.now.beta[j] = prior.Mean
		default:
			s.now.beta[j] = start[j]
		}
	}
	copy(s.now.t, s.X)
	s.evaluate(&s.now)
	s.settle()
	clear(s.reach)
	return good
}

// settle puts the abscissae where the start's curve comes nearest the readings,
// each by a few Gauss-Newton steps of its own, so far as they bring it nearer.
//
// A loss that lets go needs it: against x as observed a good reading may stand
// off so far in y alone that it would count for nothing from the first step on.
// The others reach farther without: a steep line passes near everything.
func (s *Solver) settle() {
	if s.SigmaX == nil || s.loss.kind != redescending {
		return
	}
	clear(s.step)
	copy(s.next.beta, s.now.beta)
	for range 3 {
		s.moveAbscissae(0)
		s.evaluate(&s.next)
		for i := range s.X {
			if !(s.distance2(&s.next, i) < s.distance2(&s.now, i)) {
				s.next.t[i] = s.now.t[i]
			}
		}
		s.evaluate(&s.next)
		s.now, s.next = s.next, s.now
	}
}

// descend steps from s.now until a step is small, keeping the best in s.now.
func (s *Solver) descend() (Status, int) {
	if !finite(s.now.cost) {
		return NotANumber, 0
	}
	lambda, last := 0.0, math.Inf(1)
	for steps := 0; steps < s.MaxSteps; {
		s.linearise()
		s.measure()
		determined := !s.gauss.deficient()
		if !determined && lambda == 0 {
			lambda = leastDamping // it may be so here and not farther on
		}
		for {
			if steps++; steps > s.MaxSteps {
				return OutOfSteps, s.MaxSteps
			}
			size := s.tryStep(lambda)
			if !determined && lambda <= leastDamping && s.atRounding(size) {
				return Undetermined, steps
			}
			// A step too small for the objective to judge is judged by the one
			// before it: they shrink until only rounding is left.
			fine := lambda == 0 && s.atRounding(size) && finite(s.next.cost)
			if fine && size > 0.9*last {
				return Converged, steps
			}
			if fine || s.next.cost <= s.now.cost {
				gain := s.now.cost - s.next.cost
				s.now, s.next = s.next, s.now
				if lambda == 0 && size <= s.Tolerance*s.unit() {
					return Converged, steps
				}
				if fine {
					last = size
				}
				if gain <= 0 && lambda > 0 {
					lambda = 0
				}
				lambda = relax(lambda)
				break
			}
			if lambda = stiffen(lambda); lambda > 1e20 {
				return Stalled, steps
			}
		}
	}
	return OutOfSteps, s.MaxSteps
}

// Damping as by Marquardt: ten times less after a success, ten times more after
// a failure, none at all once it is too small to matter.
const leastDamping = 1e-4 // to begin with

func relax(lambda float64) float64 {
	if lambda /= 10; lambda < 1e-8 {
		return 0
	}
	return lambda
}

func stiffen(lambda float64) float64 {
	if lambda == 0 {
		return leastDamping
	}
	return lambda * 10
}

// unit is the size of a standard uncertainty in the objective: 1, or what the
// residuals say when they are smaller or greater.
func (s *Solver) unit() float64 {
	return math.Sqrt(s.now.cost / math.Max(1, float64(len(s.X)-len(s.free))))
}

// atRounding tells whether a step that made nothing better was one that could
// not: it changes the objective by less than the objective's own digits.
func (s *Solver) atRounding(size float64) bool {
	return size*size <= 1e-11*s.now.cost || size <= 1e-13*s.lengthOfBeta()
}

// lengthOfBeta is the parameters' length in the same measure as a step's.
func (s *Solver) lengthOfBeta() float64 {
	sum := 0.0
	for k, j := range s.free {
		sum += sq(s.reach[k] * s.now.beta[j])
	}
	return math.Sqrt(sum)
}

// evaluate computes the curve and the objective at st.
func (s *Solver) evaluate(st *state) {
	s.Model.Evaluate(st.beta, st.t, st.f, st.slope, st.jac)
	cost := 0.0
	for i := range st.t {
		z2 := s.distance2(st, i)
		if s.loss.kind == squares {
			cost += z2
		} else {
			cost += s.loss.cost(math.Sqrt(z2))
		}
	}
	for _, j := range s.free {
		cost += sq((st.beta[j] - s.Priors[j].Mean) / s.Priors[j].Sigma)
	}
	st.cost = cost
}

// distance2 is reading i's squared distance from its place on the curve, in
// standard uncertainties of both variables: what the loss is asked about. Weights
// by anything else would make steps that need not go down.
func (s *Solver) distance2(st *state, i int) float64 {
	z2 := sq((s.Y[i] - st.f[i]) / s.SigmaY[i])
	if sigma := s.sigmaX(i); sigma > 0 {
		z2 += sq((s.X[i] - st.t[i]) / sigma)
	}
	return z2
}

func (s *Solver) sigmaX(i int) float64 {
	if s.SigmaX == nil {
		return 0
	}
	return s.SigmaX[i]
}

// residual is reading i's distance from the tangent of the curve at t, and the
// standard uncertainty of that distance: what is left when t is eliminated.
func (s *Solver) residual(st *state, i int) (e, sigma float64) {
	e = s.Y[i] - st.f[i]
	sigma = s.SigmaY[i]
	if sigmaX := s.sigmaX(i); sigmaX > 0 {
		e -= st.slope[i] * (s.X[i] - st.t[i])
		sigma = math.Sqrt(sq(sigma) + sq(st.slope[i]*sigmaX))
	}
	return e, sigma
}

// weight is what the loss leaves of reading i at s.now.
func (s *Solver) weight(i int) float64 {
	return s.loss.Weight(math.Sqrt(s.distance2(&s.now, i)))
}

// linearise builds the triangle of the problem linearised at s.now, every
// reading's row scaled by the root of its weight, the loss's bend apart.
func (s *Solver) linearise() {
	for i := range s.X {
		e, sigma := s.residual(&s.now, i)
		s.pull[i] = s.weight(i)
		weight := math.Sqrt(s.pull[i]) / sigma
		s.right[i] = weight * e
		for k, j := range s.free {
			s.rows[k][i] = weight * s.now.jac[j][i]
		}
	}
	s.fold()
}

// fold puts the priors' rows on top and the readings' rows under them.
func (s *Solver) fold() {
	for k, j := range s.free {
		prior := s.Priors[j]
		s.step[k] = 1 / prior.Sigma
		s.zero[k] = 0
		if !math.IsInf(prior.Sigma, 1) {
			s.zero[k] = (prior.Mean - s.now.beta[j]) / prior.Sigma
		}
	}
	s.gauss.diagonal(s.step)
	copy(s.gauss.q, s.zero)
	s.gauss.fold(s.rows, s.right)
}

// measure keeps the greatest length each column has had, the scale in which
// steps are damped (More1978).
func (s *Solver) measure() {
	for k, column := range s.gauss.r {
		s.reach[k] = math.Max(s.reach[k], math.Sqrt(dot(column[:k+1], column[:k+1])))
	}
}

// tryStep puts the damped step's end into s.next and tells the step's length in
// standard uncertainties.
func (s *Solver) tryStep(lambda float64) (size float64) {
	system := s.gauss
	if lambda > 0 {
		system = s.damped(lambda)
	}
	system.solve(s.step)
	size2 := s.moveBeta()
	size2 += s.moveAbscissae(lambda)
	s.evaluate(&s.next)
	if math.IsNaN(s.next.cost) {
		s.next.cost = math.Inf(1)
	}
	return math.Sqrt(size2)
}

// damped is the triangle with lambda times the columns' reach as further rows.
func (s *Solver) damped(lambda float64) triangle {
	for k := range s.gauss.r {
		copy(s.copyR[k], s.gauss.r[k])
		s.zero[k] = math.Sqrt(lambda) * math.Max(s.reach[k], 1e-300)
	}
	copy(s.copyQ, s.gauss.q)
	s.damp.diagonal(s.zero)
	s.damp.fold(s.copyR, s.copyQ)
	return s.damp
}

// moveBeta takes the step in the parameters and tells its squared length.
func (s *Solver) moveBeta() float64 {
	copy(s.next.beta, s.now.beta)
	for k, j := range s.free {
		s.next.beta[j] += s.step[k]
	}
	size2 := 0.0
	for k := range s.free {
		along := 0.0
		for j := k; j < len(s.free); j++ {
			along += s.gauss.r[j][k] * s.step[j]
		}
		size2 += along * along
	}
	return size2
}

// moveAbscissae puts every t where the linearised curve comes nearest its
// reading, and tells how far they went, squared, in standard uncertainties, a
// reading that has been let go not counting.
func (s *Solver) moveAbscissae(lambda float64) float64 {
	copy(s.next.t, s.now.t)
	size2 := 0.0
	for i := range s.X {
		sigmaX := s.sigmaX(i)
		if sigmaX == 0 {
			continue
		}
		e := s.Y[i] - s.now.f[i]
		for k, j := range s.free {
			e -= s.now.jac[j][i] * s.step[k]
		}
		slope, ratio := s.now.slope[i], sq(sigmaX/s.SigmaY[i])
		dt := (s.X[i] - s.now.t[i] + slope*ratio*e) / ((1 + slope*slope*ratio) * (1 + lambda))
		s.next.t[i] += dt
		size2 += s.pull[i] * sq(dt/sigmaX)
	}
	return size2
}

func sq(x float64) float64 { return x * x }
