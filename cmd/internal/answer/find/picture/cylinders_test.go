package picture

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/chart/bars"
	"evendrop/cmd/internal/doc"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// seenBook is drawnBook's engine seen without a depth: a dwell each way, a stop read twice
// and a pair of equal views.
func seenBook(t *testing.T) Book {
	t.Helper()
	b, at := drawnBook(t), func(degrees float64) geometry.Angle { return geometry.Angle(drawnTop+degrees) * geometry.Degree }
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	r, err := tdc.Find(setup, evidence.Cylinder{
		Number: 1,
		Dwell:  []evidence.DwellPair{{Still: at(-7), Moves: at(8), Turn: evidence.Forward}, {Still: at(7), Moves: at(-8), Turn: evidence.Backward}},
		Stops:  []evidence.Stop{{Rising: at(-30), Falling: at(30)}, {Rising: at(-30), Falling: at(30.4)}, {Rising: at(-41), Falling: at(41)}},
		Views:  []evidence.View{{Before: at(-12), After: at(12), Turn: evidence.Forward}},
	})
	require.NoError(t, err)
	b.Results = []tdc.Result{r}
	return b
}

// near is how well pairs that agree find the top they were made from, degrees: theirs lie
// half a degree apart at most, so their mean lies nearer.
const near = 0.25

// Each dwell, stop and view is drawn at its angles from TDC, with its turn, its middle and
// what the protractor showed; a stop read twice is one, with both readings on it.
func TestObservationsAreDrawnAsTheyAre(t *testing.T) {
	b := seenBook(t)
	require.Error(t, b.NothingIn(Curve, 0))
	require.NoError(t, b.NothingIn(Observations, 0))
	require.ErrorContains(t, drawnBook(t).NothingIn(Observations, 0), "no stops, dwells or equal views")
	o := b.observed(b.Results[0])
	require.Len(t, o.Pairs, 5)
	for i, want := range []struct {
		name, says     string
		from, to, half float64
		onward         int
	}{
		{"Stop 1", "2 pairs of contacts, 60.2 deg apart", -30, 30.2, 30.1, 0},
		{"Stop 2", "contacts at 331 and 53", -41, 41, 41, 0},
		{"Dwell pair 1, turned forward", "still at 5, moves at 20", -7, 8, 7.5, 1},
		{"Dwell pair 2, turned backward", "still at 19, moves at 4", -8, 7, 7.5, -1},
		{"Equal view 1, turned forward", "looks alike at 0 and 24", -12, 12, 12, 1},
	} {
		p := o.Pairs[i]
		require.Equal(t, [2]string{want.name, want.says}, [2]string{p.Name, p.Says})
		require.Equal(t, want.onward, p.Onward)
		require.InDelta(t, want.from, p.From, near)
		require.InDelta(t, want.to, p.To, near)
		require.InDelta(t, 2*want.half, p.To-p.From, 1e-9)
		require.InDelta(t, (p.From+p.To)/2, p.Middle.At, 1e-9)
		require.InDelta(t, gum.Normal95*b.Results[0].Pairs()[i].Sigma*57.29578, p.Middle.To-p.Middle.At, 1e-6)
		require.False(t, p.Doubtful)
	}
	require.Len(t, o.Pairs[0].Read, 4)
	require.Contains(t, o.Pairs[2].Halfway, "deg after TDC")
	require.Contains(t, o.Pairs[3].Halfway, "deg before TDC")
	require.InDelta(t, b.Results[0].TDC.Expanded.Degrees(), o.Shade.To, 1e-12)
	require.Contains(t, o.Shading, b.tdcText(b.Results[0]))
	svg, err := b.Draw(Observations, 0)
	require.NoError(t, err)
	require.Contains(t, string(svg), "Dwell pair 2, turned backward: still at 19, moves at 4; half-way")
}

// The pairs of a cylinder whose protractor was moved are of the first set, and measured from
// its TDC.
func TestObservationsAreOfTheFirstSet(t *testing.T) {
	b, last := seenBook(t), drawnBook(t).Results[0]
	first := b.Results[0]
	last.Set, last.Earlier = 2, []tdc.Result{first}
	last.TDC.Angle += 90 * geometry.Degree
	require.Equal(t, b.observed(first).Pairs, b.observed(last).Pairs)
	b.Results[0] = last
	require.NoError(t, b.NothingIn(Observations, 0))
}

// manyBook is drawnBook with four cylinders, the last one's throw and crown outside.
func manyBook(t *testing.T) Book {
	b := drawnBook(t)
	r := b.Results[0]
	b.Limits = Limits{Throw: geometry.Degree, Crown: 0.5}
	for n := range 4 {
		r.Number = n + 1
		off := geometry.Angle(n*n) * 0.3 * geometry.Degree
		j := mark.JudgedThrow{Verdict: mark.Within, CrownVerdict: mark.Within, Throw: tdc.Throw{
			Cylinder: n + 1, Estimate: gum.Estimate{Angle: off, Expanded: 0.2 * geometry.Degree},
			Crown: &tdc.Estimated{Value: 0.3 - 0.5*float64(n), Expanded: 0.1},
		}}
		if n == 3 {
			j.Verdict, j.CrownVerdict = mark.Outside, mark.Outside
		}
		b.Throws = append(b.Throws, j)
		if n > 0 {
			b.Results = append(b.Results, r)
		}
	}
	return b
}

