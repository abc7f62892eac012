package chart

import (
	"fmt"
	"math"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// crowd is n marks a tenth of a degree apart about a place, each with an interval
// and a limit.
func crowd(n int, about float64) (marks []DialMark) {
	for i := range n {
		at := about + float64(i)/10
		marks = append(marks, DialMark{Name: fmt.Sprintf("mark %d with a name as long as people give them", i+1),
			Detail: "within", At: at, From: at - 0.3, To: at + 0.3, LimitFrom: about - 1, LimitTo: about + 1, Alarm: i%2 == 0})
	}
	return marks
}

// numbered are the places of the tags on the dial, and those in the list.
func numbered(t *testing.T, all []drawtest.Element, n int) (dial, list []draw.Spot) {
	for i := range n {
		var at []draw.Spot
		for _, e := range drawtest.Named(all, "text", "strong") {
			if e.Text == fmt.Sprint(i+1) {
				at = append(at, draw.At(e.At(t).X, e.At(t).Y-draw.SmallSize*0.35))
			}
		}
		require.Len(t, at, 2, "mark %d", i+1)
		dial, list = append(dial, at[0]), append(list, at[1])
	}
	return dial, list
}

// Eight marks within a degree of one another: their tags stand apart and on the
// picture, in the order of the marks, wherever on the circle they lie.
func TestTagsStandApart(t *testing.T) {
	for _, about := range []float64{-0.4, 3, -25, 89, 179.8, 270, 359.7} {
		for _, far := range []bool{false, true} { // opened out, and round a whole circle
			marks := crowd(8, about)
			if far {
				marks[7].At, marks[7].From, marks[7].To = about+140, about+139, about+141
				marks[7].LimitFrom, marks[7].LimitTo = 0, 0
			}
			crowded := Dial{Marks: marks, Zero: "TDC"}
			svg, err := crowded.SVG()
			all, centre := drawtest.Parsed(t, svg, err), crowded.face().centre
			tags, list := numbered(t, all, len(marks))
			for i, a := range tags {
				require.True(t, a.X > tagRadius && a.X < draw.Width-tagRadius && a.Y > tagRadius, "%v", a)
				require.Less(t, a.Y+tagRadius, list[0].Y-tagRadius, "the list is below the dial")
				for j := range i {
					require.GreaterOrEqual(t, drawtest.Apart(a, tags[j]), 2*tagRadius+2, "%d and %d about %g", i+1, j+1, about)
					require.GreaterOrEqual(t, math.Abs(list[i].Y-list[j].Y), 2*tagRadius)
				}
			}
			if far { // no tag is farther from its mark than eight tags take
				for i, a := range tags {
					at := math.Atan2(a.X-centre.X, centre.Y-a.Y) * 180 / math.Pi
					require.Less(t, math.Abs(math.Remainder(at-marks[i].At, 360)), 60.0, "%d about %g", i+1, about)
				}
			}
			for i := 1; i < 7; i++ { // clockwise about the dial's centre
				a, b := tags[i-1], tags[i]
				turn := (a.X-centre.X)*(b.Y-centre.Y) - (a.Y-centre.Y)*(b.X-centre.X)
				require.Positive(t, turn, "%d before %d about %g", i, i+1, about)
			}
		}
	}
}

// positive is an angle less whole turns, in [0, 360).
func positive(angle float64) float64 { return math.Mod(math.Mod(angle, 360)+360, 360) }

// Words of the list do not lie upon one another.
func TestListStandsApart(t *testing.T) {
	svg, err := Dial{Marks: crowd(8, 0)}.SVG()
	all := drawtest.Parsed(t, svg, err)
	var heights []float64
	for _, e := range drawtest.Named(all, "text", "text") {
		if e.Attr["text-anchor"] == "start" {
			heights = append(heights, e.At(t).Y)
			require.Less(t, e.At(t).X+draw.TextWidth(e.Text, draw.TextSize*draw.Bold), draw.Width)
		}
	}
	require.GreaterOrEqual(t, len(heights), 16)
	for i := 1; i < len(heights); i++ {
		require.GreaterOrEqual(t, heights[i]-heights[i-1], draw.TextSize)
	}
}

// Arcs that would lie upon one another go on circles of their own; those apart
// share one. 359 and 1 are near.
func TestLanes(t *testing.T) {
	at := func(a, half float64) DialMark { return DialMark{At: a, From: a - half, To: a + half} }
	require.Equal(t, []int{0, 1, 0}, lanes([]DialMark{at(0, 2), at(3, 2), at(20, 2)}, 1, false))
	require.Equal(t, []int{1, 0}, lanes([]DialMark{at(359, 2), at(1, 2)}, 1, true))
	require.Equal(t, []int{0, 0}, lanes([]DialMark{at(359, 2), at(1, 2)}, 1, false))
	require.Equal(t, []int{0, 0}, lanes([]DialMark{at(10, 2), at(15.1, 2)}, 1, false))
	require.Equal(t, []int{0, 1}, lanes([]DialMark{at(10, 2), at(14.9, 2)}, 1, false))
}

// Round a whole circle a mark lies at its angle, clockwise from the top, and its
// arcs end where they should: nothing is opened out. Coordinates are rounded to
// 0.01 at a radius of some 170, so 0.01 deg.
func TestWholeCircle(t *testing.T) {
	marks := []DialMark{
		{Name: "notch", At: 90, From: 80, To: 101, LimitFrom: 70, LimitTo: 120},
		{Name: "pin", At: -30},
	}
	svg, err := Dial{Marks: marks, Zero: "TDC"}.SVG()
	all := drawtest.Parsed(t, svg, err)
	ring := drawtest.Named(all, "circle", "round")[0]
	centre := draw.At(ring.Number(t, "cx"), ring.Number(t, "cy"))
	angle := func(s draw.Spot) float64 { return positive(math.Atan2(s.X-centre.X, centre.Y-s.Y) * 180 / math.Pi) }
	dots := drawtest.Named(all, "circle", "tag")
	require.InDelta(t, 90, angle(draw.At(dots[0].Number(t, "cx"), dots[0].Number(t, "cy"))), 0.02)
	require.InDelta(t, 330, angle(draw.At(dots[1].Number(t, "cx"), dots[1].Number(t, "cy"))), 0.02)
	for class, want := range map[string][2]float64{"reach": {80, 101}, "limit": {70, 120}} {
		arcs := drawtest.Named(all, "path", class)
		require.Len(t, arcs, 1, "a mark without one has none")
		spots := arcs[0].Spots(t)
		require.InDelta(t, want[0], angle(spots[0]), 0.02)
		require.InDelta(t, want[1], angle(spots[len(spots)-1]), 0.02)
		for _, s := range spots {
			require.InDelta(t, drawtest.Apart(spots[0], centre), drawtest.Apart(s, centre), 0.02)
		}
	}
	require.Contains(t, drawtest.Texts(all), "TDC")
}

// Opened out, angles keep their proportions, and the numbers say what they are:
// a mark at 2 deg lies where the tick 2 points.
func TestOpenedOut(t *testing.T) {
	marks := []DialMark{{Name: "pin", At: 2, LimitFrom: -1, LimitTo: 4}, {Name: "notch", At: -1}}
	dial := Dial{Marks: marks, Zero: "TDC"}
	svg, err := dial.SVG()
	all := drawtest.Parsed(t, svg, err)
	centre := dial.face().centre
	angle := func(s draw.Spot) float64 { return math.Atan2(s.X-centre.X, centre.Y-s.Y) }
	two := drawtest.Named(all, "text", "quiet")
	var tick draw.Spot
	for _, e := range two {
		if e.Text == "2" {
			tick = draw.At(e.At(t).X, e.At(t).Y-draw.SmallSize*0.35)
		}
	}
	dot := drawtest.Named(all, "circle", "tag")[0]
	require.InDelta(t, angle(tick), angle(draw.At(dot.Number(t, "cx"), dot.Number(t, "cy"))), 0.001) // 0.01 of 170 and more
	spots := drawtest.Named(all, "path", "limit")[0].Spots(t)
	from, to := angle(spots[0]), angle(spots[len(spots)-1])
	require.InDelta(t, openedTo*math.Pi/180, to-from, 0.001) // from -1 to 4 is the whole scale
	require.InDelta(t, 0.6, (angle(tick)-from)/(to-from), 0.001)
	require.InDelta(t, -to, from, 0.001, "the middle of the scale is at the top")
}

// A mark outside what is allowed is crossed and boxed, and words say what that means.
func TestAlarm(t *testing.T) {
	quietDial, err := Dial{Marks: []DialMark{{Name: "pin", At: 3}}}.SVG()
	require.Empty(t, drawtest.Named(drawtest.Parsed(t, quietDial, err), "", "alarmed"))
	svg, err := Dial{Marks: []DialMark{{Name: "pin", At: 3, Alarm: true}}}.SVG()
	all := drawtest.Parsed(t, svg, err)
	require.Len(t, drawtest.Named(all, "line", "alarmed"), 2)
	require.Len(t, drawtest.Named(all, "rect", "alarmed"), 2) // on the dial and in the list
	require.Contains(t, drawtest.Texts(all), "Crossed, its number in a square: outside what is allowed")
}

func TestDialRefuses(t *testing.T) {
	_, err := Dial{}.SVG()
	require.ErrorContains(t, err, "at least one mark")
	_, err = Dial{Marks: []DialMark{{Name: "pin", At: math.NaN()}}}.SVG()
	require.ErrorContains(t, err, `"pin"`)
}

// A dial says which way is later, and that is where a later mark is drawn.
func TestDialSaysWhichWayIsLater(t *testing.T) {
	dial := Dial{Zero: "right", Marks: []DialMark{{Name: "early", At: -3}, {Name: "late", At: 3}}}
	svg, err := dial.SVG()
	tags, _ := numbered(t, drawtest.Parsed(t, svg, err), 2)
	require.Less(t, tags[0].X, tags[1].X)
	require.Regexp(t, `← earlier .* later →`, string(svg))
	dial.Marks[1].At = 150 // the whole circle
	svg, err = dial.SVG()
	require.NoError(t, err)
	require.Contains(t, string(svg), "later is clockwise")
}
