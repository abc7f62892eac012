package session_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Readings that no piston shows are promised no interval by one more of them; those of a
// piston are.
func TestNothingPromisedOfNoPiston(t *testing.T) {
	last := func(line func(u float64) string) string {
		s, _ := sitting(true)
		_, err := s.Open()
		require.NoError(t, err)
		var answer string
		for _, u := range []float64{-30, -26, -22, -18, -14, -10, 10, 14, 18, 22, 26, 30} {
			answer, _ = said(t, s, line(u))
			if strings.Contains(answer, "Did you mean") {
				answer, _ = said(t, s, "k")
			}
		}
		return answer
	}
	require.Contains(t, last(func(u float64) string { return reading(t, u) }), "): then they agree to ± 0.")
	noPiston := last(func(u float64) string { return fmt.Sprintf("%.1f %.2f", u, 6+5*math.Sin(u)) })
	require.Contains(t, noPiston, "TDC cannot be determined from these readings")
	require.Contains(t, noPiston, "Next: about ")
	require.NotContains(t, noPiston, "agree to ±")
}
