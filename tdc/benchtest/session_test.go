package benchtest_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// none is a protractor without error.
func none(float64) float64 { return 0 }

// exact is a session with instruments that neither round nor err.
func exact(l benchtest.Layout, slips ...benchtest.Slip) benchtest.Session {
	setup := petrol(0, 0)
	setup.Gauge = benchtest.Gauge(evidence.Dial, 0, 0)
	return benchtest.Session{Setup: setup, Layout: l, Curve: none, Slips: slips}
}

// four is a bench with nothing out of true.
var four = benchtest.Bench{Throw: 43, Rod: 146, Gauge: 1, Radius: 100, Start: 10 * benchtest.Degree}.Settled()

// The drop is that of the triangle of throw and rod: 43 (1-cos u) + 146 - sqrt(146^2 - 43^2 sin^2 u).
// The top is flat: where it is, a search by heights of 189 mm tells to some 3e-8 rad only,
// 1e-6 mm of drop where the throw stands across.
func TestDropIsTheTriangles(t *testing.T) {
	for _, u := range []float64{-1.2, -0.3, 0, 0.02, 0.5, 2} {
		sin, cos := math.Sincos(u)
		want := 43*(1-cos) + 146 - math.Sqrt(146*146-43*43*sin*sin)
		require.InDelta(t, want, four.Drop(u), 3e-6)
	}
}

// read is a session's readings, all drawn alike.
func read(b benchtest.Bench, s benchtest.Session) []evidence.Reading {
	return b.ReadIn(rand.New(rand.NewPCG(5, 6)), s)
}

// What slips shows from the reading after it on, and in the truth of the end and in the
// marks read then.
func TestSlipsFromThenOn(t *testing.T) {
	l := benchtest.Balanced(2, 12)
	still := read(four, exact(l))
	moved := exact(l, benchtest.Slip{After: 6, Angle: 1.5}, benchtest.Slip{After: 2, Depth: -0.1})
	for i, r := range read(four, moved) {
		wantAngle, wantDepth := 0.0, 0.0
		if i >= 6 {
			wantAngle = 1.5
		}
		if i >= 2 {
			wantDepth = -0.1
		}
		require.InDelta(t, wantAngle, (r.Angle - still[i].Angle).Degrees(), 1e-9)
		require.InDelta(t, wantDepth, float64(r.Depth-still[i].Depth), 1e-9)
		require.Equal(t, still[i].Turn, r.Turn)
	}
	require.InDelta(t, 11.5, four.TrueAtEnd(moved)/benchtest.Degree, 1e-9)
	require.InDelta(t, 15.5, four.Mark(moved, 4*benchtest.Degree).Degrees(), 1e-6) // a wheel on the crank's centre shows the crank's angle
}

// A run whose turn is written down wrong is wrong in nothing else.
func TestSwappedTurns(t *testing.T) {
	l := benchtest.Balanced(2, 12)
	still := read(four, exact(l))
	for i, r := range read(four, exact(l, benchtest.Slip{Sweeps: []int{1}})) {
		want := still[i]
		if i >= 6 {
			want.Turn = -want.Turn
		}
		require.Equal(t, want, r)
	}
}

// Where things slip: each moment leaves readings on either side of it.
func TestMoments(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	l := benchtest.Balanced(2, 12)
	seen := map[string]map[int]bool{}
	for _, m := range []benchtest.Moment{benchtest.AtTurnBack, benchtest.BetweenFlanks, benchtest.Anywhere, benchtest.AtAnEnd} {
		seen[m.Name] = map[int]bool{}
		for range 500 {
			seen[m.Name][m.At(rng, l)] = true
		}
	}
	require.Equal(t, map[int]bool{6: true}, seen["at the turn-back"])
	require.Equal(t, map[int]bool{3: true, 9: true}, seen["between flanks"])
	require.Equal(t, map[int]bool{2: true, 3: true, 4: true, 5: true, 6: true, 7: true, 8: true, 9: true, 10: true}, seen["anywhere"])
	require.Equal(t, map[int]bool{1: true, 11: true}, seen["at an end"])
	lopsided := benchtest.Lopsided(2, 12)
	for range 100 { // 4 before TDC turning forward, and 2 after it first turning back
		require.Contains(t, []int{4, 8}, benchtest.BetweenFlanks.At(rng, lopsided))
	}
}

// Four sweeps stop at the same six graduations; on their lines every reading is that line,
// and the crank stands where the line truly is.
func TestGraduationsAreReadAgain(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	s := benchtest.Session{Setup: petrol(0.5, 0.25)}
	s.Setup.Gauge = benchtest.Gauge(evidence.Dial, 0, 0)
	s.Curve = benchtest.IndependentErrors.Draw(rng, s.Setup.Protractor, 10)
	s.Layout = benchtest.Balanced(4, 24).Aimed(benchtest.OnGraduation)
	places := map[geometry.Angle]int{}
	for _, r := range four.ReadIn(rng, s) {
		places[r.Angle]++
		line := r.Angle.Degrees()
		stands := (line-s.Curve(line))*benchtest.Degree - four.Truth()
		require.InDelta(t, four.Smooth(benchtest.Place{U: stands, Turn: r.Turn}), float64(r.Depth), 1e-6) // as in TestDropIsTheTriangles
	}
	require.Len(t, places, 6)
	for at, times := range places {
		require.Equal(t, 4, times, at)
	}
	s.Layout = benchtest.Balanced(4, 24).Aimed(benchtest.AtGraduation)
	near := map[geometry.Angle]int{}
	for _, r := range four.ReadIn(rng, s) {
		for at := range places {
			if math.Abs((r.Angle - at).Degrees()) < 0.51 { // rounded to it, or to one beside it
				near[at]++
			}
		}
	}
	require.Equal(t, places, near)
}

// One reading is spoilt and no other; a sign lost is nothing else.
func TestSpoiltReadings(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	readings := read(four, exact(benchtest.Balanced(2, 12)))
	mirrored, which := benchtest.Mirrored(rng, readings)
	typed, those := benchtest.Mistype(rng, readings, 2)
	require.Len(t, those, 2)
	for i, r := range readings {
		want := r
		if i == which {
			want.Angle = -want.Angle
		}
		require.Equal(t, want, mirrored[i])
		if i == those[0] || i == those[1] {
			require.NotEqual(t, r, typed[i])
		} else {
			require.Equal(t, r, typed[i])
		}
	}
}
