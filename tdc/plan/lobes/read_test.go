package lobes_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/plan"
)

// rows is readings from pairs of an angle in degrees and a lift in mm.
func rows(pairs ...float64) (list []lobe.Reading) {
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, lobe.Reading{Angle: geometry.Angle(pairs[i]) * deg, Lift: geometry.Length(pairs[i+1]), Turn: evidence.Forward, File: "lobe.csv", Line: i/2 + 2})
	}
	return list
}

// The inlet of lobes.md 5, whose protractor shows TDC at 2.4, one tooth late: 16.85 deg.
var late = rows(2.5, 0.76, 7.5, 1.03, 11.5, 1.30, 30.5, 3.00, 61, 6.03, 127.5, 9.20, 194, 5.98, 223.5, 3.00, 243, 1.31, 247.5, 1.00, 251.5, 0.76)

// at is a piston whose protractor shows TDC at so many degrees.
func at(t *testing.T, degrees float64) *lobe.From {
	t.Helper()
	s := setup(0.5, 0.25)
	piston, err := plan.Best(s, plan.Ground{Deepest: 8}, 12)
	require.NoError(t, err)
	readings := piston.Readings(s)
	for i := range readings {
		readings[i].Angle += geometry.Angle(degrees) * deg
	}
	r, err := tdc.Find(s, evidence.Cylinder{Number: 1, Readings: readings})
	require.NoError(t, err)
	require.InDelta(t, degrees, r.TDC.Angle.Degrees(), 1e-6)
	require.InEpsilon(t, float64(piston.Foreseen.TDC.Uncertainty), float64(r.TDC.Uncertainty), 0.02, "the plan's own forecast, but for the lines that places fall on")
	return &lobe.From{Result: r}
}

// A lobe's readings have what they straddle and come near to; with TDC known the places
// are those where the lobe stands, not the card's.
func TestWhatWasRead(t *testing.T) {
	l := inlet()
	l.Readings = late
	p := planned(t, setup(0.5, 0.25), l, at(t, 2.4))
	require.Equal(t, []int{4, 8}, p.Left(), "half the top, of which 3 and 6 mm are too far")
	require.InDelta(t, -12+16.6-2.5, p.Points[0].Angle.Degrees(), 0.2) // opens 4.58 ATDC
	require.InDelta(t, 124.8, p.Points[5].Angle.Degrees(), 0.1)
	require.Empty(t, p.Lacking)
	require.Nil(t, found[finding.LobeTopAssumed](p.Findings))

	// without TDC the card's places, and the same ticks
	unplaced := planned(t, setup(0.5, 0.25), l, nil)
	require.Equal(t, []int{4, 8}, unplaced.Left())
	require.InDelta(t, -14.5, unplaced.Points[0].Angle.Degrees(), 1e-9)
	require.Empty(t, unplaced.Lacking)
}

// What readings lack is said: a lift that is not straddled, a flank not reached, a top not
// read, and of an unplaced lobe nothing that hangs on its place.
func TestWhatReadingsLack(t *testing.T) {
	l := inlet()
	l.Readings = late[2:6] // from above the checking lift up to the top, and no other side
	p := planned(t, setup(0.5, 0.25), l, at(t, 2.4))
	require.Equal(t, []int{1, 2, 4, 6, 7, 8, 9, 10, 11}, p.Left())
	require.Equal(t, finding.OpeningFlank, found[finding.LiftNotStraddled](p.Lacking).Flank)
	l.Readings = late[:3]
	require.NotNil(t, found[finding.LobeFewReadings](planned(t, setup(0.5, 0.25), l, at(t, 2.4)).Lacking))

	l.Readings, l.Valve = late, lobe.Exhaust
	require.NotNil(t, found[finding.OtherValve](planned(t, setup(0.5, 0.25), l, at(t, 2.4)).Lacking))
	require.Nil(t, found[finding.OtherValve](planned(t, setup(0.5, 0.25), l, nil).Lacking))

	wide := inlet()
	wide.Readings = append(rows(355.5, 0.5), late[2:]...) // 16 deg apart about the opening
	p = planned(t, setup(0.5, 0.25), wide, at(t, 2.4))
	require.NotNil(t, found[finding.StraddledWide](p.Lacking))
	require.Equal(t, []int{1, 2, 4, 8}, p.Left(), "straddled too wide is not read")
}

// A top that the card does not say is what was read, where both flanks are about it.
func TestTopAsRead(t *testing.T) {
	l := inlet()
	l.Card.Top, l.Readings = 0, late
	p := planned(t, setup(0.5, 0.25), l, at(t, 2.4))
	require.Equal(t, geometry.Length(9.2), p.Points[5].Lift)
	require.True(t, p.Points[5].Read)
	require.Nil(t, found[finding.LobeTopAssumed](p.Findings))
}

// A gauge that counts up shows the same piston: a reading's depth grows downwards all the same.
func TestPistonOnAGaugeThatCountsUp(t *testing.T) {
	s := setup(0.5, 0.25)
	s.Gauge.Counts = evidence.Up
	piston, err := plan.Best(s, plan.Ground{Deepest: 8}, 12)
	require.NoError(t, err)
	r, err := tdc.Find(s, evidence.Cylinder{Number: 1, Readings: piston.Readings(s)})
	require.NoError(t, err)
	require.InDelta(t, 0, r.TDC.Angle.Degrees(), 1e-6)
	require.Nil(t, r.CannotTell)
	require.Nil(t, found[finding.GaugeCountsOtherWay](r.Findings))
	require.InDelta(t, float64(s.Gauge.Lash), r.Lash.Value, 1e-4)
}

// While a lobe is read from one side, its highest reading so far is of that flank: of two
// that rise nobody knows yet whether the second is the top.
func TestWhileReading(t *testing.T) {
	l, up, down := inlet(), rows(348, 0.8, 352, 1.2, 10, 2.6), rows(206, 2.6, 224, 1.2, 228.5, 0.8)
	for _, c := range []struct {
		read []lobe.Reading
		left []int
	}{
		{up[:1], []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}},
		{up[:2], []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}},
		{up, []int{4, 5, 6, 7, 8, 9, 10, 11}},
		{down, []int{1, 2, 3, 4, 5, 6, 7, 8}},
	} {
		l.Readings = c.read
		require.Equal(t, c.left, planned(t, setup(0.5, 0.25), l, nil).Left())
	}
}
