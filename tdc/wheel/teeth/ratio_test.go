package teeth

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A starter turns an engine at 85 to 225 rev/min within one turn (Tech Briefs
// article on cranking speed). Worked out apart from this package for a speed that
// goes through that four times a turn, at every phase: the gap's interval over the
// mean of its neighbours is 2.70 to 3.63 on 60-2 and others up to 1.07; 1.69 to
// 2.65 and 1.18 on 36-1.
func TestGapAtCrankingSpeed(t *testing.T) {
	for _, c := range []struct {
		pitches, missing          int
		gapLow, gapHigh, mostElse float64
	}{
		{60, 2, 2.70, 3.63, 1.07},
		{36, 1, 1.69, 2.65, 1.18},
	} {
		low, high, most := math.Inf(1), 0.0, 0.0
		for phase := 0.0; phase < 360; phase += 3 {
			times := rippled(c.pitches, c.missing, phase)
			interval := func(i int) float64 { return times[i+1] - times[i] }
			teeth := c.pitches - c.missing
			for i := 1; i+2 < len(times); i++ {
				r := overNeighbours(interval, i)
				if i%teeth == teeth-1 {
					low, high = math.Min(low, r), math.Max(high, r)
				} else {
					most = math.Max(most, r)
				}
			}
		}
		half := 0.005 // two decimals are given
		require.InDelta(t, c.gapLow, low, half)
		require.InDelta(t, c.gapHigh, high, half)
		require.InDelta(t, c.mostElse, most, half)
	}
}

// rippled are the times of three turns' edges, by the trapezium rule over steps of
// 0.05 deg.
func rippled(pitches, missing int, phase float64) []float64 {
	pace := func(deg float64) float64 {
		return 1 / (155 * 6 * (1 + 70.0/155*math.Cos((4*deg+phase)*math.Pi/180)))
	}
	var times []float64
	t, at := 0.0, 0.0
	for i := range 3 * pitches {
		edge := float64(i) * 360 / float64(pitches)
		steps := int(math.Round((edge - at) / 0.05))
		for k := range steps {
			t += 0.05 * (pace(at+0.05*float64(k)) + pace(at+0.05*float64(k+1))) / 2
		}
		at = edge
		if i%pitches < pitches-missing {
			times = append(times, t)
		}
	}
	return times
}
