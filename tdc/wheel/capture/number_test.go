package capture

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The scanner reads every number to the bit that strconv does.
func TestNumberIsStrconvs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[+-]?([0-9]{1,25}(\.[0-9]{0,25})?|\.[0-9]{1,25})([eE][+-]?[0-9]{1,3})?`).Draw(t, "number")
		want, err := strconv.ParseFloat(text, 64)
		if err != nil && !math.IsInf(want, 0) {
			t.Fatalf("%q: %v", text, err)
		}
		for point, written := range map[byte]string{'.': text, ',': strings.Replace(text, ".", ",", 1)} {
			got, n := number([]byte(written+";"), point)
			require.Equal(t, len(written), n, written)
			require.Equal(t, math.Float64bits(want), math.Float64bits(got), written)
		}
	})
}

func TestCells(t *testing.T) {
	for text, want := range map[string]float64{
		"1.5": 1.5, " -2 ": -2, `"3.25"`: 3.25, "+.5": 0.5, "1E-3": 1e-3, "4.": 4,
		"inf": math.Inf(1), "-INF": math.Inf(-1), "∞": math.Inf(1), "-∞": math.Inf(-1), ">10": math.Inf(1), "<-10": math.Inf(-1),
		">= 5.0": math.Inf(1), "OL": math.Inf(1), "-OL": math.Inf(-1), "Overload": math.Inf(1),
		"": math.NaN(), "-": math.NaN(), "***": math.NaN(), "NaN": math.NaN(), `""`: math.NaN(),
	} {
		got, ok := cell([]byte(text), '.')
		require.True(t, ok, text)
		require.Equal(t, fmt.Sprint(want), fmt.Sprint(got), text)
	}
	for _, text := range []string{"x", "1.5V", "1,5", "1e", "--1", ">", "0x10", "1_0", "12:30"} {
		_, ok := cell([]byte(text), '.')
		require.False(t, ok, text)
	}
}
