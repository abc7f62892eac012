package slip

import (
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/refit"
	"evendrop/tdc/evidence"
)

// hypothesis is something that may have happened in a session, and how probable it is
// before any reading.
type hypothesis struct {
	refit.Assumption
	chance float64
}

// moved tells whether something moved, or was turned the other way than written.
func (h hypothesis) moved() bool { return h.Part != curve.NoPart || h.To > h.From }

// still tells the contrary.
func (h hypothesis) still() bool { return !h.moved() }

// run is readings that follow one another turned one way.
type run struct {
	from, to  int  // the last one excluded
	confirmed bool // its angles go on as they were turned, so the turn was written rightly
}

// session is what the order of the readings leaves open.
type session struct {
	readings int
	runs     []run
	chances  chances
	pairs    bool // pairs of angles were taken too, nobody said when
}

// newSession parts the readings, in the order they were taken, where the crank was
// turned back. Angles nearer than still are one place.
func newSession(read []evidence.Reading, still geometry.Angle, pairs bool) session {
	s := session{readings: len(read), chances: oneWay, pairs: pairs}
	for i, r := range read {
		if i == 0 || r.Turn != read[i-1].Turn {
			s.runs = append(s.runs, run{from: i, to: i})
		}
		s.runs[len(s.runs)-1].to++
	}
	for i, r := range s.runs {
		s.runs[i].confirmed = goesOn(read[r.from:r.to], still)
	}
	if len(s.runs) > 1 {
		s.chances = bothWays
	}
	return s
}

// goesOn tells whether most steps of a run go the way that it was turned.
func goesOn(read []evidence.Reading, still geometry.Angle) bool {
	right, wrong := 0, 0
	for i := 1; i < len(read); i++ {
		switch by := (read[i].Angle - read[i-1].Angle).Signed() * geometry.Angle(read[i].Turn); {
		case by >= still:
			right++
		case by <= -still:
			wrong++
		}
	}
	return right > wrong
}

// places is after how many readings a part may have moved: where the crank was turned
// back, and elsewhere.
func (s session) places() (atTurn, elsewhere []int) {
	back := map[int]bool{}
	for _, r := range s.runs[1:] {
		back[r.from] = true
	}
	for k := fewestBefore; k <= s.readings-fewestAfter; k++ {
		if back[k] {
			atTurn = append(atTurn, k)
		} else {
			elsewhere = append(elsewhere, k)
		}
	}
	return atTurn, elsewhere
}

// moves is a part moved at each of some places, with a chance that they share, of an
// engine as it stands.
func (s session) moves(part curve.Part, places []int, chance float64, of hypothesis) (list []hypothesis) {
	for _, k := range places {
		h := of
		h.Part, h.After, h.chance = part, k, chance/float64(len(places))
		if part == curve.Protractor && s.pairs {
			h.chance /= 2
			list = append(list, h)
			h.PairsBefore = true
		}
		list = append(list, h)
	}
	return list
}

// turns is the turn of one run written wrongly, or of every one; not where the order of
// the readings confirms it.
func (s session) turns() (list []hypothesis) {
	n, confirmed := len(s.runs), 0
	for _, r := range s.runs {
		switch {
		case r.confirmed:
			confirmed++
		case n > 1 && n <= mostRuns:
			list = append(list, hypothesis{refit.Assumption{From: r.from, To: r.to}, s.chances.oneTurn / float64(n)})
		}
	}
	if confirmed == 0 {
		list = append(list, hypothesis{refit.Assumption{To: s.readings}, s.chances.everyTurn})
	}
	return list
}

// worn is worn bearings, from each start that may fit better than nothing does.
func (s session) worn(nothing refit.Refit) (list []hypothesis) {
	starts := wornStarts[:]
	if nothing.Cost < nothing.Degrees {
		starts = starts[:1]
	}
	for _, from := range starts {
		list = append(list, hypothesis{refit.Assumption{Lash: wornLash, LashFrom: from}, s.chances.worn})
	}
	return list
}

// wide is those, a wheel far off its centre, and an engine far from what was stated.
func (s session) wide() hypothesis {
	return hypothesis{refit.Assumption{Lash: wornLash, Wheel: wideWheel, Scale: wideScale}, s.chances.wide}
}
