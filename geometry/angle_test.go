package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
)

func TestUnits(t *testing.T) {
	for _, row := range []struct {
		what      string
		got, want float64
	}{
		{"half a turn in degrees", (geometry.Turn / 2).Degrees(), 180},
		{"half a turn in radians", (geometry.Turn / 2).Radians(), math.Pi},
		{"a radian in degrees", geometry.Angle(1).Degrees(), 57.29577951308232},
		{"a degree in radians", deg.Radians(), 0.017453292519943295},
		{"an inch in millimetres, ISO 31-1", geometry.Inch.Millimetres(), 25.4},
		{"127 mm in inches", (127 * mm).Inches(), 5},
		{"slope, mm per degree", geometry.Slope(180).MillimetresPerDegree(), math.Pi},
		{"a cubic centimetre", (2500 * geometry.Volume(1)).CubicCentimetres(), 2.5},
	} {
		near(t, row.want, row.got, 1e-15*math.Abs(row.want)*2, row.what) // one rounding or two
	}
}

func TestStringsCarryUnits(t *testing.T) {
	require.Equal(t, "12.5 deg", (12.5 * deg).String())
	require.Equal(t, "-0.25 deg", (-0.25 * deg).String())
	require.Equal(t, "81.4 mm", (81.4 * mm).String())
	require.Equal(t, "25.4 mm", geometry.Inch.String())
	require.Equal(t, "33.3333333 mm", (100 * mm / 3).String())
}

func TestWholeTurns(t *testing.T) {
	for _, row := range []struct{ in, signed, positive float64 }{
		{0, 0, 0}, {90, 90, 90}, {180, 180, 180}, {-180, 180, 180}, {270, -90, 270},
		{360, 0, 0}, {-360, 0, 0}, {-10, -10, 350}, {725, 5, 5}, {540, 180, 180}, {-900.5, 179.5, 179.5},
	} {
		in := geometry.Angle(row.in) * deg
		// Roundings of a thousand degrees.
		near(t, row.signed, in.Signed().Degrees(), 1e-12, in.String()+" signed")
		near(t, row.positive, in.Positive().Degrees(), 1e-12, in.String()+" positive")
	}
	// A tiny negative angle less a whole turn is a whole turn, after rounding.
	require.Equal(t, geometry.Angle(0), geometry.Angle(-1e-20).Positive())
	require.Equal(t, geometry.Turn/2, (-geometry.Turn / 2).Signed())
}

func TestWholeTurnsAlways(t *testing.T) {
	check(t, func(t *rapid.T) {
		a := geometry.Angle(rapid.Float64Range(-1e4, 1e4).Draw(t, "degrees")) * deg
		signed, positive := a.Signed(), a.Positive()
		require.True(t, signed > -geometry.Turn/2 && signed <= geometry.Turn/2, "%v signed is %v", a, signed)
		require.True(t, positive >= 0 && positive < geometry.Turn, "%v positive is %v", a, positive)
		for _, b := range []geometry.Angle{signed, positive} {
			turns := float64((a - b) / geometry.Turn)
			near(t, math.Round(turns), turns, 1e-12, "whole turns between") // 28 turns, rounded
		}
	})
}

func TestCircularMean(t *testing.T) {
	for _, row := range []struct {
		source     string
		a, b, want float64
	}{
		{"computed", 348.6, 11.8, 0.2},
		{"computed", 350, 20, 5},
		{"computed", 33.5, 356.5, 15},
		{"closed form", 11.8, 348.6, 0.2},
		{"closed form", 170, -170, 180},
		{"closed form", 720 + 30, 50, 40},
		{"closed form", 77, 77, 77},
		{"opposite: the one after a", 0, 180, 90},
		{"opposite: the one after a", 180, 0, -90},
	} {
		got := geometry.CircularMean(geometry.Angle(row.a)*deg, geometry.Angle(row.b)*deg)
		near(t, row.want, got.Degrees(), 1e-12, row.source) // roundings of 750 degrees
	}
}

// Of two opposite angles the mean is the one after a, at whatever angle and however
// their last digits fell out.
func TestCircularMeanOfOpposites(t *testing.T) {
	for tenths := -7200; tenths <= 7200; tenths++ {
		a := float64(tenths) / 10
		for _, half := range []float64{-540, -180, 180, 540} {
			mean := geometry.CircularMean(geometry.Angle(a)*deg, geometry.Angle(a+half)*deg)
			near(t, 90, (mean - geometry.Angle(a)*deg).Signed().Degrees(), 1e-11, "the one after a") // roundings of 1260 degrees
		}
	}
}

// The mean is as far from one as from the other, at most a quarter turn, and
// turns with them.
func TestCircularMeanAlways(t *testing.T) {
	check(t, func(t *rapid.T) {
		draw := func(what string) geometry.Angle {
			return geometry.Angle(rapid.Float64Range(-720, 720).Draw(t, what)) * deg
		}
		a, apart, by := draw("a"), geometry.Angle(rapid.Float64Range(-179.9, 179.9).Draw(t, "apart"))*deg, draw("by")
		b := a + apart
		mean := geometry.CircularMean(a, b)
		const rounding = 1e-11 * deg // of some 1500 degrees
		near(t, 0, (mean - a - apart/2).Signed(), rounding, "half-way")
		near(t, 0, (mean - geometry.CircularMean(b, a)).Signed(), rounding, "either way round")
		near(t, 0, (geometry.CircularMean(a+by, b+by) - mean - by).Signed(), rounding, "turned")
		require.Equal(t, mean, mean.Signed())
	})
}
