package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
)

const deg = geometry.Degree

// The invented case of lobes.md 5, degrees after TDC and mm: the card's cams one tooth
// late.
var (
	inletRows   = []float64{0.1, 0.76, 5.1, 1.03, 9.1, 1.30, 28.1, 3.00, 58.6, 6.03, 125.1, 9.20, 191.6, 5.98, 221.1, 3.00, 240.6, 1.31, 245.1, 1.00, 249.1, 0.76}
	exhaustRows = []float64{-216.9, 0.75, -212.9, 0.99, -207.9, 1.31, -188.4, 2.99, -156.9, 6.00, -93.9, 8.79, -29.9, 5.97, 2.6, 3.00, 22.6, 1.30, 27.1, 0.98, 32.1, 0.73}
)

// measuredLobe is a lobe by its rows on the drawn book's engine.
func measuredLobe(b Book, l lobe.Lobe, rows []float64) lobe.Measured {
	for i := 0; i < len(rows); i += 2 {
		l.Readings = append(l.Readings, lobe.Reading{Angle: geometry.Angle(drawnTop+rows[i]) * deg, Lift: geometry.Length(rows[i+1]),
			Turn: evidence.Forward, File: "lobe.csv", Line: i/2 + 2})
	}
	l.Cylinder, l.Gauge = 1, lobe.DefaultGauge()
	return lobe.Measure(b.Bench.Protractor, lobe.From{Result: b.Results[0]}, l)
}

// lobedBook is drawnBook with both lobes.
func lobedBook(t *testing.T) Book {
	b := drawnBook(t)
	b.Lobes = []lobe.Measured{
		measuredLobe(b, lobe.Lobe{Name: "inlet lobe", Valve: lobe.Inlet, Card: lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg}}, inletRows),
		measuredLobe(b, lobe.Lobe{Name: "exhaust lobe", Valve: lobe.Exhaust, Card: lobe.Card{Lift: 1, HasEvents: true, Opens: 130 * deg, Closes: 10 * deg}}, exhaustRows),
	}
	return b
}

// invented is how well the figures of lobes.md 5, printed to a hundredth or a tenth, are
// met here: by that and where the drawn engine's TDC is.
const invented = 0.05 + found

