package knowngood_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/job/source"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
)

var (
	words = rapid.StringMatching(`[^\pC\pZ]([^\pC\pZ]{0,9} [^\pC\pZ]{1,9})?`)
	days  = rapid.StringMatching(`(19|20)[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|1[0-9]|2[0-8])`)
	// millionths of a degree, which the file keeps
	angles = func(least, most int) *rapid.Generator[geometry.Angle] {
		return rapid.Custom(func(t *rapid.T) geometry.Angle {
			return geometry.Angle(rapid.IntRange(least*1e6, most*1e6).Draw(t, "millionths")) * 1e-6 * geometry.Degree
		})
	}
)

func drawHealthy(t *rapid.T, number int) mark.Healthy {
	h := mark.Healthy{
		Name: fmt.Sprint(words.Draw(t, "name"), number), On: words.Draw(t, "on"), Against: words.Draw(t, "against"),
		Measured: rapid.Bool().Draw(t, "measured"), TwoTurns: rapid.Bool().Draw(t, "two turns"),
		Angle: angles(-300, 300).Draw(t, "angle"), OfTDC: angles(0, 1).Draw(t, "of TDC"), Scatter: angles(0, 2).Draw(t, "scatter"),
		DegreesOfFreedom: rapid.SampledFrom([]float64{1, 2.5, 729413.906651, math.Inf(1)}).Draw(t, "degrees of freedom"),
		Engines:          rapid.IntRange(1, 9).Draw(t, "engines"), HasLimit: rapid.Bool().Draw(t, "has limit"),
	}
	h.Uncertainty = h.OfTDC + angles(1, 3).Draw(t, "own")
	if h.HasLimit {
		h.Limit = angles(0, 5).Draw(t, "limit")
	}
	return h
}

// The mean of several engines' lobe comes back as it was written, and one of one engine
// without what there is of several only.
func TestKnownGoodLobeComesBack(t *testing.T) {
	const deg = geometry.Degree
	curve := healthy.Curve{Top: 9.2, Scale: 0.008, Zero: 0.01, Shared: 0.125 * deg, Engines: 3, Scatter: 0.5 * deg, Freedom: 2}
	for i, angle := range []float64{-12, 20, 60, 180, 200, 230} {
		curve.Points = append(curve.Points, lobe.Point{Angle: geometry.Angle(angle) * deg, Lift: 1.5, Opens: i < 3})
		curve.Doubts = append(curve.Doubts, 0.25*deg)
	}
	back := func(c healthy.Curve) (healthy.Kept, string) {
		wrote := knowngood.File{Lobes: []healthy.Kept{{Name: "inlet lobe", On: "inlet cam", Valve: lobe.Inlet, Limit: 2 * deg, HasLimit: true, Curve: c}}}
		read, err := knowngood.Parse("good.toml", wrote.Text(""))
		require.NoError(t, err)
		return read.Lobes[0], string(wrote.Text(""))
	}
	several, _ := back(curve)
	require.Equal(t, []any{3, 2.0, 2 * deg}, []any{several.Engines, several.Freedom, several.Limit})
	require.InDelta(t, 0.5, several.Scatter.Degrees(), 1e-6)
	require.Len(t, several.Points, 6)
	curve.Engines, curve.Scatter, curve.Freedom = 1, 0, math.Inf(1)
	one, text := back(curve)
	require.Equal(t, []any{1, math.Inf(1), geometry.Angle(0)}, []any{one.Engines, one.Freedom, one.Scatter})
	require.NotContains(t, text, "engines")
	require.NotContains(t, text, "scatter")
	require.NotContains(t, text, "freedom")
}

