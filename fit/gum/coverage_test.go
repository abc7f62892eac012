package gum

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// JCGM 101:2008, 9.2: sums of four quantities of estimate zero, symmetric 95 %
// intervals. Printed to 0.01 (tables 2, 3) and 0.1 (table 4).
func TestExpandedAgainstSupplement1(t *testing.T) {
	inf := math.Inf(1)
	normal := Spread{Normal: []Component{{1, inf}, {1, inf}, {1, inf}, {1, inf}}}
	require.InDelta(t, 2, normal.Standard(), 1e-12)
	require.InDelta(t, 3.92, normal.Expanded(), 0.005)
	ruled := Spread{Rectangular: []float64{1, 1, 1, 10}}
	require.InDelta(t, 10.1, ruled.Standard(), 0.05)
	require.InDelta(t, 17.0, ruled.Expanded(), 0.05)
	// Four alike: the exact half-width is 2 sqrt 3 (2 - (3/5)^(1/4)); three of them
	// counted as normal is between it and 3.92, which all four as normal would be.
	alike := Spread{Rectangular: []float64{1, 1, 1, 1}}
	exact := 2 * math.Sqrt(3) * (2 - math.Pow(3./5, 0.25))
	require.Greater(t, alike.Expanded(), exact)
	require.Less(t, alike.Expanded(), 3.92)
}

// A sum of a normal and a rectangular error, its 95 % half-width held against the
// rectangle's quantile at one end, the normal's at the other, and between them
// against the distribution summed in small steps.
func TestHalf95(t *testing.T) {
	require.InDelta(t, 0.95, half95(1e-9, 1), 1e-6)
	require.InDelta(t, 1.959964, half95(1, 1e-9), 1e-6)
	for _, half := range []float64{0.04, 0.2, 1, 3, 20} {
		x := half95(1, half)
		const n = 100000
		within := 0.0
		for i := range n {
			at := half * (2*(float64(i)+0.5)/n - 1)
			within += (math.Erf((x-at)/math.Sqrt2) + math.Erf((x+at)/math.Sqrt2)) / 2 / n
		}
		require.InDelta(t, 0.95, within, 2e-6, "half %v", half)
	}
}

// GUM table G.2, the column for 95 %, to its two decimals; and 100 degrees of
// freedom to three.
func TestStudentTable(t *testing.T) {
	for degrees, want := range map[float64]float64{
		1: 12.71, 2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 6: 2.45, 7: 2.36, 8: 2.31, 9: 2.26, 10: 2.23, 12: 2.18, 15: 2.13,
		20: 2.09, 25: 2.06, 30: 2.04, 35: 2.03, 40: 2.02, 45: 2.01, 50: 2.01,
	} {
		require.InDelta(t, want, Student95(degrees), 0.00501, "%v degrees", degrees)
	}
	require.InDelta(t, 1.984, Student95(100), 0.000501)
	require.InDelta(t, 1.960, Student95(math.Inf(1)), 0.000501)
}

// GUM H.1, the end gauge: 25 nm known with 18 degrees of freedom; the comparator's
// 5.8 with 24, 3.9 with 5 and 6.7 with 8, together 9.7 with 25.6; the thermal terms
// 2.9 and 16.6, with 50 and 2 degrees. Together 32 with 16.7.
func TestWelchSatterthwaiteH1(t *testing.T) {
	comparator := Spread{Normal: []Component{{13 / math.Sqrt(5), 24}, {10 / 2.57, 5}, {20. / 3, 8}}}
	require.InDelta(t, 9.7, comparator.Standard(), 0.05)
	require.InDelta(t, 25.6, comparator.Degrees(), 0.05)
	whole := Spread{Normal: append(comparator.Normal, Component{25, 18}, Component{2.886751346, 50}, Component{16.59882024, 2})}
	require.InDelta(t, 31.66, whole.Standard(), 0.005)
	require.InDelta(t, 16.7, whole.Degrees(), 0.05)
}

// Scatter never narrows: a component with few degrees widens the interval, and a
// rectangular one beside it only adds.
func TestExpandedGrows(t *testing.T) {
	sure := Spread{Normal: []Component{{1, math.Inf(1)}}}
	few := Spread{Normal: []Component{{1, 4}}}
	require.InDelta(t, 2.776, few.Expanded(), 0.0005) // table G.2, 2.78
	require.Greater(t, few.Expanded(), sure.Expanded())
	more := Spread{Normal: few.Normal, Rectangular: []float64{0.5, 0.3}}
	require.Greater(t, more.Expanded(), few.Expanded())
	require.InDelta(t, 4*math.Pow(more.Standard(), 4), more.Degrees(), 1e-9)
	require.True(t, math.IsInf(Spread{Rectangular: []float64{1}}.Degrees(), 1))
}
