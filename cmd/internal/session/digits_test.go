package session_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is offered for a reading typed wrong lies on the curve of those before it: not what some
// engine might have shown, but two digits changed over, in an angle or a depth.
func TestWhatIsOfferedLiesOnTheCurve(t *testing.T) {
	before := []string{"352.2 3.5", "16.1 3.5", "341.7 6", "26.6 6", "back", "15.8 3.5", "351.8 3.5", "26.4 6"}
	for _, slip := range []struct{ typed, offers, then string }{
		{"314.3 6", "341.3", "-18.7 6.00"},
		{"351.8 5.3", "3.5", "-8.2 3.50"},
		{"341.3 60", "6", "-18.7 6.00"},
		{"344.9 51.4", "5.14", "-15.1 5.14"},
		{"344.9 45.1", "", ""}, // the point alone makes it 4.51, which lies off the curve
		{"307.3 6", "", ""},
	} {
		s, store := sitting(true)
		s.Job.Setup.Engine.Stroke, s.Job.Setup.Engine.Rod = 74, 143
		store.setup = s.Job.Setup
		_, err := s.Open()
		require.NoError(t, err)
		for _, line := range before {
			said(t, s, line)
		}
		answer, _ := said(t, s, slip.typed)
		require.Contains(t, answer, "Reading 8, "+slip.typed)
		require.NotContains(t, answer, "moved?")
		if slip.offers == "" {
			require.NotContains(t, answer, "Did you mean", slip.typed)
			continue
		}
		require.Contains(t, answer, "Did you mean "+slip.offers+"?", slip.typed)
		said(t, s, "m")
		last := store.readings[len(store.readings)-1]
		require.Equal(t, slip.then, fmt.Sprintf("%.1f %.2f", last.Angle.Signed().Degrees(), float64(last.Depth)))
	}
}
