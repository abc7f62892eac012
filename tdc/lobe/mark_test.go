package lobe_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

// Lobes share TDC and the protractor's error with marks and with one another: a mark read
// on the same protractor, late by its shift, and the covariance is that of their places.
func TestLobesShareTDC(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: p, Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	inlet := lobe.Measure(p, from, lobe.Lobe{
		Name: "inlet", On: "inlet cam", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(), Limit: 2 * deg, HasLimit: true,
		Card:     lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg},
		Readings: rows(2.5, 0.76, 7.5, 1.03, 11.5, 1.30, 61, 6.03, 127.5, 9.20, 194, 5.98, 243, 1.31, 247.5, 1.00, 251.5, 0.76),
	})
	k, says := inlet.Mark()
	require.True(t, says)
	other := k
	other.Name = "other inlet"
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: []geometry.Angle{92.5 * deg}, ShouldBe: 90 * deg}
	judged, err := mark.Judge(setup, from.Result, mark.Drive{Layout: "two cams"}, []mark.Mark{k, other, pin})
	require.NoError(t, err)
	require.InDelta(t, inlet.Shift.Angle.Degrees(), judged[0].Angle.Degrees(), 1e-9)
	require.InDelta(t, inlet.Shift.Expanded.Degrees(), judged[0].Expanded.Degrees(), 1e-9)
	require.Equal(t, mark.Outside, judged[0].Verdict)
	require.InDelta(t, inlet.Shift.Seen.Covariance(inlet.Shift.Seen), judged[0].Covariance(judged[1]), 1e-12)
	seen := from.After(pin.Read)
	require.InDelta(t, inlet.Shift.Seen.Covariance(seen), judged[0].Covariance(judged[2]), 1e-12)
	require.Positive(t, judged[0].Covariance(judged[2]))
	require.Less(t, judged[0].Covariance(judged[1]), math.Pow(float64(inlet.Shift.Uncertainty), 2))
	require.Empty(t, mark.Keep(judged[:2]))

	require.Empty(t, judged[0].Notes)

	// farther off than joints slip, the lobe, its card or TDC is the wrong one
	far := k
	far.ShouldBe -= 70 * deg
	judged, err = mark.Judge(setup, from.Result, mark.Drive{Layout: "two cams"}, []mark.Mark{far})
	require.NoError(t, err)
	require.Equal(t, []finding.Finding{finding.LobeFarOff{Mark: finding.Mark{Name: "inlet"}, Off: judged[0].Angle}}, judged[0].Notes)
	require.InDelta(t, inlet.Shift.Angle.Degrees()+70, judged[0].Angle.Degrees(), 1e-9)

	// a limit that it lies just outside of is settled by readings of the piston, or by none
	k.Limit = inlet.Shift.Angle - inlet.Shift.Expanded*0.98
	judged, err = mark.Judge(setup, from.Result, mark.Drive{Layout: "two cams"}, []mark.Mark{k})
	require.NoError(t, err)
	require.Equal(t, mark.TooClose, judged[0].Verdict)
	require.NotNil(t, judged[0].ToSettle)
}
