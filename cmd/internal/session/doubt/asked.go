package doubt

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evendrop/cmd/internal/session/blunder"
	"evendrop/cmd/internal/session/typed"
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
func (d *Doubts) ofOne(o oddReading) *Question {
	q := &Question{About: []evidence.Reading{o.Reading}}
	text := words.Capital(d.named(o.Reading)) + d.wrongWith(o.Reading)
	if len(o.ways) == 0 {
		q.Text, q.keys = text+".", fmt.Sprintf("k keeps it; or type fix %d and what is right.", d.Number(o.Reading))
		return q
	}
	ways := shownWays(o.ways)
	var shown []string
	for _, w := range ways {
		shown = append(shown, d.shownWay(w)+d.because(w))
		q.Takes = append(q.Takes, d.takes(o.Reading, w, d.shownWay(w)))
	}
	q.Text = fmt.Sprintf("%s. Did you mean %s?", text, strings.Join(shown, ", or "))
	q.keys = fmt.Sprintf("k keeps %s, m takes %s", d.shownNow(o.Reading, ways[0]), d.shownWay(ways[0]))
	if len(ways) > 1 {
		q.keys += fmt.Sprintf("; type %s for that", d.shownWay(ways[1]))
	}
	q.keys += "."
	return q
}

// ofSeveral is the question about readings of which one is wrong.
func (d *Doubts) ofSeveral(odd []oddReading) *Question {
	q := &Question{open: true}
	var names, meant, keys []string
	for _, o := range odd {
		q.About = append(q.About, o.Reading)
		names = append(names, d.named(o.Reading))
		if len(o.ways) == 0 {
			continue
		}
		n := strconv.Itoa(d.Number(o.Reading))
		take := d.takes(o.Reading, o.ways[0], n)
		take.Shows += " in reading " + n
		q.Takes = append(q.Takes, take)
		meant, keys = append(meant, fmt.Sprintf("%s in reading %s", d.shownWay(o.ways[0]), n)), append(keys, n)
	}
	q.Text = words.Capital(strings.Join(names, ", or ")) + ", is wrong: one piston cannot show them all."
	if len(meant) == 0 {
		q.keys = "k keeps them; or type fix, its number and what is right."
		return q
	}
	q.Text += fmt.Sprintf(" Did you mean %s?", strings.Join(meant, ", or "))
	q.keys = fmt.Sprintf("k keeps them; the reading's number, %s, takes that.", strings.Join(keys, " or "))
	return q
}

// named is a reading by its number and as it is typed: "reading 3, 342.5 32.9".
func (d *Doubts) named(r evidence.Reading) string {
	b := d.State.Bench()
	return fmt.Sprintf("reading %d, %s %s", d.Number(r), d.angleOf(r), b.Number(d.State.Job.Setup.Gauge.Falling(r.Depth)))
}

// Number is a reading's in the list.
func (d *Doubts) Number(r evidence.Reading) int { return sheet.Place(d.State.Readings, r) + 1 }

// angleOf is a reading's as the protractor showed it.
func (d *Doubts) angleOf(r evidence.Reading) string {
	return d.State.Bench().Reads(r.Angle, words.AsRead([]float64{r.Angle.Degrees()}, d.State.Job.Setup.Protractor.Step.Degrees()))
}

// wrongWith says how a reading and the nearest other one cannot be one piston's; or that
// it does not go with the others.
func (d *Doubts) wrongWith(r evidence.Reading) string {
	nearest, apart := evidence.Reading{}, geometry.Turn
	for _, other := range d.undoubted() {
		if by := geometry.Angle(math.Abs(float64((other.Angle - r.Angle).Signed()))); other != r && by < apart {
			nearest, apart = other, by
		}
	}
	if _, b := d.benches(); apart == geometry.Turn || len(b.Odd([]evidence.Reading{nearest, r})) == 0 {
		return " does not go with the others"
	}
	moved := geometry.Length(math.Abs(float64(nearest.Depth - r.Depth)))
	if apart == 0 {
		return fmt.Sprintf(": the piston would have moved %s and the crank not at all", d.State.Bench().Depth(moved))
	}
	return fmt.Sprintf(": the piston would have moved %s in %s deg", d.State.Bench().Depth(moved), words.Trimmed(apart.Degrees(), 1))
}

// shownWay is what is typed for a way: a depth, an angle, or both.
func (d *Doubts) shownWay(w blunder.Way) string {
	switch {
	case w.Depth:
		return d.shownDepth(w.Reading.Depth)
	case w.Kind == blunder.Swapped:
		return d.angleOf(w.Reading) + " " + d.shownDepth(w.Reading.Depth)
	}
	return d.angleOf(w.Reading)
}

// shownNow is the same of the reading as it stands.
func (d *Doubts) shownNow(r evidence.Reading, w blunder.Way) string {
	w.Reading = r
	return d.shownWay(w)
}

// shownDepth is a depth as it is typed, to one more decimal than it is shown with.
func (d *Doubts) shownDepth(l geometry.Length) string {
	b := d.State.Bench()
	places := 3
	if b.Inches {
		places = 4
	}
	return words.Trimmed(b.In(d.State.Job.Setup.Gauge.Falling(l)), places)
}

// because says which unit a depth may have been typed in.
func (d *Doubts) because(w blunder.Way) string {
	switch {
	case w.Kind == blunder.Swapped:
		return " (angle first)"
	case w.Kind != blunder.Inches:
		return ""
	case d.State.Bench().Inches:
		return " (from mm)"
	}
	return " (from inches)"
}

// takes puts a way over a reading.
func (d *Doubts) takes(r evidence.Reading, w blunder.Way, key string) Take {
	t := Take{Keys: []string{strings.ToLower(key)}, Shows: d.shownWay(w) + d.because(w), Line: typed.Line{Order: typed.Fix, Number: d.Number(r)}}
	if w.Depth || w.Kind == blunder.Swapped {
		t.Line.Entry.Depth = d.shownDepth(w.Reading.Depth)
	}
	if !w.Depth {
		t.Line.Entry.Angle = d.angleOf(w.Reading)
	}
	return t
}
