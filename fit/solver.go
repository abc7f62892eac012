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
	scale []float64 // of each row
	pull  []float64 // what the loss leaves of each reading
	rise  []float64 // of the curve at each abscissa, along a step
	gauss triangle  // the linearised problem
	damp  triangle  // the same, damped
	norm  []float64 // of each parameter's column, here
	reach []float64 // the greatest that it has been
	step  []float64
	// of the last step: what it would gain if the problem were linear, and its length
	// as the region measures it
	foreseen, length float64
	zero             []float64
	small            [][]float64 // room for a covariance
}

// state is a trial solution and the curve there.
type state struct {
	beta, t  []float64
	f, slope []float64
	jac      [][]float64
	cost     float64
}

// NewSolver checks p, whose faults are errors, and makes room for it. The slices of p are
// kept, not copied.
func NewSolver(p Problem) (*Solver, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if p.Tolerance == 0 {
		p.Tolerance = 1e-10
	}
	if p.MaxSteps == 0 {
		p.MaxSteps = 3000
	}
	s := &Solver{Problem: p}
	for j, prior := range p.Priors {
		if prior.Sigma > 0 {
			s.free = append(s.free, j)
		}
	}
	n, m, k := len(p.X), len(p.Priors), len(s.free)
	s.now, s.next = newState(n, m), newState(n, m)
	s.rows, s.right, s.scale = matrix(k, n), make([]float64, n), make([]float64, n)
	s.pull, s.rise = make([]float64, n), make([]float64, n)
	s.gauss, s.damp = newTriangle(k), newTriangle(k)
	s.small = matrix(k, k)
	s.norm, s.reach = make([]float64, k), make([]float64, k)
	s.step, s.zero = make([]float64, k), make([]float64, k)
	return s, nil
}

func newState(n, m int) state {
	return state{
		beta: make([]float64, m), t: make([]float64, n),
		f: make([]float64, n), slope: make([]float64, n), jac: matrix(m, n),
	}
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

// settle moves each abscissa to where the tangent of the start's curve comes
// nearest its reading, if the curve is nearer there.
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
	s.moveAbscissae(0)
	s.evaluate(&s.next)
	for i := range s.X {
		if s.distance2(&s.next, i) < s.distance2(&s.now, i) {
			s.now.moveTo(&s.next, i)
		}
	}
	s.now.cost = s.objective(&s.now)
}

// moveTo puts abscissa i where another state of the same parameters has it.
func (st *state) moveTo(other *state, i int) {
	st.t[i], st.f[i], st.slope[i] = other.t[i], other.f[i], other.slope[i]
	for j := range st.jac {
		st.jac[j][i] = other.jac[j][i]
	}
}
