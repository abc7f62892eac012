package planning

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

// planned is the best plan of so many readings, in a job of a unit.
func planned(t *testing.T, unit string, n int, oneWay bool) Plan {
	t.Helper()
	setup := answertest.Setup()
	ground := plan.Ground{Deepest: 10, OneWay: oneWay}
	best, err := plan.Best(setup, ground, n)
	require.NoError(t, err)
	return Plan{job: job.Job{Title: "invented", Unit: unit, Setup: setup}, ground: ground, plan: best}
}

// said is the plan's text on one line.
func said(t *testing.T, p Plan) string {
	t.Helper()
	text, err := form.Of(p).Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// The table has the places in the job's unit, with digits enough that an inch job loses
// nothing: a thousandth of an inch is 0.0254 mm (NIST SP 811, B.6).
func TestTableIsInTheJobsUnit(t *testing.T) {
	mm, in := planned(t, "mm", 12, false), planned(t, "in", 12, false)
	require.Equal(t, "drop, mm", mm.table().Header[3])
	require.Equal(t, []string{"drop, in", "from TDC, deg", "in per deg"}, in.table().Header[3:6])
	require.Len(t, in.table().Rows, 12)
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return x
	}
	for i, row := range in.table().Rows {
		point := in.plan.Points[i]
		require.InDelta(t, point.Drop.Millimetres(), 25.4*number(row[3]), 0.0005*25.4+1e-9)
		require.InDelta(t, point.Slope.MillimetresPerDegree(), 25.4*number(row[5]), 0.00005*25.4+1e-9)
		require.Equal(t, row[2] == "falling", number(row[4]) > 0, "the piston falls after TDC")
		require.Equal(t, row[4], mm.table().Rows[i][4], "degrees are degrees")
	}
	require.NotRegexp(t, `\bmm\b`, said(t, in))
	require.NotRegexp(t, `\bin per deg\b`, said(t, mm))
}

// JSON and CSV are in millimetres whatever the job's unit, and have every digit.
func TestDataIsInMillimetres(t *testing.T) {
	for _, unit := range []string{"mm", "in"} {
		p := planned(t, unit, 12, false)
		data, err := p.JSON()
		require.NoError(t, err)
		var out planJSON
		require.NoError(t, json.Unmarshal(data, &out))
		data, err = p.CSV()
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 13)
		require.Equal(t, "drop_mm", rows[0][0])
		for i, point := range p.plan.Points {
			require.Equal(t, point.Drop.Millimetres(), out.Readings[i].Drop)
			require.Equal(t, point.Slope.MillimetresPerDegree(), out.Readings[i].Slope)
			require.Equal(t, strconv.FormatFloat(point.Drop.Millimetres(), 'g', -1, 64), rows[i+1][0])
			require.Equal(t, out.Readings[i].Turn, rows[i+1][4])
		}
	}
}

// The target is said to be met, or out of reach, or is not spoken of.
func TestTarget(t *testing.T) {
	p := planned(t, "mm", 12, false)
	require.Regexp(t, `^12 readings, 6 turning forward and then 6 turning backward, will agree on TDC`, p.sentence())
	target := 0.2 * geometry.Degree
	p.target, p.reached = &target, true
	require.Regexp(t, `^A standard uncertainty of 0\.2 deg is within reach\. 12 readings`, p.sentence())
	p.reached = false
	require.Regexp(t, `^A standard uncertainty of 0\.2 deg is out of reach of these instruments with up to 40 readings\.`, p.sentence())
}

