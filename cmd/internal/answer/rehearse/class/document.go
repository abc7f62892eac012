package class

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// Document is the marks in words.
func (m Marked) Document() doc.Document {
	var d doc.Document
	s := m.summary()
	d.SayAs(doc.Finding, s.sentence())
	d.Say(s.promises())
	t := doc.Table{Caption: "Answers", Header: []string{"Who", "engine", "off by", "±", "promise", "pin", "evendrop", "TDC"}}
	for _, r := range m.rows {
		t.Add(r.state(), r.Name, strconv.Itoa(r.Engine), words.Signed(r.Off, 2), r.halfText(), string(r.promise()), r.pinText(), r.Own.text(), r.call())
	}
	d.Table(t)
	d.Say("Degrees; off by is late when positive, against the truth. TDC is right where it is as near as the engine's readings tell; evendrop's own is from the same job, ± 95 %.")
	d.List(s.fallen())
	d.List(m.pinsUndecided())
	d.Say(invented + caution.Line)
	return d
}

func (r row) state() doc.State {
	if r.right() {
		return doc.Within
	}
	return doc.Outside
}

func (r row) halfText() string {
	if r.answered.Within == nil {
		return ""
	}
	return words.Plain(r.promised())
}

// pinText is what was said of the pin, and how that is.
func (r row) pinText() string {
	switch {
	case r.pin() == "":
		return ""
	case r.pinRight():
		return "right"
	}
	return "wrong"
}

func (o own) text() string {
	if o.Untold != "" {
		return "cannot tell"
	}
	return words.Signed(o.Off, 2) + " ± " + words.Fixed(o.Within, 2)
}

// sentence is how many are right. One blunder of half a turn decides a mean, so the half that
// is nearest is told.
func (s summary) sentence() string {
	text := fmt.Sprintf("Right: %d of %d, by %s; half of the answers are off by no more than %s deg, whichever way.",
		s.Right, s.Answers, words.Count(s.Learners, "learner"), words.Fixed(s.HalfWithin, 2))
	if s.Pins > 0 {
		text += fmt.Sprintf(" Pins called rightly: %d of %d.", s.PinsRight, s.Pins)
	}
	return text
}

// promises is how the ± came out.
func (s summary) promises() string {
	if s.Promised == 0 {
		return "Nobody promised a ±: say within how many degrees TDC lies, since a figure without that cannot be trusted."
	}
	text := fmt.Sprintf("Promises that held the truth: %d of %d.", s.Held, s.Promised)
	if s.Wide > 0 {
		text += fmt.Sprintf(" Of those, %d said little, more than three times as wide as evendrop's own.", s.Wide)
	}
	if s.Held < s.Promised {
		text += " A promise that was not held was surer than the readings allow, or has a slip in it. However often a protractor is read, its own error stays."
	}
	return text
}

// fallen is the traps that answers seem to have come from, and whose they are.
func (s summary) fallen() (list []string) {
	for _, f := range s.Traps {
		list = append(list, words.Capital(f.Name)+": "+words.And(f.Who))
	}
	return list
}

// pinsUndecided is the engines whose pin evendrop itself cannot call.
func (m Marked) pinsUndecided() (list []string) {
	said := map[int]bool{}
	for _, r := range m.rows {
		if r.Own.Pin == mark.TooClose && !said[r.Engine] {
			said[r.Engine] = true
			list = append(list, fmt.Sprintf("Engine %d: evendrop finds the pin too close to call; it is %s deg %s.", r.Engine, words.Fixed(math.Abs(*r.Answer.Pin), 1), words.Later(geometry.Angle(*r.Answer.Pin)*geometry.Degree)))
		}
	}
	return list
}
