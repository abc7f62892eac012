package look_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/look"
)

const degree = math.Pi / 180

// finest is how near the searches come: an eighth of their step of 2 deg.
const finest = 2 * degree / 8

// taken is exact readings of a car engine with TDC at an angle: depths grow from 1 mm
// as the piston goes down.
func taken(t *testing.T, tdc float64, from ...float64) (crank geometry.SliderCrank, angle, depth []float64) {
	t.Helper()
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	for _, u := range from {
		angle = append(angle, tdc+u*degree)
		depth = append(depth, 1+float64(crank.Drop(geometry.Angle(u*degree))))
	}
	return crank, angle, depth
}

var flanks = []float64{-33, -27, -20, -14, -9, 8, 15, 22, 25, 31}

// Each search finds TDC wherever it is, and the engine's own scale.
func TestSearches(t *testing.T) {
	for _, tdc := range []float64{-2.9, -1, 0, 0.013, 1.57, 3.1} {
		crank, angle, depth := taken(t, tdc, flanks...)
		for name, found := range map[string]look.Rough{"all": look.All(crank, angle, depth).Top, "trimmed": look.Trimmed(crank, angle, depth)} {
			require.InDelta(t, 0, math.Remainder(found.TDC-tdc, 2*math.Pi), finest, "%s, %v", name, tdc)
			require.InDelta(t, 1, found.Scale, 0.02, name)
		}
		opening, err := look.Open(crank, true, angle, depth)
		require.NoError(t, err)
		require.False(t, opening.Turned || opening.MaybeBottom)
	}
}

// A quarter of the readings, however wrong, do not draw the trimmed search away.
func TestTrimmedBearsAQuarter(t *testing.T) {
	crank, angle, depth := taken(t, 0.5, flanks...)
	depth[1] += 40
	depth[6] += 60
	require.InDelta(t, 0.5, look.Trimmed(crank, angle, depth).TDC, finest)
	require.Greater(t, math.Abs(look.All(crank, angle, depth).Top.TDC-0.5), finest, "the other is drawn away")
}

// Depths turned round are told from readings about BDC by how sharply the piston turns;
// without the engine's dimensions they are not.
func TestWhichEnd(t *testing.T) {
	crank, angle, depth := taken(t, 0.2, flanks...)
	turned := make([]float64, len(depth))
	for i, d := range depth {
		turned[i] = -d
	}
	opening, err := look.Open(crank, true, angle, turned)
	require.NoError(t, err)
	require.True(t, opening.Turned)
	require.InDelta(t, 0.2, opening.TDC, finest)
	_, err = look.Open(crank, false, angle, turned)
	require.ErrorContains(t, err, `counts = "up"`)
	require.NotContains(t, err.Error(), "--")

	var low []float64
	for _, u := range flanks {
		low = append(low, 180+u)
	}
	_, angle, depth = taken(t, 0.2, low...)
	_, err = look.Open(crank, true, angle, depth)
	require.ErrorIs(t, err, look.ErrBottom)
}

// Readings of one flank by a coarse gauge fit another TDC about as well; by a fine one
// they do not, nor do readings of both flanks.
func TestRival(t *testing.T) {
	crank, angle, depth := taken(t, 0, -29.1, -25, -20.3, -14.9, -9.2)
	w := look.Weighted{Crank: crank, Angle: angle, Depth: depth, ScaleSigma: 0.5}
	with := func(sigma float64) look.Weighted {
		for range angle {
			w.SigmaX, w.SigmaY = append(w.SigmaX, 0.002), append(w.SigmaY, sigma)
		}
		w.SigmaX, w.SigmaY = w.SigmaX[len(w.SigmaX)-len(angle):], w.SigmaY[len(w.SigmaY)-len(angle):]
		return w
	}
	place, ok := with(3).Rival(0)
	require.True(t, ok)
	require.Greater(t, math.Abs(place), 15*degree)
	_, ok = with(0.01).Rival(0)
	require.False(t, ok)
	_, ok = with(3).Rival(-20 * degree) // readings on both sides
	require.False(t, ok)
}
