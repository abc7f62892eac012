package find

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

const examples = "../../../../examples/diagnostician/"

func opened(t *testing.T, file string) job.Job {
	t.Helper()
	j, err := job.Open(file)
	require.NoError(t, err)
	return j
}

// The diagnostician's example: one cylinder, four marks of which two are outside, and
// --strict objects; against a known-good file its figures take the nominals' place.
func TestOfTheExample(t *testing.T) {
	f, err := Of(opened(t, examples+"job.toml"))
	require.NoError(t, err)
	require.Len(t, f.Results, 1)
	require.Empty(t, f.Throws)
	require.Len(t, f.Marks, 4)
	require.Len(t, f.Called(mark.Outside), 2)
	require.True(t, f.Strict())
	require.Nil(t, f.Against)

	same, err := Against(opened(t, examples+"job.toml"), "")
	require.NoError(t, err)
	require.Equal(t, f.Headline(), same.Headline())

	held, err := Against(opened(t, examples+"job.toml"), examples+"known-good.toml")
	require.NoError(t, err)
	require.NotNil(t, held.Against)
	nominals := func(f Answer) (list []float64) {
		for _, m := range f.Marks {
			list = append(list, m.Nominal.Degrees())
		}
		return list
	}
	require.NotEqual(t, nominals(f), nominals(held))
	require.Contains(t, told(t, held), "The figures to compare with are what 2 healthy engines showed (known-good.toml)")

	after, err := Of(opened(t, examples+"after.toml"))
	require.NoError(t, err)
	require.False(t, after.Strict())
}

// The columns of CSV are what their names say, and JSON says the same of marks, throws
// and what they point to.
func TestDataIsWhatWasFound(t *testing.T) {
	f := rich(t)
	text, err := f.CSV()
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"kind", "cylinder", "name", "value_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg", "limit_deg", "verdict", "readings"}, rows[0])
	kinds := map[string]int{}
	for _, row := range rows[1:] {
		kinds[row[0]]++
	}
	require.Equal(t, map[string]int{"tdc": 4, "method": 8, "mark": 3, "mark measured": 1, "points to": 1,
		"lobe opens": 1, "lobe closes": 1, "lobe duration": 1, "lobe centre": 1}, kinds)
	first := f.Results[0]
	number := func(text string) (x float64) {
		require.NoError(t, json.Unmarshal([]byte(text), &x))
		return x
	}
	require.InDelta(t, first.TDC.Uncertainty.Degrees(), number(rows[1][4]), 1e-12)
	require.InDelta(t, first.TDC.Expanded.Degrees(), number(rows[1][5]), 1e-12)

	text, err = f.JSON()
	require.NoError(t, err)
	var out struct {
		Cylinders []struct {
			GoBack *struct {
				Before float64 `json:"before_mm"`
			} `json:"go_back"`
			Dwell struct {
				Resolved float64 `json:"resolved_mm"`
			}
		}
		Throws []struct {
			Off          float64 `json:"off_deg"`
			CrownOff     float64 `json:"crown_off_mm"`
			Verdict      *string
			CrownVerdict *string `json:"crown_verdict"`
		}
		Marks []struct {
			Name    string
			Verdict *string
			Off     *float64 `json:"off_deg"`
		}
		Explanations []struct {
			Slips []struct{ Joints []string }
			Chi   float64 `json:"chi2"`
		}
		TellApart  []string `json:"tell_apart"`
		Unmeasured []string
		Headline   string
		Cautions   []string
	}
	require.NoError(t, json.Unmarshal(text, &out))
	g, ok := first.GoBack(10 * geometry.Degree)
	require.True(t, ok)
	require.InDelta(t, g.Before.Value, out.Cylinders[0].GoBack.Before, 1e-12)
	require.InDelta(t, 0.12, out.Cylinders[0].Dwell.Resolved, 1e-12)
	require.InDelta(t, 3, out.Throws[1].Off, 1e-12)
	require.Equal(t, []string{"outside", "within"}, []string{*out.Throws[1].Verdict, *out.Throws[1].CrownVerdict})
	require.InDelta(t, -1.2, out.Throws[3].CrownOff, 1e-12)
	require.Equal(t, "outside", *out.Throws[3].CrownVerdict)
	require.Nil(t, out.Marks[3].Off, "only measured")
	require.Equal(t, "too close to call", *out.Marks[2].Verdict)
	require.Equal(t, []string{"flywheel on crank"}, out.Explanations[0].Slips[0].Joints)
	require.InDelta(t, 0.2, out.Explanations[0].Chi, 1e-12)
	require.Equal(t, looks(f.Diagnosis.TellApart), out.TellApart)
	require.Equal(t, f.Headline(), out.Headline)
	require.NotEmpty(t, out.Cautions)
}

// The midpoints' pattern is said with what it points to.
func TestTrendInWords(t *testing.T) {
	both := tdc.Result{Readings: []adjust.Judged{{Reading: evidence.Reading{Turn: evidence.Forward}}, {Reading: evidence.Reading{Turn: evidence.Backward}}}}
	lash := func(mm float64, r tdc.Result) tdc.Result {
		r.Trend = halve.Trend{Pattern: halve.LikeLash, Lash: gum.Measured{Value: mm, Uncertainty: 0.03}}
		return r
	}
	f := Answer{}
	require.Contains(t, f.trend(lash(0.2, both)), "as 0.20 ± 0.06 mm of lash makes them; read both ways, it cancels")
	require.Contains(t, f.trend(lash(0.2, tdc.Result{})), "turn back and read again, where that is safe")
	require.True(t, turnsBack(lash(0.2, tdc.Result{})), "and so is the caution for turning back")
	require.False(t, turnsBack(lash(0.2, both)))
	require.Contains(t, f.trend(lash(-0.2, both)), "turned the other way than stated. Check the turn of each reading")
	for pattern, says := range map[halve.Pattern]string{
		halve.Flat: "are the same at every drop", halve.OneLevel: "at the depth of line 7 stands apart", halve.NoPattern: "scatter in no pattern",
	} {
		require.Contains(t, f.trend(tdc.Result{Trend: halve.Trend{Pattern: pattern, Line: 7}}), says)
	}
	require.Empty(t, f.trend(tdc.Result{Trend: halve.Trend{Pattern: halve.TooFewToSay}}))
}

// The scale is compared with 1 only where it is known to a twentieth; a slant of 15 deg
// makes 1/cos 15 deg = 1.035.
func TestScaleInWords(t *testing.T) {
	of := func(scale, u float64) tdc.Result {
		return tdc.Result{Readings: make([]adjust.Judged, 1), Scale: gum.Measured{Value: scale, Uncertainty: u}}
	}
	require.Contains(t, scaleCheck(of(1.001, 0.005)), "The gauge shows 1.001 ± 0.010 times the travel computed from stroke and rod, as it should.")
	require.Contains(t, scaleCheck(of(1/math.Cos(15*math.Pi/180), 0.005)), "a slant of 15 deg")
	require.Contains(t, scaleCheck(of(0.95, 0.005)), "a crown that slopes under the gauge")
	require.Empty(t, scaleCheck(of(1.04, 0.03)))
	untold := of(1.04, 0.005)
	untold.CannotTell = finding.TooVague{}
	require.Empty(t, scaleCheck(untold))
}
