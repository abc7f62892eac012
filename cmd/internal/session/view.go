package session

import (
	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/session/doubt"
	"evendrop/cmd/internal/session/standing"
	"evendrop/tdc/evidence"
)

// Now is where the job stands, what is doubted taken down.
func (s *Session) Now() standing.State {
	s.state.Doubted = s.doubts.Left()
	return s.state
}

// Turn is the way that the crank is turned for the readings to come.
func (s *Session) Turn() evidence.TurnDirection { return s.turn }

// Lobe is the lobe that is read in place of the piston, and its lifts; "" of none.
func (s *Session) Lobe() (name string, lifts []evidence.Reading) { return s.lobe, s.lifts }

// Cylinder is the one at hand as it is read in the set at hand.
func (s *Session) Cylinder() evidence.Cylinder { return s.cylinder(s.state.Readings) }

// Found is what find says of the job as far as it is typed.
func (s *Session) Found() (find.Answer, error) { return s.found() }

// Choice is a line that answers a question, and what it takes.
type Choice struct{ Line, Shows string }

// Question is what is asked about readings that are kept, the choices, the first of which
// keeps what was typed, and the readings' numbers; "" of nothing.
func (s *Session) Question() (text string, choices []Choice, about []int) {
	q := s.doubts.Question
	if q == nil {
		return "", nil, nil
	}
	for _, r := range q.About {
		about = append(about, s.doubts.Number(r))
	}
	keeps := "keep it as typed"
	switch {
	case len(about) == 0:
		keeps = "leave it out"
	case len(about) > 1:
		keeps = "keep them as typed"
	}
	choices = []Choice{{doubt.Keep, keeps}}
	for _, t := range q.Takes {
		choices = append(choices, Choice{append(t.Keys, doubt.Meant)[0], t.Shows})
	}
	return q.Text, choices, about
}

// Asks is what the next line answers, what it is about, and what an empty one stands for;
// "" of nothing.
func (s *Session) Asks() (of, text, usual string) {
	if s.asked == nil {
		return "", "", ""
	}
	text, usual, _ = s.asked.Question()
	return s.asked.of, text, usual
}

// Deeds is what undo would take back and what redo would do again; "" of nothing.
func (s *Session) Deeds() (undo, redo string) {
	if n := len(s.deeds.done); n > 0 {
		undo = s.deeds.done[n-1].words()
	} else if n := len(s.state.Readings); n > 0 {
		undo = "reading " + s.typed(s.state.Readings[n-1])
	}
	if n := len(s.deeds.undone); n > 0 {
		redo = s.deeds.undone[n-1].words()
	}
	return undo, redo
}
