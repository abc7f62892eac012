package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
)

// There and back: the piston is at that drop at both angles, and they stand to
// the two sides of the midpoint. Roundings of lengths up to 10 m.
func TestAnglesAtAlways(t *testing.T) {
	check(t, func(t *rapid.T) {
		s := anySliderCrank(t)
		drop := s.Stroke() * geometry.Length(rapid.Float64Range(0, 1).Draw(t, "drop over stroke"))
		before, after, err := s.AnglesAt(drop)
		require.NoError(t, err)
		rounding := 1e-13 * (s.Top() + s.Rod())
		near(t, drop, s.Drop(before), rounding, "drop before")
		near(t, drop, s.Drop(after), rounding, "drop after")
		require.True(t, before <= 0 && after >= 0 && after-before <= geometry.Turn, "%v and %v", before, after)
		near(t, s.EqualDropMidpoint(drop), (before+after)/2, 1e-14, "midpoint") // radians, of a few

		from, to, err := s.Dwell(drop)
		require.NoError(t, err)
		require.Equal(t, []geometry.Angle{before, after}, []geometry.Angle{from, to})
	})
}

// Near TDC the drop is a parabola: half angles are sqrt(2 drop / curvature), to
// drop over length, and every digit counts down to a millionth of a nanometre.
func TestAnglesNearTDC(t *testing.T) {
	for _, s := range []geometry.SliderCrank{must(t, 86, 146, 0), must(t, 86, 146, 8), must(t, 2000, 2000, -300)} {
		reach := float64(s.Throw() + s.Rod()) // crank and rod in line
		curvature := reach * reach / float64(s.Top()) * float64(s.Throw()/s.Rod())
		for _, drop := range []geometry.Length{1e-12, 1e-9, 1e-6} {
			before, after, err := s.AnglesAt(drop)
			require.NoError(t, err)
			want := 2 * math.Sqrt(2*float64(drop)/curvature)
			near(t, 1, float64(after-before)/want, 1e-14+float64(drop/s.Throw()), "whole angle")
		}
		before, after, err := s.AnglesAt(0)
		require.NoError(t, err)
		require.Equal(t, [2]geometry.Angle{}, [2]geometry.Angle{before, after})
	}
}

// At the bottom both angles are BDC. There a rounding of the stroke, 1e-14 of
// its length, moves the angle by the root of that, 1e-7 rad.
func TestAnglesAtBDC(t *testing.T) {
	for _, s := range []geometry.SliderCrank{must(t, 86, 146, 0), must(t, 86, 146, 8), must(t, 80, 120, -20)} {
		before, after, err := s.AnglesAt(s.Stroke())
		require.NoError(t, err)
		near(t, s.BDC()-s.TDC(), after, 1e-6, "after")
		near(t, s.BDC()-s.TDC()-geometry.Turn, before, 1e-6, "before")
	}
}

// Computed from the closed forms, degrees, to the digits given.
func TestDwell(t *testing.T) {
	car := must(t, 86, 146, 0)
	for _, row := range []struct {
		what   string
		s      geometry.SliderCrank
		within geometry.Length
		want   float64
	}{
		{"petrol four, 0.01 mm", car, 0.01, 2.1721},
		{"petrol four, 0.1 mm", car, 0.1, 6.8704},
		{"petrol four, 1 mm", car, 1, 21.7741},
		{"petrol four, 43 mm: half-way, 81.5318 a side", car, 43, 2 * 81.5318},
		{"motorcycle four, 0.01 mm", must(t, 42.5, 91, 0), 0.01, 3.1655},
		{"trunk single, 0.01 mm", must(t, 400, 800, 0), 0.01, 1.0249},
	} {
		before, after, err := row.s.Dwell(row.within)
		require.NoError(t, err)
		near(t, row.want, (after - before).Degrees(), 1e-4, row.what)
		near(t, 0, before+after, 1e-15, row.what+": even, in line")
	}
}

// Lash of 0.05 mm turned always forward: the falling side is read that much
// deeper than it is, and the middle of equal readings is late. Computed, degrees.
func TestLashMakesLate(t *testing.T) {
	car := must(t, 86, 146, 0)
	for _, row := range []struct {
		drop geometry.Length
		late float64
	}{{0.1, 0.386}, {1, 0.135}, {2, 0.097}} {
		before, _, err := car.AnglesAt(row.drop)
		require.NoError(t, err)
		_, after, err := car.AnglesAt(row.drop + 0.05)
		require.NoError(t, err)
		near(t, row.late, geometry.CircularMean(before, after).Degrees(), 5e-4, "late by")
	}
}

func TestNoSuchDrop(t *testing.T) {
	s := must(t, 86, 146, 8)
	for _, drop := range []geometry.Length{
		-1e-9, s.Stroke() * 1.0001, geometry.Length(math.NaN()), geometry.Length(math.Inf(1)), geometry.Length(math.Inf(-1)),
	} {
		_, _, err := s.AnglesAt(drop)
		require.ErrorContains(t, err, "drop "+drop.String()+" is not between zero and the stroke, 86.1417615 mm")
		_, _, err = s.Dwell(drop)
		require.Error(t, err)
	}
}