// The sentence and the budget say one uncertainty: of the same digits, and twice that
// for 95 % (JCGM 100:2008, 6.3.3: a coverage factor of 2 is about 95 %).
func TestUncertaintyIsOne(t *testing.T) {
	p := planned(t, "mm", 12, false)
	require.NotContains(t, p.sentence(), "standard uncertainty") // nobody asked for one
	p.target = new(geometry.Angle)
	found := regexp.MustCompile(`about ± (\S+) deg \(95 %\), a standard uncertainty of (\S+) deg`).FindStringSubmatch(p.sentence())
	require.NotNil(t, found)
	standard, err := strconv.ParseFloat(found[2], 64)
	require.NoError(t, err)
	expanded, err := strconv.ParseFloat(found[1], 64)
	require.NoError(t, err)
	require.InDelta(t, p.plan.Foreseen.AgreeTo.Uncertainty.Degrees(), standard, 0.05)
	require.InDelta(t, 2*p.plan.Foreseen.AgreeTo.Uncertainty.Degrees(), expanded, 0.06)
	square := 0.0
	for _, c := range p.plan.Foreseen.Budget {
		square += c.Angle.Degrees() * c.Angle.Degrees()
	}
	require.InEpsilon(t, p.plan.Foreseen.TDC.Uncertainty.Degrees(), math.Sqrt(square), 1e-9)
	whole := regexp.MustCompile(`own error of (\S+) deg TDC is known to ± (\S+) deg`).FindStringSubmatch(p.sentence())
	require.Equal(t, "0.25", whole[1])
	require.Equal(t, words.WithinDegrees(p.plan.Foreseen.TDC.Expanded), whole[2])
	require.Greater(t, p.plan.Foreseen.TDC.Expanded, p.plan.Foreseen.AgreeTo.Expanded)
	p.job.Setup.Protractor.Error = 0
	require.NotContains(t, p.sentence(), "own error")
}

// Whoever turns back is told of the risk and of the turn between; whoever may not is
// told never to.
func TestTurningBack(t *testing.T) {
	both, one := said(t, planned(t, "mm", 12, false)), said(t, planned(t, "mm", 12, true))
	require.Contains(t, both, "turn back only where the maker allows it")
	require.Contains(t, both, "go on past the last place by some 30 deg before turning back")
	require.Contains(t, both, "come up to it again the same way, where the maker allows turning back")
	require.Contains(t, one, "all turning forward")
	require.Contains(t, one, "come up to it again: never back")
	require.NotContains(t, one, "turn back only")
	require.NotContains(t, one, "before turning back")
	for _, text := range []string{both, one} {
		require.Contains(t, text, "Caution: turn by hand only")
	}
}

// What the plan is worth beside even readings is the ratio of variances, since as many
// readings again halve a variance (JCGM 100:2008, 4.2.3).
func TestGain(t *testing.T) {
	p := planned(t, "mm", 12, false)
	p.plan.Foreseen.AgreeTo.Uncertainty, p.plan.Even.AgreeTo.Uncertainty = 0.2*geometry.Degree, 0.3*geometry.Degree
	require.Contains(t, p.gain(), "would leave 0.300 deg where this plan leaves 0.200: that is worth as much as 125 % more readings.")
	p.plan.Even.AgreeTo.Uncertainty = 0.201 * geometry.Degree
	require.NotContains(t, p.gain(), "worth", "a hundredth is not worth a word")
}

// Turning back is asked for with what it gains; where it is not, what one way cannot show
// is said, and what turning back would have gained where that was compared.
func TestWhatTurningBackGains(t *testing.T) {
	wide := func(degrees float64) adjust.Foreseen {
		return adjust.Foreseen{TDC: gum.Estimate{Expanded: geometry.Angle(degrees) * geometry.Degree}}
	}
	both, one := planned(t, "mm", 12, false), planned(t, "mm", 12, true)
	both.plan.Foreseen, one.plan.Foreseen = wide(0.27), wide(0.34)
	both.other = new(wide(0.34))
	require.Equal(t, "Turning back and reading both ways: ± 0.27 deg instead of 0.34, with as many readings.", both.turning())
	require.Equal(t, "Turned one way, a pointer or a gauge that moved between the two flanks cannot be seen.", one.turning())
	one.both = new(wide(0.32))
	require.Equal(t, "Turning back is not asked for: as many readings both ways leave ± 0.32 deg instead of 0.34. "+
		"Turned one way, a pointer or a gauge that moved between the two flanks cannot be seen.", one.turning())
	both.other = nil // no places for as many one way
	require.Empty(t, both.turning())
}
