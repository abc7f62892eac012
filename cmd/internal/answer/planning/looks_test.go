package planning

import (
	"encoding/json"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find/budget"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

// scoped is the plan of a job read with a borescope on a protractor of an error.
func scoped(t *testing.T, own geometry.Angle, oneWay bool) Plan {
	t.Helper()
	j := job.Job{Title: "invented", Unit: "mm", Setup: answertest.Setup()}
	j.Setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	j.Setup.Protractor.Error = own
	p, err := Of(j, Question{Ground: Ground(j, oneWay, 0), Readings: plan.Usual})
	require.NoError(t, err)
	return p
}

// Who looks through a borescope is asked for views and dwells and for no depth, with what
// each reaches and what other instruments would; turning back by what it gains the dwell.
func TestBorescopeLooks(t *testing.T) {
	p := scoped(t, 0.25*deg, false)
	text := said(t, p)
	for _, part := range []string{
		"judge no depth", "4 dwells and 4 pairs of equal views together tell TDC to about ± " + words.WithinDegrees(p.looks.Foreseen.TDC.Expanded) + " deg (95 %), the protractor's own error of 0.25 deg in it",
		"the dwells alone to ± " + words.WithinDegrees(p.looks.ByDwell.Expanded), "the views alone to ± " + words.WithinDegrees(p.looks.ByViews.Expanded),
		"± " + words.WithinDegrees(p.looks.ByDwell.Expanded) + " instead of " + words.WithinDegrees(p.looks.DwellOneWay.Expanded),
		"1 forward the same picture -30 +30", "3 forward still, moves again, 2 times -3 +3", "6 backward still, moves again, 2 times +3 -3",
		"Pick a sharp edge of the crown", "Clamp the borescope clear of the crown", caution.TurnBack,
		"12 depths judged by eye, less, ± " + words.WithinDegrees(p.plan.Foreseen.TDC.Expanded), "Most of the uncertainty is the protractor's own error",
	} {
		require.Contains(t, text, part)
	}
	for _, part := range []string{"drop, mm", "work down the table", "spread evenly", "ten times better"} {
		require.NotContains(t, text, part)
	}
	one := scoped(t, 0.25*deg, true)
	text = said(t, one)
	require.Contains(t, text, "rely on the views")
	require.NotContains(t, text, "backward")
	require.NotContains(t, text, caution.TurnBack)
	require.Contains(t, text, "never back")
}

// Beside the looks stands what a dial gauge and a stop would reach, and more is said only
// where it is more: on a fine protractor it is.
func TestBesideTheLooks(t *testing.T) {
	for _, own := range []geometry.Angle{0.05 * deg, 0.25 * deg} {
		p := scoped(t, own, false)
		for instrument, reach := range map[string]geometry.Angle{"a dial gauge on the crown reaches": p.looks.Dial.Expanded, "from either side, reaches": p.looks.Stop.Expanded} {
			m := regexp.MustCompile(instrument + ` (more|about as much|less), ± (\S+) deg`).FindStringSubmatch(said(t, p))
			require.NotNil(t, m, said(t, p))
			size, err := strconv.ParseFloat(m[2], 64)
			require.NoError(t, err)
			require.InDelta(t, reach.Degrees(), size, 0.05)
			ratio := float64(reach / p.looks.Foreseen.TDC.Expanded)
			require.Equal(t, ratio < 0.9, m[1] == "more", ratio)
			require.Equal(t, ratio > 1.1, m[1] == "less", ratio)
		}
	}
	require.Contains(t, said(t, scoped(t, 0.05*deg, false)), "a dial gauge on the crown reaches more")
}

// The JSON has the looks with their digits, beside the readings.
func TestLooksAsJSON(t *testing.T) {
	p := scoped(t, 0.25*deg, false)
	data, err := p.JSON()
	require.NoError(t, err)
	var out planJSON
	require.NoError(t, json.Unmarshal(data, &out))
	require.Len(t, out.Readings, plan.Usual)
	require.Len(t, out.Looks.Dwell, 4)
	require.Len(t, out.Looks.Views, 4)
	for i, v := range p.looks.Views {
		require.Equal(t, viewJSON{v.Before.Degrees(), v.After.Degrees(), v.Turn.String()}, out.Looks.Views[i])
	}
	for i, d := range p.looks.Dwell {
		require.Equal(t, dwellJSON{d.Still.Degrees(), d.Moves.Degrees(), d.Turn.String()}, out.Looks.Dwell[i])
	}
	require.InDelta(t, p.looks.Foreseen.TDC.Expanded.Degrees(), out.Looks.Together, 1e-12)
	require.InDelta(t, p.looks.ByDwell.Expanded.Degrees(), out.Looks.ByDwell, 1e-12)
	require.InDelta(t, p.looks.ByViews.Expanded.Degrees(), out.Looks.ByViews, 1e-12)
	require.InDelta(t, p.looks.DwellOneWay.Expanded.Degrees(), *out.Looks.DwellOneWay, 1e-12)
	require.InDelta(t, p.looks.Dial.Expanded.Degrees(), out.Looks.Dial, 1e-12)
	require.InDelta(t, p.looks.Stop.Expanded.Degrees(), out.Looks.Stop, 1e-12)
	require.Contains(t, out.Cautions, caution.TurnBack)
	require.Nil(t, planned(t, "mm", 12, false).looks)
}

// One way is the same hidden thing before readings are taken as after.
func TestOneWayHidesTheSame(t *testing.T) {
	p := planned(t, "mm", 12, true)
	require.Contains(t, said(t, p), words.OneWayHides)
	after := p.bench().Finding(finding.OneWayOnly{})
	m := regexp.MustCompile(`a pointer .* flanks`).FindString(words.OneWayHides)
	require.NotEmpty(t, m)
	require.Contains(t, after, m)
	require.NotContains(t, said(t, planned(t, "mm", 12, false)), words.OneWayHides)
}

// Once readings tell TDC the table says where to stop on the job's own scale, at whole
// degrees, or at whole steps of a coarser protractor, each nearest to its place.
func TestPlacesOnTheProtractor(t *testing.T) {
	p := planned(t, "mm", 12, false)
	for _, step := range []float64{0.5, 1, 2} {
		p.job.Setup.Protractor.Step = geometry.Angle(step) * deg
		at := 5.3 * deg
		p.tdc = &at
		table := p.table()
		require.Equal(t, "protractor", table.Header[6])
		require.Contains(t, said(t, p), "to a whole degree, by the readings so far")
		require.NotContains(t, said(t, p), "u(angle)")
		data, err := p.JSON()
		require.NoError(t, err)
		var out planJSON
		require.NoError(t, json.Unmarshal(data, &out))
		for i, point := range p.plan.Points {
			shown, err := strconv.ParseFloat(table.Rows[i][6], 64)
			require.NoError(t, err)
			off := geometry.Angle(shown)*deg - at - point.Angle
			require.LessOrEqual(t, max(off.Signed(), -off.Signed()).Degrees(), max(step, 1)/2+1e-9)
			require.InDelta(t, 0, (geometry.Angle(*out.Readings[i].Protractor-shown) * deg).Signed().Degrees(), 1e-9)
			if step == 2 {
				require.Zero(t, int(shown)%2)
			}
		}
	}
}

// A plan that does not turn back names lash without the cure of turning back.
func TestOneWayPlanDoesNotAdviseTurningBack(t *testing.T) {
	p := planned(t, "mm", 12, true)
	require.Equal(t, adjust.LashSource, budget.Greatest(tdc.Result{Budget: p.plan.Foreseen.Budget}), "or this test shows nothing")
	require.Contains(t, said(t, p), "Most of the rest is lash, which only turning back would cancel.")
	require.NotContains(t, said(t, p), "turn the engine back")
	lash := adjust.Contribution{Source: adjust.LashSource, Angle: 0.2 * deg}
	require.Equal(t, "Most of the uncertainty is lash, which only turning back would cancel.", budget.OneWay(tdc.Result{Budget: []adjust.Contribution{lash}}))
}
