package find

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

// answer is a small answer with a mark of a name.
func answer(t *testing.T, name string) Answer {
	t.Helper()
	setup := answertest.Setup()
	result := answertest.Result(t, setup, 0)
	marks, err := mark.Judge(setup, result, mark.Drive{}, []mark.Mark{
		{Name: name, On: "crank", Read: []geometry.Angle{3 * geometry.Degree}, Limit: geometry.Degree, HasLimit: true},
		{Name: "unjudged", On: "crank", Read: []geometry.Angle{0}},
	})
	require.NoError(t, err)
	return Answer{All: found.All{Job: job.Job{Title: name, Setup: setup}, Results: []tdc.Result{result}, Marks: marks}, EveryReading: true}
}

// lobesOf is an inlet lobe of an answer's engine, by the name of its mark: that of lobes.md 5,
// its card half a degree early.
func lobesOf(f Answer, name string) []lobe.Measured {
	l := lobe.Lobe{Name: name, On: "cam", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(),
		Card: lobe.Card{Lift: 1, HasEvents: true, Opens: 4 * geometry.Degree, Closes: 245 * geometry.Degree}}
	for i, r := range [][2]float64{{0, 0.76}, {5, 1.03}, {9, 1.30}, {28, 3}, {58.5, 6.03}, {125, 9.20}, {191.5, 5.98}, {221, 3}, {240.5, 1.31}, {245, 1}, {249, 0.76}} {
		l.Readings = append(l.Readings, lobe.Reading{Angle: geometry.Angle(r[0]) * geometry.Degree, Lift: geometry.Length(r[1]), Turn: evidence.Forward, Line: i + 2, File: "l.csv"})
	}
	return []lobe.Measured{lobe.Measure(f.Job.Setup.Protractor, lobe.From{Result: f.Results[0]}, l)}
}

// Text fits 80 columns but where a name itself does not, and holds no control
// characters.
func TestTextFits(t *testing.T) {
	for _, name := range answertest.Hostile {
		f := answer(t, name)
		f.Marks[0].Verdict = mark.TooClose
		text, err := f.Text(form.Widest)
		require.NoError(t, err)
		for line := range strings.Lines(string(text)) {
			line = strings.TrimSuffix(line, "\n")
			require.NotContains(t, line, "\x1b")
			require.NotContains(t, line, "\t")
			require.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%q", line)
		}
	}
}

// In Markdown every row of a table has as many cells as its head, and a name
// starts nothing.
func TestMarkdownHolds(t *testing.T) {
	for _, name := range answertest.Hostile {
		text, err := answer(t, name).Markdown()
		require.NoError(t, err)
		require.NotContains(t, string(text), "<script")
		cells := 0
		for line := range strings.Lines(string(text)) {
			if !strings.HasPrefix(line, "|") {
				cells = 0
				continue
			}
			n := strings.Count(strings.ReplaceAll(line, `\|`, ""), "|")
			if cells > 0 {
				require.Equal(t, cells, n, "%q", line)
			}
			cells = n
		}
	}
}

// In CSV no cell starts a formula, and every row has the same cells; every number
// comes back as it was.
func TestCSVIsInert(t *testing.T) {
	for _, name := range answertest.Hostile {
		f := answer(t, name)
		text, err := f.CSV()
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
		require.NoError(t, err)
		for _, row := range rows[1:] {
			require.NotContains(t, "=+@\t\r", row[2][:1], "%q", row[2])
		}
		require.Equal(t, "tdc", rows[1][0])
		require.Equal(t, form.Digits(f.Results[0].TDC.Uncertainty.Degrees()), rows[1][4])
	}
}

// JSON keeps every digit, names as they are, and null for what is not known.
func TestJSON(t *testing.T) {
	for _, name := range answertest.Hostile {
		f := answer(t, name)
		text, err := f.JSON()
		require.NoError(t, err)
		var out struct {
			Title     string
			Cylinders []struct {
				TDC struct {
					Protractor float64    `json:"protractor_deg"`
					Interval   [2]float64 `json:"interval95_deg"`
					Degrees    *float64   `json:"degrees_of_freedom"`
				}
				Budget []struct {
					Contribution float64 `json:"contribution_deg"`
				}
				Readings []struct {
					Depth float64 `json:"depth_mm"`
				}
			}
			Marks []struct {
				Name    string
				Off     float64  `json:"off_deg"`
				Limit   *float64 `json:"limit_deg"`
				Verdict *string
			}
			Throws []any
		}
		require.NoError(t, json.Unmarshal(text, &out))
		require.Equal(t, name, out.Title)
		require.Equal(t, name, out.Marks[0].Name)
		require.Equal(t, "outside", *out.Marks[0].Verdict)
		require.Nil(t, out.Marks[1].Limit)
		require.Nil(t, out.Marks[1].Verdict)
		require.Nil(t, out.Cylinders[0].TDC.Degrees)
		require.NotNil(t, out.Throws)
		require.InDelta(t, 2*f.Results[0].TDC.Expanded.Degrees(), out.Cylinders[0].TDC.Interval[1]-out.Cylinders[0].TDC.Interval[0], 1e-9)
		require.Equal(t, float64(f.Results[0].Readings[0].Depth), out.Cylinders[0].Readings[0].Depth)
	}
}

// A number gets the digits that its uncertainty deserves.
func TestDecimals(t *testing.T) {
	for uncertainty, want := range map[float64]int{0.043: 2, 0.019: 3, 0.36: 1, 1.2: 1, 3.4: 1, 0.2: 2, 12: 0, 0: 2, math.Inf(1): 2} {
		require.Equal(t, want, words.Decimals(uncertainty), "%v", uncertainty)
	}
	require.Equal(t, "0.0", words.Fixed(-0.04, 1))
	require.Equal(t, "+0.1", words.Signed(0.1, 1))
	require.Equal(t, "0.0", words.Signed(0.04, 1))
	require.Equal(t, "-0.1", words.Signed(-0.1, 1))
	require.Equal(t, "0.5", words.Plain(0.5))
}

// Each verdict has its sentence.
func TestMarkSentences(t *testing.T) {
	f := mark.Judged{Mark: mark.Mark{Name: "notch", Limit: geometry.Degree, HasLimit: true}}
	f.Angle, f.Expanded = -2*geometry.Degree, 0.3*geometry.Degree
	for verdict, says := range map[mark.Verdict]string{
		mark.Within: ", within the limit of 1 deg", mark.Outside: ", outside the limit of 1 deg.", mark.TooClose: "to call",
		mark.NoLimitSaid: "no limit was given",
	} {
		f.Verdict = verdict
		require.Contains(t, words.Bench{}.Mark(f), "notch: 2.00 ± 0.30 deg early")
		require.Contains(t, words.Bench{}.Mark(f), says)
	}
}

// Without two flanks there is no equal drop, and that is said.
func TestAgreementInWords(t *testing.T) {
	require.Contains(t, agreement(tdc.Result{}), "has no answer")
	fine := tdc.Result{Agreement: &tdc.Agreement{Difference: 0.01 * geometry.Degree, Limit: 0.05 * geometry.Degree}}
	require.Contains(t, agreement(fine), "They agree")
	fine.Agreement.Difference = -0.2 * geometry.Degree
	require.Contains(t, agreement(fine), "-0.20 deg, and up to 0.05 could be chance. They disagree")
}