// The picture of two lobes has every reading where it was read, the curve through it, and
// a bar from opening to closing with the centre, over the card's; the events have strokes
// up to the checking lift.
func TestLobesAreDrawnAsTheyAre(t *testing.T) {
	b := lobedBook(t)
	c := b.lobeChart(b.Results[0])
	require.Len(t, c.Lanes, 4)
	for i, want := range []struct {
		name                                                  string
		rows                                                  []float64
		opens, closes, centre, cardOpens, cardCloses, cardMid float64
		card                                                  string
	}{
		{"inlet lobe", inletRows, 4.58, 245.10, 124.8, -12, 228, 108, "its card: opens 12 BTDC, closes 48 ABDC, centre 108 ATDC"},
		{"exhaust lobe", exhaustRows, -212.73, 26.80, -92.97, -230, 10, -110, "its card: opens 50 BBDC, closes 10 ATDC, centre 110 BTDC"},
	} {
		e := b.Lobes[i].Events
		var read, strokes []chart.Series
		for _, s := range c.Series {
			switch {
			case s.With == i+1 && !s.Line:
				read = append(read, s)
			case s.With == i+1 && s.Fine && len(s.Points) == 2:
				strokes = append(strokes, s)
			}
		}
		require.Len(t, read, 1)
		require.Len(t, read[0].Points, len(want.rows)/2)
		for k, p := range read[0].Points {
			require.InDelta(t, want.rows[2*k], p.X, found)
			require.Equal(t, want.rows[2*k+1], p.Y)
			require.True(t, slices.ContainsFunc(c.Series[i].Points, func(q chart.Point) bool {
				return math.Abs(q.X-p.X) < 1e-9 && math.Abs(q.Y-p.Y) < 1e-9
			}), "the curve goes through (%g, %g)", p.X, p.Y)
		}
		require.True(t, c.Series[i].Line)

		full, card := c.Lanes[2*i], c.Lanes[2*i+1]
		require.Equal(t, []float64{e.Opens.Angle.Degrees(), e.Closes.Angle.Degrees(), e.Centre.Angle.Degrees()}, []float64{full.From, full.To, full.Middle})
		require.InDelta(t, want.opens, full.From, invented)
		require.InDelta(t, want.closes, full.To, invented)
		require.InDelta(t, want.centre, full.Middle, invented)
		require.Equal(t, []string{
			want.name + ": centre " + words.CentreWithin(e.Centre.Estimate),
			"opens " + words.EventWithin(e.Opens.Estimate) + ", closes " + words.EventWithin(e.Closes.Estimate),
		}, full.Lines)
		require.InDelta(t, want.cardOpens, card.From, 1e-9)
		require.InDelta(t, want.cardCloses, card.To, 1e-9)
		require.InDelta(t, want.cardMid, card.Middle, 1e-9)
		require.Equal(t, []string{want.card}, card.Lines)
		require.Equal(t, []bool{false, true}, []bool{full.Hollow, card.Hollow})
		require.Equal(t, []int{i + 1, i + 1}, []int{full.With, card.With})

		require.Len(t, strokes, 3)
		require.Equal(t, []chart.Point{{X: full.From}, {X: full.From, Y: 1}}, strokes[0].Points)
		require.Equal(t, []chart.Point{{X: full.To}, {X: full.To, Y: 1}}, strokes[1].Points)
		require.Equal(t, full.Middle, strokes[2].Points[0].X)
		require.Equal(t, chart.Point{X: full.Middle, Y: b.Lobes[i].Top.Millimetres(), Label: string(b.Lobes[i].Valve), Above: true}, strokes[2].Points[1])
	}
	require.Equal(t, []chart.Band{{From: 1, To: 1}}, c.Level)
	require.Equal(t, 1, labelled(c, "checking lift 1.00 mm"))
	require.Equal(t, 2, labelled(c, "centre"))
	require.Equal(t, []chart.Named{{At: -180, Name: "BDC"}, {At: 0, Name: "TDC"}, {At: 180, Name: "BDC"}}, c.X.Named[2:5])
	for k, n := range c.X.Named {
		require.Equal(t, math.Mod(math.Abs(n.At), 360) == 180, n.Name == "BDC")
		require.Equal(t, float64(180*k-540), n.At)
	}
}

// labelled is how many points have words.
func labelled(c chart.Chart, text string) (n int) {
	for _, s := range c.Series {
		for _, p := range s.Points {
			if p.Label == text {
				n++
			}
		}
	}
	return n
}

// The overlap is shaded from the inlet's opening to the exhaust's closing with the
// answer's figure; lobes that are never open together say for how long both are shut.
func TestOverlapIsDrawnAsItIs(t *testing.T) {
	b := lobedBook(t)
	pair, ok := lobe.Paired(b.Lobes[1], b.Lobes[0])
	require.True(t, ok)
	c := b.lobeChart(b.Results[0])
	says := fmt.Sprintf("overlap 22.2 ± %s deg", words.Fixed(pair.Overlap.Expanded.Degrees(), 1))
	require.Equal(t, []chart.Band{{From: c.Lanes[0].From, To: c.Lanes[2].To, Label: says}}, c.Upright)
	require.InDelta(t, 26.80-4.58, c.Upright[0].To-c.Upright[0].From, invented)
	require.Contains(t, c.Description, " exhaust lobe and inlet lobe: "+says+".")

	apart := lobedBook(t)
	for i := range inletRows[:11] {
		apart.Lobes[0].Readings[i].Angle += 40 * deg
	}
	apart.Lobes[0] = lobe.Measure(apart.Bench.Protractor, lobe.From{Result: apart.Results[0]}, apart.Lobes[0].Lobe)
	c = apart.lobeChart(apart.Results[0])
	require.Equal(t, fmt.Sprintf("both shut 17.8 ± %s deg", words.Fixed(pair.Overlap.Expanded.Degrees(), 1)), c.Upright[0].Label)

	one := lobedBook(t)
	one.Lobes = one.Lobes[:1]
	require.Empty(t, one.lobeChart(one.Results[0]).Upright)

	twins := lobedBook(t) // two inlet valves: words at one place would lie upon one another
	twins.Lobes = append(twins.Lobes, twins.Lobes[0])
	twins.Lobes[2].Name = "second inlet lobe"
	c = twins.lobeChart(twins.Results[0])
	require.Len(t, c.Upright, 2)
	require.Empty(t, c.Upright[0].Label+c.Upright[1].Label)
	require.Equal(t, []int{0, 1, 1, 1}, []int{labelled(c, "inlet"), labelled(c, "exhaust"), labelled(c, "centre"), labelled(c, "checking lift 1.00 mm")})
	require.Contains(t, c.Description, "exhaust lobe and second inlet lobe: "+says)
}

