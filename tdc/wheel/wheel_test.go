package wheel_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
)

const exact = 1e-9 // deg; rounding of sums of a thousand intervals

// Pitch, gap and number of teeth of usual wheels (common practice, no source; the
// places of the gaps of 36-2-2-2 as one list has them).
func TestUsualWheels(t *testing.T) {
	for _, c := range []struct {
		name       string
		teeth      int
		pitch, gap float64
	}{
		{"60-2", 58, 6, 18},
		{"36-1", 35, 10, 20},
		{"36-2", 34, 10, 30},
		{"36-2-2-2", 30, 10, 30},
		{"24-1", 23, 15, 30},
		{"24-2", 22, 15, 45},
		{"12-1", 11, 30, 60},
		{"4-1", 3, 90, 180},
		{"57x6,18", 58, 6, 18},
		{"18x10, 30, 9x10, 2x30", 30, 10, 30},
	} {
		w, err := wheel.Parse(c.name)
		require.NoError(t, err)
		require.Equal(t, c.teeth, w.Teeth(), c.name)
		require.InDelta(t, c.pitch, w.Pitch().Degrees(), exact, c.name)
		require.InDelta(t, c.gap, w.Intervals[c.teeth-1].Degrees(), exact, c.name)
		require.InDelta(t, 360, w.Angle(float64(c.teeth)).Degrees(), exact, c.name)
	}
}

// Two teeth of a 60-2 wheel are 12 crank and 6 cam degrees (common practice, no
// source); its gap is passed in one step of 18.
func TestTeethAndDegrees(t *testing.T) {
	w, err := wheel.Parse("60-2")
	require.NoError(t, err)
	for tooth, degrees := range map[float64]float64{
		0: 0, 1: 6, 2: 12, 2.5: 15, 57: 342, 57.5: 351, 58: 360, 60: 372, -1: -18, -2: -24, 116: 720,
	} {
		require.InDelta(t, degrees, w.Angle(tooth).Degrees(), exact, tooth)
		require.InDelta(t, tooth, w.Tooth(geometry.Angle(degrees)*geometry.Degree+1e-12), 1e-9, degrees)
	}
}

func TestToothIsTheInverseOfAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"60-2", "36-1", "36-2-2-2", "4-1", "100,120,140"}).Draw(t, "wheel")
		tooth := rapid.Float64Range(-200, 200).Draw(t, "tooth")
		w, err := wheel.Parse(name)
		if name == "100,120,140" {
			require.ErrorContains(t, err, "no gap")
			return
		}
		require.NoError(t, err)
		require.InDelta(t, tooth, w.Tooth(w.Angle(tooth)), 1e-9)
	})
}

func TestNoWheel(t *testing.T) {
	for name, says := range map[string]string{
		"":          "expected pitches-missing",
		"60":        "expected pitches-missing",
		"60-0":      "at least one tooth missing",
		"60-59":     "two left",
		"9999-1":    "at most",
		"60-2-2":    "does not tell where its gaps are",
		"57x6,17":   "sum to 359",
		"60x6,":     "expected degrees",
		"6x60":      "no gap",
		"0x6,360":   "expected degrees",
		"120,-1,18": "expected degrees",
		"99999x1,1": "expected degrees",
		"nan,18":    "expected degrees",
	} {
		_, err := wheel.Parse(name)
		require.ErrorContains(t, err, says, name)
	}
}

// A turn may have equal parts; of a name with more gaps than one a capture may tell
// the places, and nothing else may.
func TestEqualPartsAndPlaces(t *testing.T) {
	for name, parts := range map[string]int{"28x6,12,28x6,12": 2, "9x10,30,9x10,30,9x10,30": 3, "60-2": 1, "36-2-2-2": 1, "16x10,30,14x10,30": 1} {
		w, err := wheel.ParseTold(name)
		require.NoError(t, err)
		require.Equal(t, parts, w.Parts(), name)
		require.Equal(t, w.Teeth(), parts*w.PartTeeth())
		again, err := wheel.Parse(w.List())
		require.NoError(t, err)
		require.True(t, w.Alike(again))
	}
	for name, says := range map[string]string{"36-2-2": "", "36-0-2": "one left after each", "36-17-18": "one left after each", "9999-2-2": "at most", "60": "expected pitches-missing"} {
		w, err := wheel.ParseTold(name)
		if says != "" {
			require.ErrorContains(t, err, says, name)
			continue
		}
		require.NoError(t, err)
		require.Zero(t, w.Teeth())
	}
}
