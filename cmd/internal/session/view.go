package session

import (
	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Place is the next best reading, in parts.
type Place struct {
	Drop   string // how far the piston is down there, with its unit
	Side   string // of TDC: rising or falling
	Turn   evidence.TurnDirection
	Angle  string // near which the protractor stands; "" while TDC is not determined
	Gauge  string // near which the gauge shows, with its unit; "" while TDC is not determined
	Then   string // to what the readings agree with it, degrees; "" where another reading promises nothing
	At     geometry.Angle
	Depth  geometry.Length // as the gauge shows it
	Enough bool            // more readings will hardly help
	Again  []string        // early places to read once more before the end
}

// The sides of TDC.
const (
	rising  = "rising"
	falling = "falling"
)

// side is that of a crank angle after TDC.
func side(after geometry.Angle) string {
	if after > 0 {
		return falling
	}
	return rising
}

// Place is the next best reading; false where no place is left to read, or which side is
// which is in doubt.
func (j State) Place() (p Place, ok bool) {
	n := j.Next
	if n == nil || j.Result != nil && j.Result.AgainstTurn() {
		return p, false
	}
	p = Place{Drop: j.bench().Drop(n.Drop), Side: side(n.Angle), Turn: n.Turn}
	if !j.fitted() {
		return p, true
	}
	p.At = j.Result.TDC.Angle + n.Angle
	p.Depth, _ = j.Result.Expect(p.At, n.Turn)
	p.Angle, p.Gauge = j.bench().Reads(p.At, 0), j.bench().Depth(p.Depth)
	if j.narrows() {
		now := j.Result.AgreeTo
		p.Then = words.WithinDegrees(now.Expanded * (n.Uncertainty / now.Uncertainty))
	}
	p.Enough, p.Again = j.enough(), j.early()
	return p, true
}

// narrows tells whether another reading can be foreseen to narrow the answer: where readings
// contradict one another, no interval is to be promised.
func (j State) narrows() bool {
	switch j.Result.CannotTell.(type) {
	case nil, finding.TooVague:
		return true
	}
	return false
}

// Sought is what to look for in place of a reading, and which way to turn; false of none.
func (j State) Sought() (text string, turn evidence.TurnDirection, ok bool) {
	if j.Seek == nil {
		return "", 0, false
	}
	return j.Seek.words, j.Seek.turn, true
}

// Limited tells whether the protractor's own error is what keeps TDC from being surer.
func (j State) Limited() bool { return j.Result != nil && j.limited() }

// Expected is the depth that the gauge should show at an angle, its standard uncertainty,
// and the side of TDC; false while no curve tells it.
func (j State) Expected(at geometry.Angle, turn evidence.TurnDirection) (depth, sigma geometry.Length, of string, ok bool) {
	if !j.fitted() {
		return 0, 0, "", false
	}
	depth, sigma = j.Result.Expect(at, turn)
	return depth, sigma, side((at - j.Result.TDC.Angle).Signed()), true
}

// Now is where the job stands, what is doubted taken down.
func (s *Session) Now() State {
	s.state.Doubted = s.stillDoubted()
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

// NextWords is the next best reading in a sentence, or what to look for in its place.
func (j State) NextWords() string { return j.nextWords() }

// Suspect tells whether a reading of the list does not fit, or was asked about and left.
func (j State) Suspect(i int) bool {
	earlier := len(j.Readings) - len(j.Current)
	return among(j.Doubted, j.Readings[i]) || j.fitted() && i >= earlier && j.Result.Readings[i-earlier].Suspect
}

// Choice is a line that answers a question, and what it takes.
type Choice struct{ Line, Shows string }

// Question is what is asked about readings that are kept, the choices, the first of which
// keeps what was typed, and the readings' numbers; "" of nothing.
func (s *Session) Question() (text string, choices []Choice, about []int) {
	q := s.question
	if q == nil {
		return "", nil, nil
	}
	for _, r := range q.about {
		about = append(about, s.number(r))
	}
	keeps := "keep it as typed"
	switch {
	case len(about) == 0:
		keeps = "leave it out"
	case len(about) > 1:
		keeps = "keep them as typed"
	}
	choices = []Choice{{keyKeep, keeps}}
	for _, t := range q.takes {
		choices = append(choices, Choice{append(t.keys, keyMeant)[0], t.shows})
	}
	return q.text, choices, about
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