// The description says in words what the picture shows.
func TestLobesInWords(t *testing.T) {
	b := lobedBook(t)
	in, ex := b.Lobes[0].Events, b.Lobes[1].Events
	within := func(e lobe.Quantity) string { return words.EventWithin(e.Estimate) }
	pair, _ := lobe.Paired(b.Lobes[1], b.Lobes[0])
	require.Equal(t, "Valve lift in mm against crank angle, with a curve through the readings. "+
		"inlet lobe: centre "+words.CentreWithin(in.Centre.Estimate)+", opens "+within(in.Opens)+", closes "+within(in.Closes)+
		" at 1.00 mm; 11 readings, the highest 9.20 mm; its card: opens 12 BTDC, closes 48 ABDC, centre 108 ATDC. "+
		"exhaust lobe: centre "+words.CentreWithin(ex.Centre.Estimate)+", opens "+within(ex.Opens)+", closes "+within(ex.Closes)+
		" at 1.00 mm; 11 readings, the highest 8.79 mm; its card: opens 50 BBDC, closes 10 ATDC, centre 110 BTDC. "+
		"exhaust lobe and inlet lobe: overlap "+words.Within(pair.Overlap.Angle.Degrees(), pair.Overlap.Expanded.Degrees())+" deg.",
		b.lobeChart(b.Results[0]).Description)
}

// A card that says but a centre has a stroke alone; one that nothing was compared with,
// or a healthy engine's lobe in its place, is not drawn.
func TestCardsThatSayLess(t *testing.T) {
	b := lobedBook(t)
	b.Lobes = []lobe.Measured{measuredLobe(b, lobe.Lobe{Name: "inlet lobe", Valve: lobe.Inlet, Card: lobe.Card{Lift: 1, HasCentre: true, Centre: 108 * deg}}, inletRows)}
	lanes := b.lobeChart(b.Results[0]).Lanes
	require.Equal(t, chart.Lane{Lines: []string{"its card: centre 108 ATDC"}, From: 108, To: 108, Middle: 108, With: 1, Hollow: true}, lanes[1])
	b.Lobes[0].Shift.Healthy = true
	require.Len(t, b.lobeChart(b.Results[0]).Lanes, 1)
	b.Lobes[0].Shift = nil
	c := b.lobeChart(b.Results[0])
	require.Len(t, c.Lanes, 1)
	require.NotContains(t, c.Description, "card")
}

// Inch jobs are drawn in inches.
func TestLobesInInches(t *testing.T) {
	metric, inch := lobedBook(t), lobedBook(t)
	inch.Bench = words.NewBench(evidence.Setup{Protractor: metric.Bench.Protractor, Gauge: metric.Bench.Gauge}, "in")
	for i, c := range []chart.Chart{inch.lobeChart(inch.Results[0]), inch.leanChart(0)} {
		other := []chart.Chart{metric.lobeChart(metric.Results[0]), metric.leanChart(0)}[i]
		require.NotContains(t, c.Description+c.Y.Label, "mm")
		require.InDelta(t, other.Y.To/25.4, c.Y.To, 1e-9)
		for n, s := range c.Series {
			for k, p := range s.Points {
				require.InDelta(t, other.Series[n].Points[k].Y/25.4, p.Y, 1e-9)
				require.NotContains(t, p.Label, "mm")
			}
		}
	}
	require.Equal(t, 1, labelled(inch.lobeChart(inch.Results[0]), "checking lift 0.039 in"))
}

