package halve

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// halved is the answer of pairs of crank angles, deg.
func halved(t *testing.T, p evidence.Protractor, angles ...float64) Halve {
	t.Helper()
	h := Halve{protractor: p}
	for i := 0; i < len(angles); i += 2 {
		h.pairs = append(h.pairs, halve.Pair{First: geometry.Angle(angles[i]) * geometry.Degree, Second: geometry.Angle(angles[i+1]) * geometry.Degree})
	}
	var err error
	h.Halved, err = halve.Pairs(p, h.pairs)
	require.NoError(t, err)
	return h
}

// said is the answer's text on one line.
func said(t *testing.T, h Halve) string {
	t.Helper()
	text, err := form.Of(h).Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// Half-way, by arithmetic, as each scale shows it: (348.6 + 371.8)/2 = 360.2.
func TestHalfWayOnEveryScale(t *testing.T) {
	for _, p := range answertest.Scales() {
		want := "0.2"
		switch {
		case p.BySide():
			want = "0.2 ATDC"
		case p.Sense == evidence.Against && p.Scale == evidence.Full:
			want = "359.8"
		case p.Sense == evidence.Against:
			want = "-0.2"
		}
		require.Contains(t, said(t, halved(t, p, -11.4, 11.8)), "TDC is at "+want+" ± 0.4 deg on the protractor (95 %", "wraps %d counts %d", p.Scale, p.Sense)
	}
}

// One pair is said without a table; of several each has its midpoint with a digit more
// than TDC.
func TestPairs(t *testing.T) {
	p := evidence.DefaultProtractor()
	require.NotContains(t, said(t, halved(t, p, -11.4, 11.8)), "half-way")
	text := said(t, halved(t, p, -11.4, 11.8, -10, 10))
	require.Contains(t, text, "Pair first, deg second, deg half-way, deg")
	require.Contains(t, text, "1 348.60 11.80 0.20")
	require.Contains(t, text, "2 350.00 10.00 0.00")
}

// Why the midpoints lie apart is said for each way that they may, and what to do.
func TestApart(t *testing.T) {
	p := evidence.DefaultProtractor()
	for _, c := range []struct {
		name   string
		angles []float64
		says   []string
		not    []string
	}{
		{"one pair turned one way", []float64{-11.4, 11.8}, []string{"the protractor's own error alone", "lash makes equal drops come late"}, []string{"apart"}},
		{"midpoints that agree", []float64{-11.4, 11.8, -10, 10.2}, []string{"the protractor's own error alone"}, []string{"apart"}},
		{"turned both ways, late forward", []float64{-11, 13, 12, -14}, []string{"Turned forward the midpoints come 1.0 deg late, turned back as much early", "it cancels"}, []string{"Turned one way only"}},
		{"turned both ways, early forward", []float64{-13, 11, 14, -12}, []string{"lash does the opposite", "in the order it was read, and check --counts"}, nil},
		{"turned both ways, agreeing", []float64{-12, 12, 12, -12}, []string{"Turned forward and turned back the midpoints agree."}, nil},
		{"turned both ways, within the protractor's error", []float64{-17.61, 3.65, 3.01, -18.25},
			[]string{"Turned forward the midpoints come 0.3 deg late, turned back as much the other way. The protractor's own error alone can do that."}, []string{"agree"}},
		{"turned both ways, a little early forward", []float64{-12.2, 11.8, 12.2, -11.8}, []string{"Turned forward the midpoints come 0.2 deg early"}, []string{"lash does"}},
		{"two pairs far apart", []float64{-11, 11, -11, 15}, []string{"The midpoints lie 2.0 deg apart", "Type"}, nil},
		{"two lots", []float64{-11, 11, -10, 10, -11, 15, -10, 14}, []string{"The midpoints fall into two groups, 2.0 deg apart.", "between the midpoints"}, nil},
		{"one of several", []float64{-11, 11, -10, 10, -9, 9, -8, 8, -7, 13}, []string{"pair 5 farthest from the others: read it again"}, nil},
	} {
		text := said(t, halved(t, p, c.angles...))
		for _, says := range c.says {
			require.Contains(t, text, says, c.name)
		}
		for _, not := range c.not {
			require.NotContains(t, text, not, c.name)
		}
		require.Contains(t, text, "If the angles are of the piston's lowest point, this is BDC.", c.name)
		require.Contains(t, text, caution.With(caution.Stop, caution.Back), c.name)
	}
}

// Every form has the same numbers, and what was typed comes back as it was typed.
func TestFormsAgree(t *testing.T) {
	h := halved(t, evidence.DefaultProtractor(), -11.4, 11.8, 12.2, -11.2)
	data, err := h.JSON()
	require.NoError(t, err)
	var out halveJSON
	require.NoError(t, json.Unmarshal(data, &out))
	require.Equal(t, 348.6, out.Pairs[0].First)
	require.Equal(t, 11.8, out.Pairs[0].Second)
	require.InDelta(t, 0.2, out.Pairs[0].Middle, 1e-9)
	require.Equal(t, "tdc", out.Kind)
	require.Nil(t, out.Centre)
	require.InDelta(t, *out.TDC, (out.Interval[0]+out.Interval[1])/2, 1e-9)
	require.NotNil(t, out.Lag, "turned both ways")
	data, err = h.CSV()
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 4)
	require.Equal(t, []string{"pair", "348.6", "11.8"}, rows[1][:3])
	require.Equal(t, "tdc", rows[3][0])
	data, err = halved(t, evidence.DefaultProtractor(), -11.4, 11.8).JSON()
	require.NoError(t, err)
	require.Contains(t, string(data), `"lag_deg": null`)
	md, err := form.Of(h).Markdown()
	require.NoError(t, err)
	require.Contains(t, string(md), "| Pair ")
}
