package slip

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/refit"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
)

// Kind is what moved.
type Kind string

// The kinds.
const (
	Protractor Kind = "protractor"
	GaugeZero  Kind = "gauge zero"
	Turn       Kind = "turn"
)

// Slip is something that moved during a session, as the readings show it most
// probably.
type Slip struct {
	Kind  Kind
	After int // so many readings; of a turn, those before the run
	To    int // of a turn, the number of the run's last reading
	// By how much more the protractor (radians, in the running direction) or the gauge (mm)
	// reads since, and its standard uncertainty; zero of a turn. Look takes the gauge's
	// numbers to grow as the piston goes down.
	Size, Uncertainty float64
	Before            gum.Estimate // TDC as the protractor showed it before
	// Or is what may have moved instead: of another kind, or far from there in the session.
	// It is nil where the readings tell the two apart; of it Before is not told.
	Or *Slip
}

// Told is what the readings tell of their session.
type Told struct {
	Moved float64 // the probability that something did
	Slip  *Slip   // nil without an alarm
	Worn  bool    // the lash is far outside what was stated, nothing having moved
	// Fit is the adjustment by what happened most probably; the one asked about where that
	// is nothing. Its shift is where all hypotheses together put TDC from there at the
	// session's end, and its doubt makes its interval theirs.
	Fit *adjust.Adjustment
}

// Look tells what happened while the readings of an adjustment were taken; read is
// these, in the order they were taken, and pairs tells that pairs of angles were taken
// too. Of few readings nothing is told.
func Look(a *solve.Solved, p evidence.Protractor, read []evidence.Reading, pairs bool) Told {
	told := Told{Fit: &adjust.Adjustment{Solved: a}}
	if len(read) < fewest {
		return told
	}
	refits := refit.New(a, stepSeen(p, read), asStated)
	list, ok := newSession(read, p.Still(), pairs).try(refits)
	if !ok {
		return told
	}
	weigh(list)
	told.Moved = probability(list, func(w weighed) bool { return w.moved() })
	told.decide(list, refits, len(read))
	return told
}

// decide is what is made of the hypotheses: the adjustment to go by, and what the others
// make of its TDC.
func (t *Told) decide(list []weighed, r *refit.Solver, readings int) {
	by := list[0]
	moved := best(list, func(w weighed) bool { return w.moved() && w.shows() })
	still := best(list, func(w weighed) bool { return w.still() })
	switch {
	case moved.weight > 0 && (t.Moved > alarm || scan(list) > scanLimit(readings)):
		by = moved
		t.Slip = by.slip()
		t.Slip.Or = instead(list, by)
		t.Slip.Before = t.Fit.Estimate(mixture(list, func(r refit.Refit) refit.Turning { return r.Before }).Interval())
	case still.Lash > 0 && still.Wheel == 0 && still.weight > likelier*by.weight:
		by = still
		t.Worn = probability(list, func(w weighed) bool { return w.Lash > 0 }) > wornBeyond
	}
	if by.Assumption != (refit.Assumption{}) {
		if fit, ok := r.Refitted(by.Assumption, by.Refit); ok {
			t.Fit.Solved = fit
		} else {
			by = list[0]
		}
	}
	t.average(list, by)
}

// average is where all hypotheses together put TDC, and how sure that is, beside one of
// them. Where their interval lies nearly even about that one's, TDC stays there.
func (t *Told) average(list []weighed, by weighed) {
	middle, half := mixture(list, func(r refit.Refit) refit.Turning { return r.End }).Interval()
	off := middle - by.End.At
	shift := beyond(off, nearlyEven*half)
	t.Fit.Shift = geometry.Angle(shift)
	t.Fit.Doubt = geometry.Angle(by.possible(by.End, 1).Beside(half + math.Abs(off-shift)))
}

// beyond is nought up to some size, and the whole from twice that on.
func beyond(x, size float64) float64 {
	return math.Copysign(math.Max(0, math.Min(math.Abs(x), 2*(math.Abs(x)-size))), x)
}

// shows tells whether a step is more than its own uncertainty: one that may be nothing gains by
// readings that its fit lets go of and the others' do not, and nothing has moved by it. A turn
// has no size.
func (w weighed) shows() bool {
	return w.Part == curve.NoPart || math.Abs(w.Step) > gum.Normal95*w.Widened*w.StepSigma
}

// scan is what the best step that shows gains of chi-square over the best of what leaves
// everything where it was, for its scatter.
func scan(list []weighed) float64 {
	step, still := math.Inf(1), math.Inf(1)
	for _, w := range list {
		switch {
		case w.Part != curve.NoPart && w.shows():
			step = math.Min(step, w.Cost)
		case w.still():
			still = math.Min(still, w.Cost)
		}
	}
	return (still - step) / sq(scatterOfBest(list))
}

// instead is the most probable move that somebody would look elsewhere for than for one;
// nil where all such together are too improbable.
func instead(list []weighed, than weighed) *Slip {
	moved := func(w weighed) bool { return w.moved() && w.shows() }
	elsewhere := func(w weighed) bool {
		return moved(w) && (w.Part != than.Part || math.Abs(float64(w.began()-than.began())) > near)
	}
	if probability(list, elsewhere) <= open*probability(list, moved) {
		return nil
	}
	return best(list, elsewhere).slip()
}

// began is after how many readings a move happened, or a run in doubt begins.
func (w weighed) began() int {
	if w.Part == curve.NoPart {
		return w.From
	}
	return w.After
}

// slip is the move that a hypothesis makes.
func (w weighed) slip() *Slip {
	s := &Slip{Kind: Turn, After: w.From, To: w.To}
	switch w.Part {
	case curve.NoPart:
		return s
	case curve.Protractor:
		s.Kind = Protractor
	case curve.GaugeZero:
		s.Kind = GaugeZero
	}
	s.After, s.To = w.After, 0
	s.Size, s.Uncertainty = w.Step, w.Widened*w.StepSigma
	return s
}

// stepSeen is the step that the angles were read to, where that is coarser than the
// protractor's.
func stepSeen(p evidence.Protractor, read []evidence.Reading) geometry.Angle {
	for _, step := range []geometry.Angle{5 * geometry.Degree, 2 * geometry.Degree, geometry.Degree, 0.5 * geometry.Degree} {
		if step <= p.Step {
			break
		}
		if onStep(read, step) {
			return step
		}
	}
	return p.Step
}

// onStep tells whether every angle was read to a step.
func onStep(read []evidence.Reading, step geometry.Angle) bool {
	const digits = 1e-6 // of a degree, that the way through radians may add
	for _, r := range read {
		if math.Abs(math.Remainder(r.Angle.Degrees(), step.Degrees())) > digits {
			return false
		}
	}
	return true
}
