package chart

import (
	"math"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawnChart is a chart with any names on it.
func drawnChart(t *rapid.T) Chart {
	c := Chart{Title: drawtest.Names.Draw(t, "title"), X: Axis{Label: "crank deg", Angle: true}, Y: Axis{Label: "mm", Down: rapid.Bool().Draw(t, "down")},
		Wide: rapid.Bool().Draw(t, "wide")}
	for range rapid.IntRange(1, draw.SeriesStyles).Draw(t, "series") {
		s := Series{Name: drawtest.Names.Draw(t, "name"), Line: rapid.Bool().Draw(t, "line")}
		for range rapid.IntRange(1, 5).Draw(t, "points") {
			s.Points = append(s.Points, Point{
				X: drawtest.Between(-360, 360).Draw(t, "x"), Y: drawtest.Between(-1e3, 1e3).Draw(t, "y"), YError: drawtest.Between(0, 50).Draw(t, "±"),
				Doubtful: rapid.Bool().Draw(t, "doubtful"), Label: drawtest.Names.Draw(t, "label"), Above: rapid.Bool().Draw(t, "above"),
			})
		}
		c.Series = append(c.Series, s)
	}
	for range rapid.IntRange(0, 3).Draw(t, "lanes") {
		c.Lanes = append(c.Lanes, Lane{
			Lines: []string{drawtest.Names.Draw(t, "lane"), drawtest.Names.Draw(t, "more")}, Hollow: rapid.Bool().Draw(t, "hollow"),
			From: drawtest.Between(-300, 300).Draw(t, "from"), To: drawtest.Between(-300, 300).Draw(t, "to"), Middle: drawtest.Between(-300, 300).Draw(t, "middle"),
		})
	}
	if rapid.Bool().Draw(t, "named") {
		c.X.Named = []Named{{At: 0, Name: "TDC"}, {At: 180, Name: "BDC"}}
	}
	for range rapid.IntRange(0, 2).Draw(t, "upright") {
		c.Upright = append(c.Upright, Band{drawtest.Between(-300, 300).Draw(t, "from"), drawtest.Between(-300, 300).Draw(t, "to"), drawtest.Names.Draw(t, "band")})
	}
	for range rapid.IntRange(0, 1).Draw(t, "level") {
		c.Level = append(c.Level, Band{drawtest.Between(-300, 300).Draw(t, "from"), drawtest.Between(-300, 300).Draw(t, "to"), drawtest.Names.Draw(t, "limit")})
	}
	return c
}

// No word on a picture runs off its edges, whatever things are called, and no
// coordinate is beyond it but a little.
func TestWordsStayOnThePicture(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		svg, err := drawnChart(r).SVG()
		drawtest.WordsStay(t, drawtest.Parsed(t, svg, err))
	})
}

// A page that holds several pictures has their style once, and each without it is the
// same picture.
func TestUnstyled(t *testing.T) {
	svg, err := readings(true).SVG()
	styled := drawtest.Parsed(t, svg, err)
	bare := drawtest.Parsed(t, draw.Unstyled(svg), nil)
	require.Empty(t, drawtest.Named(bare, "style", ""))
	require.Equal(t, draw.Style(), drawtest.Named(styled, "style", "")[0].Text)
	require.Len(t, bare, len(styled)-1)
	require.Equal(t, draw.Unstyled(svg), draw.Unstyled(draw.Unstyled(svg)))
}

// Every class that a picture uses is one that the style sheet knows, so that nothing is
// drawn in a viewer's black on a dark page.
func TestEveryClassHasAStyle(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		svg, err := drawnChart(r).SVG()
		drawtest.ClassesHaveAStyle(t, drawtest.Parsed(t, svg, err))
	})
}

// Markers are of one size, so that none looks weightier, and a doubtful one is crossed
// over its whole width.
func TestMarkers(t *testing.T) {
	for n, s := range shapes {
		d := &draw.Canvas{}
		marker(d, n, draw.At(100, 50), true)
		all := drawtest.Parsed(t, d.Whole(200, 100, "", ""), nil)[5:] // after the frame
		cross := drawtest.Named(all, "line", "alarmed")
		require.Len(t, cross, 2, "shape %d", s)
		for _, l := range cross {
			require.InDelta(t, 100, (l.Number(t, "x1")+l.Number(t, "x2"))/2, 1e-9)
			require.InDelta(t, 50, (l.Number(t, "y1")+l.Number(t, "y2"))/2, 1e-9)
			require.Greater(t, math.Abs(l.Number(t, "x1")-l.Number(t, "x2")), 2*markerRadius)
		}
		for _, at := range corners(t, all[0]) {
			require.InDelta(t, markerRadius, math.Hypot(at.X-100, at.Y-50), 0.36*markerRadius, "shape %d", s)
		}
	}
}

// corners are what an outline is drawn by: of a circle one place on it.
func corners(t *testing.T, e drawtest.Element) []draw.Spot {
	switch e.Name {
	case "circle":
		return []draw.Spot{draw.At(e.Number(t, "cx")+e.Number(t, "r"), e.Number(t, "cy"))}
	case "rect":
		at := e.At(t)
		return []draw.Spot{at, draw.At(at.X+e.Number(t, "width"), at.Y+e.Number(t, "height"))}
	}
	var far []draw.Spot // the inner corners of a cross are no part of its reach
	for _, s := range e.Spots(t) {
		if math.Hypot(s.X-100, s.Y-50) > markerRadius*0.7 {
			far = append(far, s)
		}
	}
	return far
}

// A limit's label is cut short at the plot's edge.
func TestLimitLabelStaysInside(t *testing.T) {
	c := readings(true)
	c.Level[0].Label = strings.Repeat("limit by the maker's manual ", 6)
	svg, err := c.SVG()
	all := drawtest.Parsed(t, svg, err)
	right := drawtest.Named(all, "line", "axis")[1].Number(t, "x2")
	for _, e := range drawtest.Named(all, "text", "small") {
		if strings.HasPrefix(e.Text, "limit") {
			_, to := drawtest.Across(t, e)
			require.LessOrEqual(t, to, right)
			require.Contains(t, e.Text, "…")
			return
		}
	}
	t.Fatal("the label is not on the picture")
}
