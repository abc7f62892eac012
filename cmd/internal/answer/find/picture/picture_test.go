package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// drawnTop is where the piston of drawnBook is highest, degrees on the protractor.
const drawnTop = 12.0

// drawnBook is 22 clean readings both ways of an engine of stroke 86 and rod 146
// with its top at drawnTop; the one at index 3 is a millimetre off.
func drawnBook(t *testing.T) Book {
	t.Helper()
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0, 0.001
	var read []evidence.Reading
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		for _, u := range []float64{-28, -23, -18, -13, -9, 8, 11, 15, 19, 24, 26} {
			read = append(read, evidence.Reading{
				Angle: geometry.Angle(drawnTop+u) * geometry.Degree, Depth: geometry.Length(3 + dropAt(u)), Turn: turn, Line: len(read) + 2,
			})
		}
	}
	read[3].Depth++
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: read})
	require.NoError(t, err)
	at := func(degrees float64) []geometry.Angle {
		return []geometry.Angle{geometry.Angle(degrees) * geometry.Degree}
	}
	marks, err := mark.Judge(setup, result, mark.Drive{}, []mark.Mark{
		{Name: "late", On: "flywheel", Read: at(drawnTop + 2.5), Limit: geometry.Degree, HasLimit: true},
		{Name: "early", On: "pulley", Read: at(drawnTop - 0.3), Limit: 2 * geometry.Degree, HasLimit: true},
	})
	require.NoError(t, err)
	return Book{
		Bench: words.NewBench(setup, "mm"), Results: []tdc.Result{result}, Marks: marks,
		Trend: func(tdc.Result) string { return "The midpoints stand." },
	}
}

// dropAt is the slider-crank's closed form, offset zero, throw 43 and rod 146.
func dropAt(degrees float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return 43*(1-cos) + 146 - math.Sqrt(146*146-43*43*sin*sin)
}

// found is how well the fit finds what clean readings were made from: degrees and
// mm. The engine's and the gauge's priors pull at it by less.
const found = 0.01

// The curve's picture has the engine's motion about zero, every reading where it
// was taken, and the bad one crossed out with its line.
func TestCurveIsDrawnAsItIs(t *testing.T) {
	b := drawnBook(t)
	r := b.Results[0]
	c := b.curveChart(r)
	require.Len(t, c.Series, 3)
	line := c.Series[0]
	require.True(t, line.Line)
	require.LessOrEqual(t, line.Points[0].X, -28.0)
	require.GreaterOrEqual(t, line.Points[len(line.Points)-1].X, 26.0)
	require.Less(t, line.Points[len(line.Points)-1].X, 28.0, "no wider than it need be")
	for _, q := range line.Points {
		require.InDelta(t, dropAt(q.X), q.Y, found)
	}
	n, doubtful := 0, 0
	for i, name := range []string{"turned forward", "turned backward"} {
		s := c.Series[1+i]
		require.Equal(t, name, s.Name)
		for _, q := range s.Points {
			want := r.Readings[n]
			require.InDelta(t, want.Angle.Degrees()-drawnTop, q.X, found)
			require.InDelta(t, want.Depth.Millimetres()-3, q.Y, found)
			require.InDelta(t, 2*0.2041, q.XError, 1e-4)   // 0.25/sqrt 3 and 0.5/sqrt 12, root of squares
			require.InDelta(t, 2*0.011902, q.YError, 1e-5) // 0.02/sqrt 3 and 0.01/sqrt 12
			require.Equal(t, n == 3, q.Doubtful)
			if q.Doubtful {
				doubtful++
				require.Equal(t, "line 5", q.Label)
			}
			n++
		}
	}
	require.Equal(t, 22, n)
	require.Equal(t, 1, doubtful)
	require.Contains(t, c.Description, "line 5 is suspect")
	half := r.TDC.Expanded.Degrees()
	require.Equal(t, []chart.Band{{From: -half, To: half, Label: "TDC " + b.tdcText(r)}}, c.Upright)
	require.True(t, c.Y.Down)
}

// A residual is the depth read less the curve's: a reading too deep lies above.
func TestResidualsAreDrawnAsTheyAre(t *testing.T) {
	b := drawnBook(t)
	c := b.residualChart(b.Results[0])
	require.False(t, c.Y.Down)
	for _, q := range c.Series[0].Points {
		require.Zero(t, q.Y)
	}
	bad := c.Series[1].Points[3]
	require.InDelta(t, 1, bad.Y, 2*found)
	require.InDelta(t, -13, bad.X, found)
	require.InDelta(t, 0, c.Series[2].Points[2].Y, 2*found)
	// the gauge's 0.0119 mm, and the protractor's 0.2041 deg along the slope
	slope := (dropAt(-12.9) - dropAt(-13.1)) / 0.2
	require.InDelta(t, 2*math.Hypot(0.011902, 0.2041*slope), bad.YError, 1e-3)
}

// The midpoints of a clean engine stand upright at zero, each at its own drop.
func TestMidpointsAreDrawnAsTheyAre(t *testing.T) {
	b := drawnBook(t)
	r := b.Results[0]
	for i := range r.Levels { // a lean that a sign would turn over
		r.Levels[i].Midpoint += geometry.Angle(i) * geometry.Degree / 100
	}
	c := b.midpointChart(r)
	require.Len(t, c.Series, 3, "the upright, and two directions")
	require.Equal(t, []chart.Point{{}, {Y: 1.15 * r.Levels[len(r.Levels)-1].Drop.Millimetres()}}, c.Series[0].Points)
	seen := 0
	for i, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		points := c.Series[1+i].Points
		for k, l := range r.Levels {
			if l.Turn != turn || len(points) == 0 || math.Abs(points[0].Y-l.Drop.Millimetres()) > 1e-9 {
				continue
			}
			require.InDelta(t, float64(k)/100, points[0].X, 3*found)
			require.InDelta(t, 2*l.Uncertainty.Degrees(), points[0].XError, 1e-9)
			points = points[1:]
			seen++
		}
		require.Empty(t, points)
	}
	require.GreaterOrEqual(t, seen, 12)
}

// The bars have each mark as far off as it is and its limit about zero, with its number,
// its verdict and what is allowed in words.
func TestMarksAreDrawnAsTheyAre(t *testing.T) {
	b := drawnBook(t)
	p, err := b.marksBars()
	require.NoError(t, err)
	late, early := p.Bars[0], p.Bars[1]
	require.InDelta(t, 2.5, late.At, found)
	require.InDelta(t, -0.3, early.At, found)
	for i, m := range p.Bars {
		require.Equal(t, b.Marks[i].Name, m.Name)
		require.InDelta(t, b.Marks[i].Expanded.Degrees(), m.To-m.At, 1e-9)
		require.InDelta(t, b.Marks[i].Expanded.Degrees(), m.At-m.From, 1e-9)
	}
	require.Equal(t, [4]float64{-1, 1, -2, 2}, [4]float64{late.LimitFrom, late.LimitTo, early.LimitFrom, early.LimitTo})
	require.Equal(t, doc.Outside, late.State)
	require.Equal(t, doc.Within, early.State)
	require.Equal(t, [2]string{"2.5 ± 0.4 deg late, outside", "allowed ± 1"}, [2]string{late.Says, late.Allowed})
	require.Equal(t, [2]string{"0.3 ± 0.4 deg early, within", "allowed ± 2"}, [2]string{early.Says, early.Allowed})
	require.Equal(t, [2]string{"early", "late"}, [2]string{p.Low, p.High})
}
