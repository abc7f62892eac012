package picture

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// fewestMiddles is how few middles make a picture.
const fewestMiddles = 2

// noLean says why the picture of the n-th lobe's middles would be empty; nil when it would
// not.
func (b Book) noLean(n int) error {
	if n >= len(b.Lobes) {
		return errors.New("the job has no cam lobe to draw: add a [[lobe]]")
	}
	if m := b.Lobes[n]; m.Events == nil || len(m.Levels) < fewestMiddles {
		return fmt.Errorf("%s has too few lifts that were read on both sides to draw their middles: read at least %d", m.Name, fewestMiddles)
	}
	return nil
}

// leanChart is the middles between angles of equal lift of a lobe: a line that stands
// upright where both flanks are alike.
func (b Book) leanChart(m lobe.Measured) chart.Chart {
	c := chart.Chart{
		Title: m.Name + ": half-way between equal lifts",
		Description: fmt.Sprintf("Middles between two angles of equal lift at %s, in %s, against crank degrees after TDC.%s",
			words.Count(len(m.Levels), "lift"), b.Bench.Unit(), b.leanSays(m)),
		X: chart.Axis{Label: overOverlap, Angle: true},
		Y: chart.Axis{Label: "lift as the gauge shows it, " + b.Bench.Unit(), To: b.liftShown([]lobe.Measured{m})},
	}
	line := chart.Series{Name: "line of the middles", Line: true, Points: b.liftPoints(m.Leaning(curvePieces))}
	if m.Lean != nil {
		half := m.Lean.Nose.Expanded
		c.Upright = []chart.Band{{From: (m.Lean.Nose.Angle - half).Degrees(), To: (m.Lean.Nose.Angle + half).Degrees(), Label: "nose " + words.CentreWithin(m.Lean.Nose)}}
		c.Series = append(c.Series, line)
	}
	c.Series = append(c.Series, b.middles(m))
	return c
}

// middles is a point a level; one that lies apart has its line beside it.
func (b Book) middles(m lobe.Measured) chart.Series {
	s := chart.Series{Name: "middle of equal lift"}
	for _, l := range m.Levels {
		p := chart.Point{X: l.Midpoint.Angle.Degrees(), Y: b.Bench.In(l.Lift), XError: twice * l.Midpoint.Uncertainty.Degrees(), Doubtful: l.Apart}
		if m.Lean != nil { // in the turn of the nose
			p.X = (m.Lean.Nose.Angle + (l.Midpoint.Angle - m.Lean.Nose.Angle).Signed()).Degrees()
		}
		if l.Apart {
			p.Label = fmt.Sprintf("%s lies apart, line %d", b.Bench.Depth(l.Lift), l.Place.Line)
		}
		s.Points = append(s.Points, p)
	}
	return s
}

// leanSays is what the middles say, in words.
func (b Book) leanSays(m lobe.Measured) (text string) {
	if m.Lean != nil {
		text = fmt.Sprintf(" The line through them ends at the nose, %s, and moves by %s ± %s deg for each 100 deg of duration.",
			words.CentreWithin(m.Lean.Nose), words.Signed(100*m.Lean.Lambda.Value, 1), words.Fixed(200*m.Lean.Lambda.Uncertainty, 1))
	}
	for _, f := range m.Findings {
		if apart, is := f.(finding.LevelApart); is {
			text += " " + b.Bench.Finding(apart)
		}
	}
	return text
}