// Without a lobe there is nothing to draw, nor where none of the cylinder was measured.
func TestNoLobesAreNotDrawn(t *testing.T) {
	b := drawnBook(t)
	for _, name := range []string{Lobes, Lean} {
		_, err := b.Draw(name, 0)
		require.ErrorContains(t, err, "add a [[lobe]]")
		text, err := b.Plot(name, 0, 79)
		require.NoError(t, err)
		require.Empty(t, text)
	}
	b = lobedBook(t)
	b.Results[0].Number = 2
	_, err := b.Draw(Lobes, 0)
	require.ErrorContains(t, err, "cylinder 2 has no cam lobe")
	b.Results[0].Number = 1
	b.Lobes = []lobe.Measured{measuredLobe(b, lobe.Lobe{Name: "low lobe", Valve: lobe.Inlet, Card: lobe.Card{Lift: 0.1}}, inletRows)}
	require.Nil(t, b.Lobes[0].Events)
	_, err = b.Draw(Lobes, 0)
	require.ErrorContains(t, err, "cylinder 1 has no cam lobe")
	_, err = b.Draw(Lean, 0)
	require.ErrorContains(t, err, "low lobe has too few lifts")
}

// In characters the lobes have the same axes, a letter each, their overlap and the
// checking lift, and no line is too long.
func TestLobesInCharacters(t *testing.T) {
	b := lobedBook(t)
	text, err := b.Plot(Lobes, 0, 79)
	require.NoError(t, err)
	for line := range strings.Lines(text) {
		require.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 79)
	}
	for _, says := range []string{"lift as the gauge shows it, mm", "A inlet lobe", "B exhaust lobe", ": overlap 22.2 ± ", "= checking lift 1.00 mm", "-180", "AAAA", "BBBBB"} {
		require.Contains(t, text, says)
	}
	b.Results = append(b.Results, b.Results[0])
	text, err = b.Plot(Lobes, 0, 79)
	require.NoError(t, err)
	require.Contains(t, text, "Cylinder 1: lift")
	text, err = b.Plot(Curve, 0, 79)
	require.NoError(t, err)
	require.Empty(t, text)
}

// badLobe is the even or leaning lobe of the tests' cams read at eight lifts a side, the
// bad-th of the opening ones so much later.
func badLobe(t *testing.T, shape lobetest.Shape, bad int, late float64) Book {
	b := drawnBook(t)
	cam := lobetest.Cam{Shape: shape, Nose: 108}
	lifts := []float64{0.5, 0.8, 1.15, 1.6, 3, 4.6, 6.5, 8.2}
	var rows []float64
	for i, lift := range lifts {
		at := cam.Event(lift, -1)
		if i == bad {
			at += late
		}
		rows = append(rows, at, lift)
	}
	rows = append(rows, cam.Nose, cam.Top)
	for i := range lifts {
		lift := lifts[len(lifts)-1-i]
		rows = append(rows, cam.Event(lift, 1), lift)
	}
	b.Lobes = []lobe.Measured{measuredLobe(b, lobe.Lobe{Name: "inlet lobe", Valve: lobe.Inlet, Card: lobe.Card{Lift: 1}}, rows)}
	return b
}

