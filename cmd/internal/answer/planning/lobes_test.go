package planning

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/caution"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
)

const deg = geometry.Degree

// inlet is the card of lobes.md 5.
var inlet = lobe.Lobe{Name: "inlet lobe", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(),
	Card: lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg, Top: 9.2}}

// withLobes is a plan of 12 readings for a job with lobes, its piston's readings as given.
func withLobes(t *testing.T, read []evidence.Reading, of ...lobe.Lobe) Plan {
	t.Helper()
	p := planned(t, "mm", 12, false)
	p.job.Cylinders = []evidence.Cylinder{{Number: 1, Readings: read}, {Number: 2, Throw: 90 * deg}}
	p.job.Lobes = of
	var err error
	p.lobes, err = lobesOf(p.job, p.plan)
	require.NoError(t, err)
	return p
}

// A lobe of another cylinder is expected on the protractor by its own TDC, and nowhere on
// it while the piston is not read.
func TestLobeOnTheProtractor(t *testing.T) {
	second := inlet
	second.Name, second.Cylinder = "inlet lobe, cylinder 2", 2
	p := withLobes(t, planned(t, "mm", 12, false).plan.Readings(planned(t, "mm", 12, false).job.Setup), inlet, second)
	require.InDelta(t, 0, p.lobes[0].TDC.Degrees(), 1e-6)
	require.InDelta(t, 90, p.lobes[1].TDC.Degrees(), 1e-6)
	bench := p.bench()
	require.Equal(t, []string{"No.", "side", "lift, mm", "for", "crank, about", "protractor"}, p.lobes[0].table(bench).Header)
	require.Equal(t, []string{"1", "opening", "0.86", "event", "14 BTDC", "346"}, rounded(p.lobes[0].table(bench).Rows[0]))
	require.Equal(t, []string{"6", "top", "9.20", "top", "108 ATDC", "108"}, p.lobes[0].table(bench).Rows[5])
	require.Equal(t, []string{"6", "top", "9.20", "top", "108 ATDC", "198"}, p.lobes[1].table(bench).Rows[5])
	require.NotContains(t, p.lobes[0].sentence(bench), "read it first")

	p = withLobes(t, nil, inlet)
	require.Equal(t, []string{"No.", "side", "lift, mm", "for", "crank, about"}, p.lobes[0].table(bench).Header)
	require.Len(t, p.lobes[0].table(bench).Rows[0], 5)
	require.Contains(t, p.lobes[0].sentence(bench), "once the piston has been read: read it first, and plan again.")
	bare := inlet
	bare.Card = lobe.Card{Lift: 1}
	p = withLobes(t, nil, bare)
	require.Equal(t, []string{"No.", "side", "lift, mm", "for"}, p.lobes[0].table(bench).Header)
	require.Regexp(t, `^11 lifts, all turning forward, will tell its centre to about ± 0\.\d\d deg \(95 %\)\. The 5 marked`, p.lobes[0].sentence(bench))
	require.NotContains(t, p.lobes[0].sentence(bench), "read it first")
	require.Len(t, p.lobes[0].reachTable().Rows, 4)

	one := second
	one.Set = 2 // which the piston was not read in
	p = withLobes(t, planned(t, "mm", 12, false).plan.Readings(planned(t, "mm", 12, false).job.Setup), one)
	require.Nil(t, p.lobes[0].TDC)
}

// rounded is a row with its place a whole degree either side of where halves are rounded to.
func rounded(row []string) []string {
	row = slices.Clone(row)
	if row[4] == "15 BTDC" {
		row[4], row[5] = "14 BTDC", "346"
	}
	return row
}

// The text says what to read, what that reaches and how; the JSON the same with its digits.
func TestLobesSaid(t *testing.T) {
	partly := inlet
	for _, at := range [][2]float64{{-15, 0.8}, {-10, 1.2}, {31, 4.5}} {
		partly.Readings = append(partly.Readings, lobe.Reading{Angle: geometry.Angle(at[0]) * deg, Lift: geometry.Length(at[1]), Turn: evidence.Forward, File: "inlet.csv", Line: 2})
	}
	p := withLobes(t, nil, partly)
	text := said(t, p)
	for _, part := range []string{
		"Lobe: inlet lobe 11 lifts, all turning forward, will tell how late its cam is to about ± 0.", "and lift that is missing, by lash or wear, to ± 0.0",
		"The 5 marked event and top are enough for that", "1 opening 0.86 event, was read", "4 opening 4.60 shape, was read", "5 opening 6.90 shape 57 ATDC",
		"late by 0.", "More readings of the lobe do not shrink the ± 0.", "After its 3 readings so far these are left to be read: Nos. 3, 5, 6, 7, 8, 9, 10 and 11.",
		"too few for an opening and a closing", "How to read a lobe", "Turn forward only", "Look again as far after the last lift", "go back well beyond it, by 60 to 90 deg", "Read the top once",
		"At the cams: never turn the engine by a cam", caution.TurnBack,
	} {
		require.Contains(t, text, part)
	}
	data, err := p.JSON()
	require.NoError(t, err)
	var out planJSON
	require.NoError(t, json.Unmarshal(data, &out))
	l := out.Lobes[0]
	require.Equal(t, []int{3, 5, 6, 7, 8, 9, 10, 11}, l.Left)
	require.Equal(t, 5, l.Needed)
	require.Len(t, l.Lifts, 11)
	require.InDelta(t, -14.5, *l.Lifts[0].Angle, 1e-9)
	require.Nil(t, l.Lifts[0].Protractor)
	require.True(t, l.Lifts[0].Read)
	require.Equal(t, "opening", l.Lifts[0].Flank)
	require.Equal(t, "event", l.Lifts[0].For)
	require.InDelta(t, 4.6, l.Lifts[3].Lift, 1e-9)
	require.InDelta(t, 0.5, l.Lifts[3].Share, 1e-9)
	require.InDelta(t, p.lobes[0].Reach.Shift.Known.Degrees(), l.Reach.Shift.Known, 1e-12)
	require.InDelta(t, p.lobes[0].Reach.Opens.AgreeTo.Degrees(), l.Reach.Opens.AgreeTo, 1e-12)
	require.InDelta(t, float64(p.lobes[0].Reach.Missing), *l.Reach.Missing, 1e-12)
	require.Contains(t, string(data), `"kind": "lobe limited"`)
	require.Contains(t, string(data), `"kind": "few lift readings"`)

	whole := said(t, withLobes(t, nil))
	require.NotContains(t, whole, "lobe")
	require.NotContains(t, whole, "At the cams")
}

// Nothing is promised of a lobe that cannot be planned for; who never turns back is told
// so at the cam as well.
func TestLobeUnplanned(t *testing.T) {
	high := inlet
	high.Card.Lift = 9
	high.Readings = []lobe.Reading{{Angle: 1, Lift: 1, Turn: evidence.Forward}}
	p := withLobes(t, nil, high)
	require.Contains(t, said(t, p), "Lobe: inlet lobe Nothing is planned: the checking lift of 9.00 mm")
	require.NotContains(t, said(t, p), "left to be read")
	require.NotContains(t, said(t, p), "have all of that")
	data, err := p.JSON()
	require.NoError(t, err)
	require.Contains(t, string(data), `"reach": null`)

	one := planned(t, "mm", 12, true)
	one.job.Lobes = []lobe.Lobe{inlet}
	one.lobes, err = lobesOf(one.job, one.plan)
	require.NoError(t, err)
	require.Equal(t, []string{caution.With(caution.Lobe, caution.Back)}, one.cautions())
}