// What is written is read again, to the file's millionth of a degree.
func TestKnownGoodComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wrote := knowngood.File{File: "good.toml"}
		for i := range rapid.IntRange(1, 3).Draw(t, "engines") {
			wrote.From = append(wrote.From, knowngood.Condition{
				Title: words.Draw(t, "title"), Date: days.Draw(t, "date"), Engine: words.Draw(t, "engine"),
				Protractor: words.Draw(t, "protractor"), Gauge: words.Draw(t, "gauge"), Readings: 12 + i, TDC: angles(0, 1).Draw(t, "TDC"),
			})
			wrote.Marks = append(wrote.Marks, drawHealthy(t, i))
		}
		read, err := knowngood.Parse("good.toml", wrote.Text(""))
		require.NoError(t, err, "%s", wrote.Text(""))
		require.Len(t, read.From, len(wrote.From))
		require.Len(t, read.Marks, len(wrote.Marks))
		for i, h := range wrote.Marks {
			const rounding = 1e-6 * math.Pi / 180
			got := read.Marks[i]
			for _, pair := range [][2]*geometry.Angle{
				{&h.Angle, &got.Angle}, {&h.Uncertainty, &got.Uncertainty}, {&h.OfTDC, &got.OfTDC}, {&h.Scatter, &got.Scatter}, {&h.Limit, &got.Limit},
			} {
				require.InDelta(t, float64(*pair[0]), float64(*pair[1]), rounding, h.Name)
				*pair[1] = *pair[0]
			}
			require.Equal(t, h, got)
			require.InDelta(t, float64(wrote.From[i].TDC), float64(read.From[i].TDC), rounding)
			read.From[i].TDC = wrote.From[i].TDC
		}
		require.Equal(t, wrote.From, read.From)
	})
}

// A known-good file that somebody edited is refused with line, column and what
// was expected.
func TestRefuseKnownGood(t *testing.T) {
	const head = "[[mark]]\nname = \"pin\"\non = \"flywheel\"\n"
	for _, c := range []struct{ text, says string }{
		{"[[cylinder]]\nnumber = 1\n", "good.toml:1:1: this is a job file"},
		{"", "good.toml:1:1: expected a mark"},
		{head + "should_be = 0\n", "good.toml:1:1: [[mark]]: standard_uncertainty is missing"},
		{"[[mark]]\non = \"flywheel\"\n", "good.toml:1:1: [[mark]]: name is missing"},
		{"[[mark]]\nname = \"pin\"\n", "good.toml:1:1: [[mark]]: on is missing"},
		{head + "standard_uncertainty = 0.1\n", "good.toml:1:1: [[mark]]: expected either should_be"},
		{head + "standard_uncertainty = 0.1\noff = 1\nshould_be = 1\n", "good.toml:1:1: [[mark]]: expected either should_be"},
		{head + "should_be = 0\nstandard_uncertainty = 0\n", "good.toml:5:24: standard_uncertainty = 0: expected degrees above 0"},
		{head + "should_be = 0\nstandard_uncertainty = 0.1\nof_tdc = 0.2\n", "good.toml:6:10: of_tdc = 0.2: expected a part of standard_uncertainty, no more than 0.1"},
		{head + "should_be = 0\nstandard_uncertainty = 0.1\n" + head + "should_be = 0\nstandard_uncertainty = 0.1\n", "good.toml:7:8: name = \"pin\": another mark has this name"},
		{head + "should_be = x\n", "good.toml:4:13"},
		{head + "off = 1\nin = \"teeth\"\n", "good.toml:5:6: in = \"teeth\": expected \"crank degrees\""},
		{head + "should_bee = 1\n", "good.toml:4:1: should_bee: unknown key; did you mean \"should_be\"?"},
		{head + "should_be = 0\nstandard_uncertainty = 0.1\nengines = 0\n", "good.toml:6:11: engines = 0: expected a whole number"},
		{head + "should_be = 0\nstandard_uncertainty = 0.1\ndegrees_of_freedom = 0\n", "good.toml:6:22: degrees_of_freedom = 0: expected a number of 1 or more, such as 4"},
	} {
		_, err := knowngood.Parse("good.toml", []byte(c.text))
		require.ErrorContains(t, err, c.says, c.text)
		require.IsType(t, &source.Error{}, err)
	}
	_, err := knowngood.Open("none.toml")
	require.EqualError(t, err, "none.toml: not found: check the name")
}

// A condition is a job's when all that was said of the measuring is alike, and its TDC was
// as sure to a millionth of a degree, which is what the file keeps.
func TestConditionOf(t *testing.T) {
	j := job.Job{Title: "a", Date: "2024-05-01", Setup: evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}}
	result := tdc.Result{TDC: gum.Estimate{Uncertainty: 0.04 * geometry.Degree}}
	kept := knowngood.ConditionOf(j, result)
	require.True(t, kept.Of(j, result))
	result.TDC.Uncertainty += 4e-7 * geometry.Degree
	require.True(t, kept.Of(j, result))
	result.TDC.Uncertainty += 1e-6 * geometry.Degree
	require.False(t, kept.Of(j, result))
	j.Title = "b"
	require.False(t, kept.Of(j, tdc.Result{TDC: gum.Estimate{Uncertainty: 0.04 * geometry.Degree}}))
}
