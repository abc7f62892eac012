// Package answertest has what the tests of several answers share: an invented engine
// whose readings are exact, every scale that a protractor may have, names that a page,
// a table or a spreadsheet might take for its own, and one check of all four forms that
// an answer is printed in.
package answertest

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// Hostile are names that a page, a table or a spreadsheet might take for its own, one
// too long for a line of a table among them.
var Hostile = []string{
	"=HYPERLINK(\"x\")", "+1+1", "@SUM(A1)", "-2|3", "a|b", "<script>alert(1)</script>", "*bold* `code` [x](y) # h", "tab\there\x1b[31m",
	"שלום", "🔧 pin", "line\nbreak", "the cam lock plate of the inlet cam on the gearbox side",
}

// Setup is an invented engine of 86 mm stroke and 146 mm rod, read with common
// instruments.
func Setup() evidence.Setup {
	return evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
}

// drop is how far its piston is down, mm, by the closed form of a crank and rod without
// offset, written here by itself.
func drop(degrees float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return 43*(1-cos) + 146 - math.Sqrt(146*146-43*sin*43*sin)
}

// Result is what exact readings tell of that engine with its TDC at a crank angle, deg,
// from the protractor's zero.
func Result(t *testing.T, setup evidence.Setup, at float64) tdc.Result {
	t.Helper()
	var read []evidence.Reading
	for i, u := range []float64{-28, -22, -17, -12, -8, 8, 12, 17, 22, 28} {
		read = append(read, evidence.Reading{
			Angle: geometry.Angle(at+u) * geometry.Degree, Depth: geometry.Length(drop(u)), Turn: evidence.Forward, Line: i + 2, File: "r.csv",
		})
	}
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: read})
	require.NoError(t, err)
	return result
}

// Scales is every way that a protractor's numbers come round, grow and are written.
func Scales() (list []evidence.Protractor) {
	for _, scale := range []evidence.Scale{evidence.Full, evidence.Halves, evidence.Quadrants} {
		for _, sense := range []evidence.Sense{evidence.With, evidence.Against} {
			p := evidence.DefaultProtractor()
			p.Scale, p.Sense = scale, sense
			list = append(list, p)
			if p.Scale == evidence.Halves {
				p.Sides = true
				list = append(list, p)
			}
		}
	}
	return list
}

// NearWrap is crank angles about the protractor's zero and about half a turn from
// it, where one scale or another comes round, deg.
func NearWrap() (list []float64) {
	for _, about := range []float64{0, 180} {
		for _, off := range []float64{-0.01, -0.0009, -0.0004, -1e-9, 0, 1e-9, 0.0004, 0.0009, 0.01} {
			list = append(list, about+off)
		}
	}
	return list
}

// Falls tells whether a protractor's numbers fall as the crank turns in the running
// direction; where each says its side they do not.
func Falls(p evidence.Protractor) bool {
	return p.Sense == evidence.Against && p.Scale != evidence.Quadrants && !p.Sides
}

// Printed is what a command may print.
type Printed = form.Printable

// Holds proves the forms of an answer whose first mark has a name: text fits a terminal
// of 80 columns and has no control characters, Markdown holds no tag, every row of CSV
// has its cells and no formula, and JSON is JSON that keeps the name.
func Holds(t *testing.T, name string, p Printed) {
	t.Helper()
	text, err := p.Text(form.Widest)
	require.NoError(t, err)
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSuffix(line, "\n")
		require.NotContains(t, line, "\x1b")
		require.NotContains(t, line, "\t")
		require.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%q", line)
	}
	text, err = p.Markdown()
	require.NoError(t, err)
	require.NotContains(t, string(text), "<script")
	text, err = p.CSV()
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1)
	for _, row := range rows[1:] {
		for _, cell := range row {
			require.NotRegexp(t, `^[=+@\t\r]|^-[^0-9]`, cell)
		}
	}
	text, err = p.JSON()
	require.NoError(t, err)
	var out struct{ Marks []struct{ Name string } }
	require.NoError(t, json.Unmarshal(text, &out))
	require.Equal(t, name, out.Marks[0].Name)
}
