package tdc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// What each fault does to the midpoints of equal drop, on a bench that shares no
// code with the product, read finely: clean, they stay; with lash they are late and
// come nearer as one over the slope; with an offset of the bore not stated they
// move in proportion to the drop; one mistyped depth moves its own level alone
// (simulated patterns; common practice, no source).
func TestTrend(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Engine.KnownTo = evidence.DefaultKnownTo(true)
	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0, 0
	setup.Gauge.Step, setup.Gauge.Error = 0.001, 0.001
	setup.Protractor.Step, setup.Protractor.Error = degrees(0.005), degrees(0.005)
	take := func(b benchtest.Bench, turn evidence.TurnDirection) []evidence.Reading {
		b.Throw, b.Rod, b.Gauge, b.Radius = 43, 146, 1, 100
		b = b.Settled()
		var read []evidence.Reading
		for i, u := range []float64{-26, -22, -17, -13, -9, 9, 13, 17, 22, 26} {
			// as a sweep: the lash is taken up well before the first reading on either side
			side := math.Copysign(1, u*float64(turn))
			depth := b.Drop(u*degree) - side*b.Lash/2
			read = append(read, evidence.Reading{
				Angle: degrees(b.Shown(u*degree) / degree), Depth: geometry.Length(depth), Turn: turn, Line: i + 2,
			})
		}
		return read
	}
	look := func(read []evidence.Reading) halve.Trend { return find(t, setup, read).Trend }

	require.Equal(t, halve.Flat, look(take(benchtest.Bench{}, evidence.Forward)).Pattern)

	lash := look(take(benchtest.Bench{Lash: 0.05}, evidence.Forward))
	require.Equal(t, halve.LikeLash, lash.Pattern)
	require.InDelta(t, 0.05, lash.Lash.Value, 3*lash.Lash.Uncertainty)
	require.Less(t, lash.Lash.Uncertainty, 0.01)

	mistaken := take(benchtest.Bench{Lash: 0.05}, evidence.Backward)
	for i := range mistaken {
		mistaken[i].Turn = evidence.Forward
	}
	require.InDelta(t, -0.05, look(mistaken).Lash.Value, 0.01)

	offset := look(take(benchtest.Bench{Across: 8}, evidence.Forward))
	require.Equal(t, halve.LikeOffset, offset.Pattern)
	require.InDelta(t, 0.013, offset.Growth.Value, 0.002) // degrees a mm, for 8 mm on this engine

	// both sides of one level late by what neither shows alone
	apart := take(benchtest.Bench{}, evidence.Forward)
	apart[2].Angle += degrees(0.015)
	apart[7].Angle += degrees(0.015)
	one := look(apart)
	require.Equal(t, halve.OneLevel, one.Pattern)
	require.Contains(t, []int{apart[2].Line, apart[7].Line}, one.Line)

	few := find(t, setup, take(benchtest.Bench{}, evidence.Forward)[2:8])
	require.Equal(t, halve.TooFewToSay, few.Trend.Pattern)
}

// Chance alone shows a pattern in one job of a hundred, of readings that err by no
// more than the instruments stated.
func TestTrendByChance(t *testing.T) {
	setup := carEngine(86, 146)
	places := []float64{-30, -26, -22, -18, -14, 14, 18, 22, 26, 30}
	const n = 200
	patterned := 0
	for i := range n {
		rng := rand.New(rand.NewPCG(run.Seed, uint64(99_000+i)))
		read := clean(86, 146, 3, places)
		for k := range read {
			read[k].Angle += setup.Protractor.Uncertainty() * geometry.Angle(rng.NormFloat64())
			read[k].Depth += setup.Gauge.Uncertainty() * geometry.Length(rng.NormFloat64())
		}
		if find(t, setup, read).Trend.Pattern != halve.Flat {
			patterned++
		}
	}
	t.Logf("seed %d: a pattern in %d of %d", run.Seed, patterned, n)
	require.LessOrEqual(t, patterned, n/20) // 2 are meant; 10 come once in 20,000 by the binomial distribution
}
