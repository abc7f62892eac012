package session

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evendrop/cmd/internal/session/blunder"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// shownWays is the ways that are shown: the likeliest, and the other unit beside it.
func shownWays(ways []blunder.Way) []blunder.Way {
	for _, w := range ways[1:] {
		if w.Kind == blunder.Inches {
			return []blunder.Way{ways[0], w}
		}
	}
	return ways[:1]
}

// ofOne is the question about one reading.
func (s *Session) ofOne(o oddReading) *question {
	q := &question{about: []evidence.Reading{o.Reading}}
	text := words.Capital(s.named(o.Reading)) + s.wrongWith(o.Reading)
	if len(o.ways) == 0 {
		q.text, q.keys = text+".", fmt.Sprintf("k keeps it; or type fix %d and what is right.", s.number(o.Reading))
		return q
	}
	ways := shownWays(o.ways)
	var shown []string
	for _, w := range ways {
		shown = append(shown, s.shownWay(w)+s.because(w))
		q.takes = append(q.takes, s.takes(o.Reading, w, s.shownWay(w)))
	}
	q.text = fmt.Sprintf("%s. Did you mean %s?", text, strings.Join(shown, ", or "))
	q.keys = fmt.Sprintf("k keeps %s, m takes %s", s.shownNow(o.Reading, ways[0]), s.shownWay(ways[0]))
	if len(ways) > 1 {
		q.keys += fmt.Sprintf("; type %s for that", s.shownWay(ways[1]))
	}
	q.keys += "."
	return q
}

// ofSeveral is the question about readings of which one is wrong.
func (s *Session) ofSeveral(odd []oddReading) *question {
	q := &question{open: true}
	var names, meant, keys []string
	for _, o := range odd {
		q.about = append(q.about, o.Reading)
		names = append(names, s.named(o.Reading))
		if len(o.ways) == 0 {
			continue
		}
		n := strconv.Itoa(s.number(o.Reading))
		take := s.takes(o.Reading, o.ways[0], n)
		take.shows += " in reading " + n
		q.takes = append(q.takes, take)
		meant, keys = append(meant, fmt.Sprintf("%s in reading %s", s.shownWay(o.ways[0]), n)), append(keys, n)
	}
	q.text = words.Capital(strings.Join(names, ", or ")) + ", is wrong: one piston cannot show them all."
	if len(meant) == 0 {
		q.keys = "k keeps them; or type fix, its number and what is right."
		return q
	}
	q.text += fmt.Sprintf(" Did you mean %s?", strings.Join(meant, ", or "))
	q.keys = fmt.Sprintf("k keeps them; the reading's number, %s, takes that.", strings.Join(keys, " or "))
	return q
}

// named is a reading by its number and as it is typed: "reading 3, 342.5 32.9".
func (s *Session) named(r evidence.Reading) string {
	b := s.state.Bench()
	return fmt.Sprintf("reading %d, %s %s", s.number(r), s.angleOf(r), b.Number(s.Job.Setup.Gauge.Falling(r.Depth)))
}

// number is a reading's in the list.
func (s *Session) number(r evidence.Reading) int { return sheet.Place(s.state.Readings, r) + 1 }

// angleOf is a reading's as the protractor showed it.
func (s *Session) angleOf(r evidence.Reading) string {
	return s.state.Bench().Reads(r.Angle, words.AsRead([]float64{r.Angle.Degrees()}, s.Job.Setup.Protractor.Step.Degrees()))
}

// wrongWith says how a reading and the nearest other one cannot be one piston's; or that
// it does not go with the others.
func (s *Session) wrongWith(r evidence.Reading) string {
	nearest, apart := evidence.Reading{}, geometry.Turn
	for _, other := range s.undoubted() {
		if by := geometry.Angle(math.Abs(float64((other.Angle - r.Angle).Signed()))); other != r && by < apart {
			nearest, apart = other, by
		}
	}
	if _, b := s.benches(); apart == geometry.Turn || len(b.Odd([]evidence.Reading{nearest, r})) == 0 {
		return " does not go with the others"
	}
	moved := geometry.Length(math.Abs(float64(nearest.Depth - r.Depth)))
	if apart == 0 {
		return fmt.Sprintf(": the piston would have moved %s and the crank not at all", s.state.Bench().Depth(moved))
	}
	return fmt.Sprintf(": the piston would have moved %s in %s deg", s.state.Bench().Depth(moved), words.Trimmed(apart.Degrees(), 1))
}

// shownWay is what is typed for a way: a depth, an angle, or both.
func (s *Session) shownWay(w blunder.Way) string {
	switch {
	case w.Depth:
		return s.shownDepth(w.Reading.Depth)
	case w.Kind == blunder.Swapped:
		return s.angleOf(w.Reading) + " " + s.shownDepth(w.Reading.Depth)
	}
	return s.angleOf(w.Reading)
}

// shownNow is the same of the reading as it stands.
func (s *Session) shownNow(r evidence.Reading, w blunder.Way) string {
	w.Reading = r
	return s.shownWay(w)
}

// shownDepth is a depth as it is typed, to one more decimal than it is shown with.
func (s *Session) shownDepth(l geometry.Length) string {
	b := s.state.Bench()
	places := 3
	if b.Inches {
		places = 4
	}
	return words.Trimmed(b.In(s.Job.Setup.Gauge.Falling(l)), places)
}

// because says which unit a depth may have been typed in.
func (s *Session) because(w blunder.Way) string {
	switch {
	case w.Kind == blunder.Swapped:
		return " (angle first)"
	case w.Kind != blunder.Inches:
		return ""
	case s.state.Bench().Inches:
		return " (from mm)"
	}
	return " (from inches)"
}

// takes puts a way over a reading.
func (s *Session) takes(r evidence.Reading, w blunder.Way, key string) take {
	return take{[]string{strings.ToLower(key)}, s.shownWay(w) + s.because(w), func() error {
		var e sheet.Entry
		if w.Depth || w.Kind == blunder.Swapped {
			e.Depth = s.shownDepth(w.Reading.Depth)
		}
		if !w.Depth {
			e.Angle = s.angleOf(w.Reading)
		}
		return s.fixed(s.number(r), r, e)
	}}
}
