package picture

import (
	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/chart/plain"
	"evendrop/tdc"
)

// plotRows is how high a plot on a terminal is.
const plotRows = 15

// Plot is one of Names of the n-th cylinder in characters, so many columns wide; nothing
// of a picture that characters do not show well, or that has nothing in it.
func (b Book) Plot(name string, n, width int) (string, error) {
	if name != Lobes || b.NothingIn(name, n) != nil {
		return "", nil
	}
	return plain.Plot(b.lobePlot(b.Results[n]), width, plotRows)
}

// lobePlot is the curves of a cylinder's lobes, their overlap and the checking lift.
func (b Book) lobePlot(r tdc.Result) chart.Chart {
	lobes, whole := b.lobesOf(r), b.lobeChart(r)
	c := chart.Chart{X: whole.X, Y: whole.Y, Upright: whole.Upright}
	c.Y.Label = b.titled(c.Y.Label, r)
	for _, m := range lobes {
		s := b.lobeCurve(m)
		s.Name = m.Name
		c.Series = append(c.Series, s)
	}
	for _, m := range firstOfLift(lobes) {
		c.Level = append(c.Level, b.checkingLine(m))
	}
	return c
}
