package chart

import (
	"math"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// laned is a chart with two lanes, and values of X that have names.
func laned() Chart {
	c := readings(false)
	c.X.From, c.X.To = 0, 0
	c.X.Named = []Named{{At: -10, Name: "here"}, {At: 0, Name: "TDC"}, {At: 400, Name: "beyond"}}
	c.Lanes = []Lane{
		{Lines: []string{"what was read", strings.Repeat("at some length ", 6)}, From: -12, To: 30, Middle: 9, With: 2},
		{Lines: []string{"what was meant"}, From: -20, To: 10, Middle: -5, With: 2, Hollow: true},
		{Lines: []string{"a centre alone"}, From: 4, To: 4, Middle: 4},
	}
	return c
}

// A lane's bar is where it should be against the numbers of X, full or hollow in the ink
// of its series, with a stroke at its middle; its words stand above it and below the lane
// before it, under the plot, and the numbers stand under all of them.
func TestLanesUnderThePlot(t *testing.T) {
	const rounding = 0.004 // degrees: a hundredth of some 6 units a degree, twice
	svg, err := laned().SVG()
	all := drawtest.Parsed(t, svg, err)
	x, _ := rulers(t, all)
	ground := drawtest.Named(all, "line", "axis")[1].Number(t, "y1") // of the plot
	var bars []drawtest.Element
	for _, e := range drawtest.Named(all, "rect", "") {
		if e.Number(t, "height") == laneBar {
			bars = append(bars, e)
		}
	}
	require.Len(t, bars, 2, "the third has its middle alone")
	require.Equal(t, []string{"fill1", "mark hollow1"}, []string{bars[0].Class, bars[1].Class})
	var strokes []drawtest.Element
	for _, e := range drawtest.Named(all, "line", "axis") {
		if math.Abs(e.Number(t, "y2")-e.Number(t, "y1")-laneBar-2*laneMiddle) < 0.011 { // two roundings
			strokes = append(strokes, e)
		}
	}
	require.Len(t, strokes, 3)
	words := [][]string{{"what was read", "length"}, {"what was meant"}, {"a centre alone"}}
	above := ground
	for i, lane := range laned().Lanes {
		require.InDelta(t, lane.Middle, x.value(strokes[i].Number(t, "x1")), rounding)
		top := strokes[i].Number(t, "y1") + laneMiddle
		if i < len(bars) {
			require.InDelta(t, lane.From, x.value(bars[i].At(t).X), rounding)
			require.InDelta(t, lane.To, x.value(bars[i].At(t).X+bars[i].Number(t, "width")), rounding)
			require.InDelta(t, top, bars[i].At(t).Y, 0.011)
		}
		lines := 0
		for _, e := range drawtest.Named(all, "text", "small") {
			for _, says := range words[i] {
				if strings.Contains(e.Text, says) {
					lines++
					require.Greater(t, e.At(t).Y-0.8*draw.SmallSize, above, "%q", e.Text)
					require.Less(t, e.At(t).Y+0.2*draw.SmallSize, top-laneMiddle+0.5, "%q", e.Text)
				}
			}
		}
		require.Equal(t, []int{3, 1, 1}[i], lines)
		above = top + laneBar + laneMiddle
	}
	for _, e := range drawtest.Named(all, "text", "quiet small") {
		if e.Attr["text-anchor"] == "middle" {
			require.Greater(t, e.At(t).Y-draw.SmallSize, above, "%q", e.Text)
		}
	}
	c := laned()
	c.Lanes[0].From, c.Lanes[0].To = c.Lanes[0].To, c.Lanes[0].From
	again, err := c.SVG()
	require.NoError(t, err)
	require.Equal(t, string(svg), string(again), "either end first")
	c.Lanes[1].Middle = math.NaN()
	_, err = c.SVG()
	require.ErrorContains(t, err, `"what was meant"`)
}

// A value with a name has it under its number, and a line through the plot; one beyond
// the ends is left out.
func TestNamedValues(t *testing.T) {
	svg, err := laned().SVG()
	all := drawtest.Parsed(t, svg, err)
	x, _ := rulers(t, all)
	lines := drawtest.Named(all, "line", "named")
	require.Len(t, lines, 2)
	require.NotContains(t, drawtest.Texts(all), "beyond")
	numbers := drawtest.Named(all, "text", "quiet small")
	for i, name := range []string{"here", "TDC"} {
		at := []float64{-10, 0}[i]
		require.InDelta(t, at, x.value(lines[i].Number(t, "x1")), 0.004)
		for _, e := range drawtest.Named(all, "text", "strong") {
			if e.Text == name && e.Attr["text-anchor"] == "middle" {
				require.InDelta(t, at, x.value(e.At(t).X), 0.004)
				require.Greater(t, e.At(t).Y-draw.SmallSize, numbers[0].At(t).Y)
			}
		}
	}
}

// A series with another's style has its ink and its shape, and one after it its own.
func TestSharedStyle(t *testing.T) {
	p := []Point{{X: 0, Y: 1}, {X: 1, Y: 2}}
	svg, err := Chart{Series: []Series{{Line: true, Points: p}, {Points: p[:1], With: 1}, {Points: p[1:]}, {Line: true, Fine: true, Points: p, With: 3}}}.SVG()
	all := drawtest.Parsed(t, svg, err)
	require.Len(t, drawtest.Named(all, "circle", "fill0"), 1)
	require.Len(t, drawtest.Named(all, "path", "fill2"), 1)
	require.Len(t, drawtest.Named(all, "path", "stroke2"), 1)
	require.Empty(t, drawtest.Named(all, "", "fill1"))
}

// Words above a point stand over its middle, or as near as the plot's ends let them.
func TestWordsAbove(t *testing.T) {
	c := Chart{X: Axis{From: 0, To: 10}, Y: Axis{From: 0, To: 10}, Series: []Series{{Points: []Point{
		{X: 5, Y: 5, Label: "in the middle", Above: true}, {X: 10, Y: 5, Label: "at the very end", Above: true}, {X: 0, Y: 5, Label: strings.Repeat("long ", 30), Above: true}}}}}
	svg, err := c.SVG()
	all := drawtest.Parsed(t, svg, err)
	dots, right := drawtest.Named(all, "circle", "fill0"), drawtest.Named(all, "line", "grid")[0]
	for _, e := range drawtest.Named(all, "line", "grid") {
		if e.Number(t, "x2") > right.Number(t, "x2") {
			right = e
		}
	}
	seen := 0
	for _, e := range drawtest.Named(all, "text", "text small") {
		from, to := drawtest.Across(t, e)
		require.Less(t, e.At(t).Y, dots[0].Number(t, "cy")-markerRadius)
		require.LessOrEqual(t, to, right.Number(t, "x2")+0.01)
		require.GreaterOrEqual(t, from, drawtest.Named(all, "line", "axis")[0].Number(t, "x1")-0.01)
		if e.Text == "in the middle" {
			require.InDelta(t, dots[0].Number(t, "cx"), e.At(t).X, 0.01)
		}
		seen++
	}
	require.Equal(t, 3, seen)
}

// A limit whose ends are the same is one line.
func TestLevelLine(t *testing.T) {
	c := readings(false)
	c.Upright, c.Level = nil, []Band{{2, 2, "checking lift"}}
	svg, err := c.SVG()
	all := drawtest.Parsed(t, svg, err)
	_, y := rulers(t, all)
	require.Empty(t, drawtest.Named(all, "rect", "zone"))
	lines := drawtest.Named(all, "line", "edge")
	require.Len(t, lines, 1)
	require.InDelta(t, 2, y.value(lines[0].Number(t, "y1")), 0.001) // a hundredth of some 60 units a mm
	require.Contains(t, drawtest.Texts(all), "checking lift")
}