// The middles are at the angles and lifts of the answer's levels with twice their
// uncertainty, the line ends at the nose and its interval is shaded.
func TestLeanIsDrawnAsItIs(t *testing.T) {
	b := badLobe(t, lobetest.Shapes[1], -1, 0)
	m, c := b.Lobes[0], b.leanChart(0)
	require.Len(t, c.Series, 2)
	points := c.Series[1].Points
	require.Len(t, points, 8)
	require.Len(t, m.Levels, 8)
	for i, p := range points {
		l := m.Levels[i]
		require.InDelta(t, l.Midpoint.Angle.Degrees(), p.X, 1e-9)
		require.Equal(t, l.Lift.Millimetres(), p.Y)
		require.Equal(t, 2*l.Midpoint.Uncertainty.Degrees(), p.XError)
		require.False(t, p.Doubtful)
		require.Empty(t, p.Label)
	}
	line, nose := c.Series[0].Points, m.Lean.Nose
	require.True(t, c.Series[0].Line)
	require.Equal(t, chart.Point{X: nose.Angle.Degrees(), Y: m.Top.Millimetres()}, line[len(line)-1])
	require.InDelta(t, points[0].X, line[0].X, 0.05) // what a lobe's own middles bend by
	require.InDelta(t, 108, nose.Angle.Degrees(), 0.1)
	require.Equal(t, []chart.Band{{
		From: (nose.Angle - nose.Expanded).Degrees(), To: (nose.Angle + nose.Expanded).Degrees(), Label: "nose " + words.CentreWithin(nose),
	}}, c.Upright)
	require.Equal(t, "inlet lobe: half-way between equal lifts", c.Title)
	require.Equal(t, "Middles between two angles of equal lift at 8 lifts, in mm, against crank degrees after TDC. The line ends at the nose, "+words.CentreWithin(nose)+
		". The middle moves by +"+words.Fixed(100*m.Lean.Lambda.Value, 1)+" ± "+words.Fixed(200*m.Lean.Lambda.Uncertainty, 1)+" deg for each 100 deg of duration, so its flanks are unlike.",
		c.Description)
	even := badLobe(t, lobetest.Shapes[0], -1, 0)
	require.Contains(t, even.leanChart(0).Description, "no more than chance makes of like flanks.")

	b = lobedBook(t) // in the ink and shape of the picture of both
	require.Equal(t, []int{1, 2}, []int{b.leanChart(0).Series[1].With, b.leanChart(1).Series[1].With})
}

// The level that lies apart is crossed out and named, and no other.
func TestALevelApartIsMarked(t *testing.T) {
	b := badLobe(t, lobetest.Shapes[0], 5, 2.5)
	m, c := b.Lobes[0], b.leanChart(0)
	points := c.Series[1].Points
	for i, p := range points {
		require.Equal(t, i == 5, m.Levels[i].Apart)
		require.Equal(t, i == 5, p.Doubtful)
		require.Equal(t, i == 5, p.Label != "")
	}
	require.Equal(t, "4.60 mm lies apart, line 7", points[5].Label)
	for _, f := range m.Findings {
		if apart, is := f.(finding.LevelApart); is {
			require.Contains(t, c.Description, b.Bench.Finding(apart))
			return
		}
	}
	t.Fatal("it was not found")
}

// Two middles are a picture without a line; one is none.
func TestFewMiddles(t *testing.T) {
	b := lobedBook(t)
	b.Lobes[0].Lean, b.Lobes[0].Levels = nil, b.Lobes[0].Levels[:2]
	c := b.leanChart(0)
	require.Len(t, c.Series, 1)
	require.Len(t, c.Series[0].Points, 2)
	require.Empty(t, c.Upright)
	_, err := b.Draw(Lean, 0)
	require.NoError(t, err)
	b.Lobes[0].Levels = b.Lobes[0].Levels[:1]
	_, err = b.Draw(Lean, 0)
	require.ErrorContains(t, err, "inlet lobe has too few lifts")
}

// Where a lobe's middles lie about half a turn from TDC they are drawn beside the nose.
func TestMiddlesAcrossATurn(t *testing.T) {
	b := lobedBook(t)
	m := &b.Lobes[0]
	for i := range m.Levels {
		m.Levels[i].Midpoint.Angle = geometry.Angle(-179+i) * deg
	}
	m.Lean.Nose.Angle = 179 * deg
	for i, p := range b.leanChart(0).Series[1].Points {
		require.InDelta(t, 181+float64(i), p.X, 1e-9)
	}
}
