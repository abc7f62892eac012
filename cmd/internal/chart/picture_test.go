package chart

import (
	"math"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// ruler reads values off a picture by two of its tick labels, as an eye would.
type ruler struct{ at0, at1, value0, value1 float64 }

func (r ruler) value(at float64) float64 {
	return r.value0 + (at-r.at0)*(r.value1-r.value0)/(r.at1-r.at0)
}

// rulers find the labels "0" and "10" of X and "0" and "4" of Y.
func rulers(t *testing.T, all []drawtest.Element) (x, y ruler) {
	for _, e := range drawtest.Named(all, "text", "quiet") {
		switch at := e.Text; {
		case e.Attr["text-anchor"] == "middle" && at == "0":
			x.at0 = e.At(t).X
		case e.Attr["text-anchor"] == "middle" && at == "10":
			x.at1, x.value1 = e.At(t).X, 10
		case e.Attr["text-anchor"] == "end" && at == "0":
			y.at0 = e.At(t).Y - draw.SmallSize*0.35
		case e.Attr["text-anchor"] == "end" && at == "4":
			y.at1, y.value1 = e.At(t).Y-draw.SmallSize*0.35, 4
		}
	}
	require.NotZero(t, x.at0)
	require.NotZero(t, x.at1)
	require.NotZero(t, y.at0)
	require.NotZero(t, y.at1)
	return x, y
}

// readings is a chart with all there is on it.
func readings(down bool) Chart {
	return Chart{
		X: Axis{Label: "deg", From: -20, To: 20, Angle: true}, Y: Axis{Label: "mm", Down: down},
		Series: []Series{
			{Name: "fitted", Line: true, Points: []Point{{X: -20, Y: 4}, {X: -10, Y: 1}, {X: 0, Y: 0}, {X: 15, Y: 2.25}}},
			{Name: "readings", Points: []Point{{X: -10, Y: 3, YError: 0.5, XError: 2}, {X: 5, Y: 1, Doubtful: true, Label: "line 7"}}},
		},
		Upright: []Band{{-1, 3, "TDC"}},
		Level:   []Band{{2, 3, "limit"}},
	}
}

// What is read off the picture against its tick labels is what was put in. A
// coordinate is rounded to a hundredth of some 9 units a degree and 60 a mm.
func TestChartIsToScale(t *testing.T) {
	const rounding = 0.002
	for _, down := range []bool{false, true} {
		svg, err := readings(down).SVG()
		all := drawtest.Parsed(t, svg, err)
		x, y := rulers(t, all)
		require.Equal(t, down, y.at1 > y.at0, "4 is below 0 where values grow downward")
		require.Greater(t, x.at1, x.at0)
		near := func(want, got float64) { t.Helper(); require.InDelta(t, want, got, rounding) }

		curve := drawtest.Named(all, "path", "curve")[0].Spots(t)
		for i, p := range readings(down).Series[0].Points {
			near(p.X, x.value(curve[i].X))
			near(p.Y, y.value(curve[i].Y))
		}
		first := drawtest.Named(all, "rect", "fill1")[0] // the second series has squares
		near(-10, x.value(first.At(t).X+first.Number(t, "width")/2))
		near(3, y.value(first.At(t).Y+first.Number(t, "height")/2))

		bars := drawtest.Named(all, "line", "bar")
		near(0.5*2, math.Abs(y.value(bars[0].Number(t, "y1"))-y.value(bars[0].Number(t, "y2"))))
		near(2*2, x.value(bars[1].Number(t, "x2"))-x.value(bars[1].Number(t, "x1")))
		ends := drawtest.Named(all, "path", "bar")[0].Spots(t)
		near(3-0.5, math.Min(y.value(ends[0].Y), y.value(ends[2].Y)))
		require.Equal(t, 2*capWidth, ends[1].X-ends[0].X)

		band := drawtest.Named(all, "rect", "band")[0]
		near(-1, x.value(band.At(t).X))
		near(3, x.value(band.At(t).X+band.Number(t, "width")))
		zone := drawtest.Named(all, "rect", "zone")[0]
		near(1, math.Abs(y.value(zone.At(t).Y)-y.value(zone.At(t).Y+zone.Number(t, "height"))))
		require.Len(t, drawtest.Named(all, "line", "alarmed"), 2, "the doubtful reading, and no other, is crossed out")
		require.Subset(t, drawtest.Texts(all), []string{"TDC", "limit", "line 7", "fitted", "readings"})
	}
}

// An error bar that would not show beside its marker is left out.
func TestHiddenErrorBars(t *testing.T) {
	c := readings(true)
	c.Series[1].Points[0].XError, c.Series[1].Points[0].YError = 0.1, 0.05
	svg, err := c.SVG()
	require.Empty(t, drawtest.Named(drawtest.Parsed(t, svg, err), "path", "bar"))
}

// A band too narrow to be seen is drawn two units wide about its middle.
func TestNarrowBand(t *testing.T) {
	c := readings(true)
	c.Upright[0] = Band{4.999, 5.001, "TDC"}
	svg, err := c.SVG()
	all := drawtest.Parsed(t, svg, err)
	x, _ := rulers(t, all)
	band := drawtest.Named(all, "rect", "band")[0]
	require.InDelta(t, 2, band.Number(t, "width"), 1e-9)
	require.InDelta(t, 5, x.value(band.At(t).X+1), 0.002) // as above
}

// A band's label stays inside the plot, and beside or inside its band, wherever
// the band lies.
func TestBandLabelStaysInside(t *testing.T) {
	for _, b := range []Band{{-19, -18, ""}, {18, 19, ""}, {-9, 12, ""}, {-4, 4, ""}, {-16, 16, ""}, {-3, 18, ""}} {
		for _, label := range []string{"TDC 3.4 ± 0.2", "within 0.01 mm: 2.2 deg", "TDC of cylinder 1, 3.40 ± 0.25 deg (95 %)"} {
			c := readings(true)
			b.Label = label
			c.Upright, c.Series = []Band{b}, c.Series[:1]
			svg, err := c.SVG()
			all := drawtest.Parsed(t, svg, err)
			grid := drawtest.Named(all, "line", "axis")[1] // the lower edge of the plot
			left, right := grid.Number(t, "x1"), grid.Number(t, "x2")
			said := ""
			for _, e := range drawtest.Named(all, "text", "text") {
				if !strings.Contains(e.Class, "title") && e.Text != "limit" {
					said += " " + e.Text
					width := draw.TextWidth(e.Text, draw.SmallSize)
					from := e.At(t).X - map[string]float64{"start": 0, "middle": width / 2, "end": width}[e.Attr["text-anchor"]]
					require.GreaterOrEqual(t, from, left, "%v", b)
					require.LessOrEqual(t, from+width, right, "%v", b)
				}
			}
			require.Equal(t, label, strings.TrimSpace(said))
		}
	}
}

// Bands beyond the points are on the picture too.
func TestBandsWidenTheAxes(t *testing.T) {
	c := Chart{Series: []Series{{Points: []Point{{X: 1, Y: 1}, {X: 2, Y: 2}}}}, Upright: []Band{{-5, 9, "TDC"}}, Level: []Band{{-4, 8, "limit"}}}
	x, y := c.scales()
	require.True(t, x.from <= -5 && x.to >= 9)
	require.True(t, y.from < -4 && y.to > 8, "and there is room for the label")
}

// Series are told apart without colour: each line its own dashes, each series of
// points its own shape.
func TestSeriesDifferWithoutColour(t *testing.T) {
	var lines, points Chart
	for n := range draw.SeriesStyles {
		p := []Point{{X: 0, Y: float64(n)}, {X: 1, Y: float64(n)}}
		lines.Series = append(lines.Series, Series{Line: true, Points: p})
		points.Series = append(points.Series, Series{Points: p})
	}
	svg, err := lines.SVG()
	seen := map[string]bool{}
	for _, e := range drawtest.Named(drawtest.Parsed(t, svg, err), "path", "curve") {
		class := strings.Fields(e.Class)[1]
		require.Regexp(t, `^dash\d$`, class)
		seen[class] = true
	}
	require.Len(t, seen, draw.SeriesStyles)
	outlines := map[string]bool{}
	svg, err = points.SVG()
	for _, e := range drawtest.Parsed(t, svg, err) {
		if strings.HasPrefix(e.Class, "fill") {
			d, corners := e.Attr["d"], 0
			if d != "" {
				corners = len(e.Spots(t))
			}
			outlines[e.Name+string(rune('0'+corners))+downwards(t, e)] = true
		}
	}
	require.Len(t, outlines, draw.SeriesStyles)
}

// downwards tells a triangle that stands on its point.
func downwards(t *testing.T, e drawtest.Element) string {
	if e.Attr["d"] == "" {
		return ""
	}
	s := e.Spots(t)
	if len(s) == 3 && s[0].Y > s[1].Y {
		return "down"
	}
	return ""
}

// The names of curves that end at one place do not lie upon one another, and
// stay on the picture.
func TestNamesStandApart(t *testing.T) {
	var c Chart
	for n := range draw.SeriesStyles {
		c.Series = append(c.Series, Series{Name: "a rod of some length, " + strings.Repeat("x", n), Line: true,
			Points: []Point{{X: 0, Y: 0}, {X: 1, Y: 1 + float64(n)/1000}}})
	}
	svg, err := c.SVG()
	var heights []float64
	for _, e := range drawtest.Named(drawtest.Parsed(t, svg, err), "text", "strong") {
		heights = append(heights, e.At(t).Y)
		require.LessOrEqual(t, e.At(t).X+draw.TextWidth(e.Text, draw.SmallSize*draw.Bold), draw.Width)
	}
	require.GreaterOrEqual(t, len(heights), 2*draw.SeriesStyles) // each takes two lines or more
	for i, a := range heights {
		for _, b := range heights[:i] {
			require.GreaterOrEqual(t, math.Abs(a-b), draw.SmallSize)
		}
	}
}

func TestChartRefuses(t *testing.T) {
	_, err := Chart{}.SVG()
	require.ErrorContains(t, err, "at least one point")
	for _, p := range []Point{{X: math.NaN()}, {Y: math.Inf(1)}, {YError: math.NaN()}, {XError: math.Inf(-1)}} {
		c := Chart{Series: []Series{{Name: "readings", Points: []Point{p}}}}
		_, err := c.SVG()
		require.ErrorContains(t, err, `"readings"`)
	}
	c := readings(true)
	c.Upright[0].To = math.NaN()
	_, err = c.SVG()
	require.ErrorContains(t, err, `"TDC"`)
}

// A wide chart is twice as wide and as high as another; a fine line is a thin one
// without dashes; a bare axis has no numbers.
func TestCrowdedChart(t *testing.T) {
	c := readings(false)
	svg, err := c.SVG()
	plain := drawtest.Parsed(t, svg, err)
	c.Wide, c.Y.Bare, c.Series[0].Fine = true, true, true
	svg, err = c.SVG()
	all := drawtest.Parsed(t, svg, err)
	size := func(all []drawtest.Element) (width, height float64) {
		paper := drawtest.Named(all, "rect", "paper")[0]
		return paper.Number(t, "width"), paper.Number(t, "height")
	}
	w0, h0 := size(plain)
	w, h := size(all)
	require.Equal(t, 2*w0, w)
	require.Equal(t, h0, h)
	require.Len(t, drawtest.Named(all, "path", "fine"), 1)
	require.Empty(t, drawtest.Named(all, "path", "curve"))
	numbers := func(all []drawtest.Element) (n int) {
		for _, e := range drawtest.Named(all, "text", "quiet small") {
			if e.Attr["text-anchor"] == "end" {
				n++
			}
		}
		return n
	}
	require.NotZero(t, numbers(plain))
	require.Zero(t, numbers(all))
}
