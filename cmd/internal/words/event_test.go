package words_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
)

// Events as cam cards write them (lobes.md 3 and 5): from the dead centre that is nearest,
// a centre from TDC.
func TestEvents(t *testing.T) {
	const deg = geometry.Degree
	for _, c := range []struct {
		after float64
		says  string
	}{
		{-12, "12 BTDC"}, {228, "48 ABDC"}, {-230, "50 BBDC"}, {10, "10 ATDC"}, {130, "50 BBDC"},
		{0, "0 ATDC"}, {180, "0 ABDC"}, {-180, "0 ABDC"}, {360, "0 ATDC"}, {-375, "15 BTDC"}, {170, "10 BBDC"}, {4.5, "4.5 ATDC"},
	} {
		require.Equal(t, c.says, words.Event(geometry.Angle(c.after)*deg), "%v", c.after)
	}
	e := gum.Estimate{Angle: 124.837 * deg, Expanded: 0.53 * deg}
	require.Equal(t, "124.8 ± 0.5 ATDC", words.CentreWithin(e))
	require.Equal(t, "55.2 ± 0.5 BBDC", words.EventWithin(e))
	e.Angle = -0.01 * deg
	require.Equal(t, "0.0 ± 0.5 ATDC", words.EventWithin(e))
	require.Equal(t, "108 ATDC", words.Centre(108*deg))
	require.Equal(t, "110 BTDC", words.Centre(-110*deg))
}
