package picture

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// leanStrokes is in how many strokes the line goes from one level to the next.
const leanStrokes = 8

// fewestMiddles is how few middles make a picture.
const fewestMiddles = 2

// noLean says why the picture of the n-th lobe's middles would be empty; nil when it would
// not.
func (b Book) noLean(n int) error {
	if n >= len(b.Lobes) {
		return errors.New("there is no cam lobe to draw: add a [[lobe]]")
	}
	if m := b.Lobes[n]; m.Events == nil || len(m.Levels) < fewestMiddles {
		return fmt.Errorf("%s has too few lifts that were read on both sides to draw their middles: read at least %d", m.Name, fewestMiddles)
	}
	return nil
}

// leanChart is the middles between angles of equal lift of the n-th lobe, in its ink and
// shape: a line that stands upright where both flanks are alike.
func (b Book) leanChart(n int) chart.Chart {
	m, with := b.Lobes[n], 1
	for _, other := range b.Lobes[:n] {
		if other.Cylinder == m.Cylinder && other.Events != nil {
			with++
		}
	}
	c := chart.Chart{
		Title: m.Name + ": half-way between equal lifts",
		Description: fmt.Sprintf("Middles between two angles of equal lift at %s, in %s, against crank degrees after TDC. %s%s",
			words.Count(len(m.Levels), "lift"), b.Bench.Unit(), LeanSays(m), b.apart(m)),
		X: chart.Axis{Label: overOverlap, Angle: true},
		Y: chart.Axis{Label: "lift as the gauge shows it, " + b.Bench.Unit(), To: b.liftShown([]lobe.Measured{m})},
	}
	if m.Lean != nil {
		nose := m.Lean.Nose
		c.Upright = []chart.Band{{From: (nose.Angle - nose.Expanded).Degrees(), To: (nose.Angle + nose.Expanded).Degrees(), Label: "nose " + words.CentreWithin(nose)}}
		c.Series = append(c.Series, chart.Series{Line: true, With: with, Points: b.liftPoints(m.Leaning(leanStrokes))})
	}
	c.Series = append(c.Series, b.middles(m, with))
	return c
}

// middles is a point a level, in the ink of a series; one that lies apart has its line beside it.
func (b Book) middles(m lobe.Measured, with int) chart.Series {
	s := chart.Series{With: with}
	for _, l := range m.Levels {
		p := chart.Point{X: l.Midpoint.Angle.Degrees(), Y: b.Bench.In(l.Lift), XError: twice * l.Midpoint.Uncertainty.Degrees(), Doubtful: l.Apart}
		if m.Lean != nil { // in the turn of the nose
			p.X = (m.Lean.Nose.Angle + (l.Midpoint.Angle - m.Lean.Nose.Angle).Signed()).Degrees()
		}
		if l.Apart {
			p.Above = true
			p.Label = fmt.Sprintf("%s lies apart, line %d", b.Bench.Depth(l.Lift), l.Place.Line)
		}
		s.Points = append(s.Points, p)
	}
	return s
}

// LeanSays is what the line of a lobe's middles says; nothing without one.
func LeanSays(m lobe.Measured) string {
	if m.Lean == nil {
		return ""
	}
	how := "no more than chance makes of like flanks"
	if m.Lean.Leans() {
		how = "so its flanks are unlike"
	}
	return fmt.Sprintf("The line ends at the nose, %s. The middle moves by %s ± %s deg for each 100 deg of duration, %s.",
		words.CentreWithin(m.Lean.Nose), words.Signed(100*m.Lean.Lambda.Value, 1), words.Fixed(200*m.Lean.Lambda.Uncertainty, 1), how)
}

// apart is what is said of a level that lies apart.
func (b Book) apart(m lobe.Measured) (text string) {
	for _, f := range m.Findings {
		if apart, is := f.(finding.LevelApart); is {
			text += " " + b.Bench.Finding(apart)
		}
	}
	return text
}
