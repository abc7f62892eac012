package bench

import (
	"fmt"
	"strings"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// state is where the job stands.
func (s *sitting) state() *State {
	at := s.Now()
	lobe, lifts := s.Lobe()
	out := &State{
		Cylinder: s.Number, Set: max(1, at.Set), Lobe: lobe, Turn: s.Turn().String(), Prompt: s.Prompt(),
		Standing: lines(s.Standing()), TDC: tdcOf(at), Next: nextOf(at), Readings: readingsOf(at),
		Seen: seenLines(at.Bench(), s.Cylinder()), Lifts: liftsOf(at, lifts), Warnings: []string{},
		Question: s.question(), Asks: s.asks(),
	}
	if lobe != "" { // the piston's next place is none of its lifts
		out.Next, out.Standing = nil, append(out.Standing[:min(1, len(out.Standing))], s.LobeNext())
	}
	if at.Result != nil {
		out.Warnings = append(out.Warnings, at.Find().Warnings(*at.Result)...)
	}
	undo, redo := s.Deeds()
	out.Undo, out.Redo = deed(undo, "undo"), deed(redo, "redo")
	return out
}

// lines is text as its lines.
func lines(text string) []string {
	list := []string{}
	for line := range strings.Lines(text) {
		list = append(list, strings.TrimRight(line, "\n"))
	}
	return list
}

// tdcOf is TDC as it stands; nil of none.
func tdcOf(at standing.State) *TDC {
	r := at.Result
	if r == nil {
		return nil
	}
	b := at.Bench()
	out := &TDC{
		Text: b.ReadsWithin(r.TDC), At: b.Reads(r.TDC.Angle, words.Decimals(r.TDC.Expanded.Degrees())), Within: words.WithinDegrees(r.TDC.Expanded),
		AgreeTo: words.WithinDegrees(r.AgreeTo.Expanded), Sure: sure(*r), Readings: len(at.Current), AtDeg: b.Protractor.Shows(r.TDC.Angle).Degrees(),
		Half: r.TDC.Expanded.Degrees(), Agree: r.AgreeTo.Expanded.Degrees(), Limited: at.Limited(),
	}
	if !out.Sure {
		out.Why = words.Capital(at.Find().Untold(*r)) + "."
	}
	return out
}

// sure tells whether a TDC is an answer to go by.
func sure(r tdc.Result) bool { return r.CannotTell == nil && !r.AgainstTurn() }

// nextOf is what to read, or to look for, next; nil of nothing.
func nextOf(at standing.State) *Next {
	if seek := at.Seek; seek != nil {
		return &Next{Text: seek.Words, Spoken: seek.Words, Turn: seek.Turn.String(), Again: []string{}}
	}
	p, ok := at.Place()
	if !ok {
		return nil
	}
	out := &Next{
		Text: at.NextWords(), Turn: p.Turn.String(), Side: p.Side, Drop: p.Drop, Angle: p.Angle, Gauge: p.Gauge, Then: p.Then,
		Enough: p.Enough, Again: append([]string{}, p.Again...),
	}
	out.Spoken = fmt.Sprintf("Turning %s, %s side, %s down.", p.Turn, p.Side, p.Drop)
	if p.Angle != "" {
		out.Spoken = fmt.Sprintf("Turning %s, %s side, near %s, gauge near %s.", p.Turn, p.Side, p.Angle, p.Gauge)
		degrees, depth := at.Bench().Protractor.Shows(p.At).Degrees(), p.Depth.Millimetres()
		out.Angled, out.Depth = &degrees, &depth
	}
	return out
}

// readingsOf is every reading of the cylinder.
func readingsOf(at standing.State) []Reading {
	b := at.Bench()
	var angles []float64
	for _, r := range at.Readings {
		angles = append(angles, r.Angle.Degrees())
	}
	places := words.AsRead(angles, b.Protractor.Step.Degrees())
	earlier := len(at.Readings) - len(at.Current)
	list := []Reading{}
	for i, r := range at.Readings {
		depth := b.Gauge.Falling(r.Depth)
		angle := b.Reads(r.Angle, places)
		one := Reading{
			Number: i + 1, File: r.File, Line: r.Line, Set: evidence.SetOf(r.Set), Turn: r.Turn.String(), Angle: angle, Depth: b.Read(depth),
			Suspect: at.Suspect(i), Note: r.Note, AngleDeg: words.Stated(b.Protractor.Shows(r.Angle)), DepthMm: depth.Millimetres(),
			Fix: fmt.Sprintf("fix %d %s %s %s", i+1, r.Turn.String()[:1], angle, b.Number(depth)), Strike: fmt.Sprintf("strike %d", i+1),
		}
		if at.Result != nil && i >= earlier && i-earlier < len(at.Result.Readings) {
			judged := at.Result.Readings[i-earlier]
			one.Off = b.Residual(judged.Residual)
			one.Residual, one.Weight = form.Finite(judged.Residual.Millimetres()), form.Finite(judged.Weight)
		}
		list = append(list, one)
	}
	return list
}

// liftsOf is the lifts of a lobe.
func liftsOf(at standing.State, lifts []evidence.Reading) []Lift {
	b := at.Bench()
	list := []Lift{}
	for i, r := range lifts {
		places := words.AsRead([]float64{r.Angle.Degrees()}, b.Protractor.Step.Degrees())
		list = append(list, Lift{i + 1, b.Reads(r.Angle, places), b.Depth(r.Depth), r.Turn.String()})
	}
	return list
}

// question is what is asked about readings; nil of nothing.
func (s *sitting) question() *Question {
	text, choices, about := s.Question()
	if text == "" {
		return nil
	}
	out := &Question{Text: text, Answers: []Answer{}, About: append([]int{}, about...)}
	for _, c := range choices {
		out.Answers = append(out.Answers, Answer{c.Line, words.Capital(c.Shows)})
	}
	return out
}

// asks is what the next line answers; nil of nothing.
func (s *sitting) asks() *Asks {
	of, text, usual := s.Asks()
	if of == "" {
		return nil
	}
	return &Asks{Of: of, Text: text, Usual: usual, Leave: "cancel"}
}

// deed is something done; nil of nothing.
func deed(says, line string) *Deed {
	if says == "" {
		return nil
	}
	return &Deed{says, line}
}

// expect is what the gauge should show at an angle, as far as it is typed.
func (c *Core) expect(r Request) (Response, error) {
	at := c.open.Now()
	out := &Expected{}
	written, err := measure.ParseAngle(strings.TrimSpace(r.Line))
	if err != nil {
		return Response{Expected: out}, nil // half an angle is no fault
	}
	b := at.Bench()
	angle, err := b.Protractor.Crank(written)
	if err != nil {
		out.Says = words.Capital(err.Error()) + "."
		legibly(out)
		return Response{Expected: out}, nil
	}
	turn := c.open.Turn()
	switch r.Turn {
	case evidence.Forward.String():
		turn = evidence.Forward
	case evidence.Backward.String():
		turn = evidence.Backward
	}
	out.Angle = b.Reads(angle, words.AsRead([]float64{angle.Degrees()}, b.Protractor.Step.Degrees()))
	out.take(b, at, angle, turn)
	return Response{Expected: out}, nil
}

// take takes the depth that is expected at an angle, where a curve tells it.
func (e *Expected) take(b words.Bench, at standing.State, angle geometry.Angle, turn evidence.TurnDirection) {
	depth, sigma, side, ok := at.Expected(angle, turn)
	if !ok || !sure(*at.Result) {
		return
	}
	if wide := form.Finite(sigma.Millimetres()); wide != nil {
		e.Sigma = *wide
	}
	e.Gauge, e.Side, e.Depth = b.Depth(depth), side, depth.Millimetres()
}