// Throws are bars in crank degrees, but the first cylinder's, which they are measured from;
// crowns are bars in the job's unit, lower to the right.
func TestThrowsAndCrownsAreDrawnAsTheyAre(t *testing.T) {
	b := manyBook(t)
	throws, crowns := b.throws(), b.crowns()
	require.Len(t, throws.Bars, 3)
	require.Len(t, crowns.Bars, 4)
	require.Equal(t, "Cylinder 4", throws.Bars[2].Name)
	require.Equal(t, [2]string{"2.70 ± 0.20 deg late, outside", "allowed ± 1"}, [2]string{throws.Bars[2].Says, throws.Bars[2].Allowed})
	require.InDelta(t, 2.7, throws.Bars[2].At, 1e-9)
	require.InDelta(t, 2.9, throws.Bars[2].To, 1e-9)
	require.Equal(t, doc.Outside, throws.Bars[2].State)
	require.Equal(t, [2]float64{-1, 1}, [2]float64{throws.Bars[0].LimitFrom, throws.Bars[0].LimitTo})
	require.Equal(t, "its place after cylinder 1's", throws.Zero)
	require.Equal(t, [2]string{"0.30 ± 0.10 mm lower, within", "allowed ± 0.5"}, [2]string{crowns.Bars[0].Says, crowns.Bars[0].Allowed})
	require.Equal(t, [2]string{"1.20 ± 0.10 mm higher, outside", "allowed ± 0.5"}, [2]string{crowns.Bars[3].Says, crowns.Bars[3].Allowed})
	require.InDelta(t, -1.2, crowns.Bars[3].At, 1e-9)
	require.Equal(t, bars.Counted{Unit: "mm", Low: "higher", High: "lower", Zero: "the others"}, crowns.Counted)

	b.Bench.Inches = true
	require.InDelta(t, 0.3/25.4, b.crowns().Bars[0].At, 1e-9)
	require.InDelta(t, 0.5/25.4, b.crowns().Bars[0].LimitTo, 1e-9)
	require.Equal(t, [2]string{"0.012 ± 0.004 in lower, within", "allowed ± 0.0197"}, [2]string{b.crowns().Bars[0].Says, b.crowns().Bars[0].Allowed})

	b.Throws[1].CannotTell, b.Throws[2].Moved = true, true
	require.Contains(t, b.throws().Bars[0].Says, "cannot be determined")
	require.Contains(t, b.throws().Bars[1].Says, "the protractor moved")
	b.Throws[0].Crown = nil
	require.ErrorContains(t, b.NothingIn(Crowns, 0), "same_zero")
	for _, name := range []string{Throws, Crowns, Cylinders} {
		require.Error(t, drawnBook(t).NothingIn(name, 0), "of one cylinder")
	}
}

// A panel has a cylinder's readings as the curve leaves them, its TDC and their number; what
// does not fit is doubtful and its line said.
func TestPanelsAreDrawnAsTheyAre(t *testing.T) {
	b := manyBook(t)
	p := b.cylinders()
	require.Len(t, p.Panels, 4)
	for i, one := range p.Panels {
		r := b.Results[i]
		require.Len(t, one.Points, 22)
		for k, at := range one.Points {
			require.InDelta(t, r.Readings[k].Residual.Millimetres(), at.Y, 1e-12)
			require.InDelta(t, r.FromTDC(r.Readings[k].Angle).Degrees(), at.X, 1e-12)
			require.Equal(t, k >= 11, at.Kind == 1)
			require.Equal(t, k == 3, at.Doubtful)
		}
		require.Equal(t, []string{"22 readings", "does not fit: line 5"}, one.Says[1:])
		require.Regexp(t, `^TDC 12\.\d+ ± 0\.\d+°$`, one.Says[0])
	}
	require.Equal(t, "depth read minus the curve's, mm", p.Y)
	b.Results[2].CannotTell = finding.StrokeUnknown{}
	require.Equal(t, "TDC cannot be determined", b.cylinders().Panels[2].Says[0])
	b.Results[1] = seenBook(t).Results[0]
	require.Equal(t, "seen without a depth", b.cylinders().Panels[1].Says[1])
	require.NoError(t, b.NothingIn(Cylinders, 0))
	b.Results = b.Results[1:2]
	require.ErrorContains(t, b.NothingIn(Cylinders, 0), "no readings to draw")
}

// The first cylinder has its pictures in full, and one of which something is found that is
// not found of the first.
func TestWhoIsDrawnInFull(t *testing.T) {
	b := manyBook(t)
	b.Results[2].Findings = append([]finding.Finding{finding.StrokeUnknown{}}, b.Results[2].Findings...)
	for n, want := range []bool{true, false, true, false} {
		require.Equal(t, want, b.InFull(n), "cylinder %d", n+1)
	}
	b.Results[0].Findings = b.Results[2].Findings
	require.False(t, b.InFull(2), "what both have")
}
