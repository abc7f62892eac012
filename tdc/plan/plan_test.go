package plan_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

const deg = geometry.Degree

// setup is an invented petrol four read with a gauge of a kind.
func setup(kind evidence.GaugeKind) evidence.Setup {
	s := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(kind)}
	s.Engine = evidence.Engine{Stroke: 81.4, Rod: 133, KnownTo: evidence.DefaultKnownTo(false)}
	return s
}

var kinds = []evidence.GaugeKind{evidence.Dial, evidence.DepthRod, evidence.Borescope}

// each runs a check on every kind of gauge, both ways and one way.
func each(t *testing.T, check func(t *testing.T, s evidence.Setup, g plan.Ground)) {
	for _, kind := range kinds {
		for _, oneWay := range []bool{false, true} {
			t.Run(fmt.Sprint(kind, oneWay), func(t *testing.T) {
				check(t, setup(kind), plan.Ground{Deepest: plan.Deepest(kind), OneWay: oneWay})
			})
		}
	}
}

// A plan promises what the adjustment itself foresees at its places, and no less
// than evenly spread readings do.
func TestPlanBeatsEvenReadings(t *testing.T) {
	each(t, func(t *testing.T, s evidence.Setup, g plan.Ground) {
		for _, n := range []int{8, 12, 24, plan.Most} {
			p, err := plan.Best(s, g, n)
			require.NoError(t, err)
			require.Len(t, p.Points, n)
			var places []adjust.Place
			for _, point := range p.Points {
				places = append(places, point.Place)
			}
			f, err := adjust.Foresee(s, places)
			require.NoError(t, err)
			require.Equal(t, f.AgreeTo.Uncertainty, p.Foreseen.AgreeTo.Uncertainty)
			require.Less(t, p.Foreseen.AgreeTo.Uncertainty, p.Even.AgreeTo.Uncertainty, n)
		}
	})
}

// Readings come in pairs of equal drop, in the order the crank comes to them, down
// to the gauge's reach and no nearer to each other than the protractor's own error
// is the same (a degree; 0.8 of it after rounding to tenths of a millimetre), some
// near TDC and some well down each way.
func TestPlanCanBeTaken(t *testing.T) {
	each(t, func(t *testing.T, s evidence.Setup, g plan.Ground) {
		p, err := plan.Best(s, g, 12)
		require.NoError(t, err)
		crank, err := s.Kinematics()
		require.NoError(t, err)
		drops := map[evidence.TurnDirection]map[geometry.Length]int{evidence.Forward: {}, evidence.Backward: {}}
		least, most := math.Inf(1), 0.0
		for i, point := range p.Points {
			require.InDelta(t, float64(point.Drop), float64(crank.Drop(point.Angle)), 1e-9)
			require.InDelta(t, float64(point.Slope), math.Abs(float64(crank.Slope(point.Angle))), 1e-9) // no offset: alike on both sides
			require.LessOrEqual(t, point.Drop, g.Deepest)
			perAngle := float64(s.Gauge.Uncertainty()) / float64(point.Slope)
			require.InDelta(t, math.Hypot(perAngle, float64(s.Protractor.Uncertainty())), float64(point.Uncertainty), 1e-12)
			drops[point.Turn][point.Drop]++
			if point.Turn == evidence.Forward {
				least, most = math.Min(least, float64(point.Drop)), math.Max(most, float64(point.Drop))
			}
			if i == 0 {
				continue
			}
			before := p.Points[i-1]
			if before.Turn == point.Turn {
				require.Greater(t, float64((point.Angle-before.Angle)*geometry.Angle(point.Turn)), float64(0.8*deg))
			} else {
				require.Equal(t, evidence.Backward, point.Turn)
			}
		}
		for turn, pairs := range drops {
			if g.OneWay && turn == evidence.Backward {
				require.Empty(t, pairs)
				continue
			}
			require.GreaterOrEqual(t, len(pairs), 2)
			for drop, n := range pairs {
				require.Equal(t, 2, n, drop)
			}
		}
		require.Less(t, least, most/1.5, "midpoints at drops apart show lash")
		require.Equal(t, !g.OneWay, p.TurnsBack())
	})
}

// The search finds the best there is: all sets of pairs of a short flank, each
// judged by the adjustment, with one near TDC and one well down.
func TestPlanIsTheBest(t *testing.T) {
	for _, kind := range kinds {
		s, g := setup(kind), plan.Ground{Deepest: 2.2, OneWay: true}
		all, err := plan.Best(s, g, 30) // every pair that there is room for
		require.NoError(t, err)
		_, err = plan.Best(s, g, 32)
		require.Equal(t, plan.NoRoom{Readings: 32, Deepest: 2.2, Room: 30}, err)
		for _, n := range []int{6, 8} {
			found, err := plan.Best(s, g, n)
			require.NoError(t, err)
			// the same pairs: only the sum is taken in another order
			require.InEpsilon(t, exhausted(t, s, all, n/2), float64(found.Foreseen.AgreeTo.Uncertainty), 1e-9, "%s, %d", kind, n)
		}
	}
}

// exhausted is the least uncertainty of so many of the pairs of a plan.
func exhausted(t *testing.T, s evidence.Setup, all plan.Plan, pairs int) float64 {
	t.Helper()
	n := len(all.Points)
	reach := all.Points[n-1].HalfAngle
	best := math.Inf(1)
	var try func(from int, chosen []int)
	try = func(from int, chosen []int) {
		if len(chosen) == pairs {
			var places []adjust.Place
			least, most := reach, geometry.Angle(0)
			for _, i := range chosen {
				places = append(places, all.Points[i].Place, all.Points[n-1-i].Place)
				least, most = min(least, all.Points[i].HalfAngle), max(most, all.Points[i].HalfAngle)
			}
			if least <= 0.6*reach && most >= 0.8*reach {
				f, err := adjust.Foresee(s, places)
				require.NoError(t, err)
				best = math.Min(best, float64(f.AgreeTo.Uncertainty))
			}
			return
		}
		for i := from; i < n/2; i++ {
			try(i+1, append(chosen, i))
		}
	}
	try(0, nil)
	return best
}

// The fewest readings that reach a target: a pair less does not.
func TestReach(t *testing.T) {
	s, g := setup(evidence.Dial), plan.Ground{Deepest: 8}
	p, reached, err := plan.Reach(s, g, 0.05*deg)
	require.NoError(t, err)
	require.True(t, reached)
	require.LessOrEqual(t, p.Foreseen.AgreeTo.Uncertainty, 0.05*deg)
	for _, oneWay := range []bool{false, true} {
		less, err := plan.Best(s, plan.Ground{Deepest: 8, OneWay: oneWay}, len(p.Points)-2)
		require.NoError(t, err)
		require.Greater(t, less.Foreseen.AgreeTo.Uncertainty, 0.05*deg)
	}

	p, reached, err = plan.Reach(s, g, 0.2*deg)
	require.NoError(t, err)
	require.True(t, reached)
	require.False(t, p.TurnsBack(), "one way is less work for the same")
	require.Len(t, p.Points, plan.Ground{OneWay: true}.Fewest())

	p, reached, err = plan.Reach(s, g, 0.001*deg)
	require.NoError(t, err)
	require.False(t, reached)
	require.True(t, p.TurnsBack())
	require.Len(t, p.Points, plan.Most)

	p, _, err = plan.Reach(s, plan.Ground{Deepest: 8, OneWay: true}, 0.05*deg)
	require.NoError(t, err)
	require.False(t, p.TurnsBack())
}

func TestPlanRefuses(t *testing.T) {
	for _, c := range []struct {
		n      int
		ground plan.Ground
		says   string
	}{
		{6, plan.Ground{Deepest: 8}, "even number from 8"},
		{4, plan.Ground{Deepest: 8, OneWay: true}, "even number from 6"},
		{9, plan.Ground{Deepest: 8}, "even number"},
		{8, plan.Ground{Deepest: 0.05}, "too little depth"},
	} {
		_, err := plan.Best(setup(evidence.Dial), c.ground, c.n)
		require.ErrorContains(t, err, c.says)
	}
}

// A protractor of a few graduations is the reason, and no depth would mend it.
func TestPlanRefusesACoarseProtractor(t *testing.T) {
	for step, says := range map[geometry.Angle]string{10: "too little depth", 18: "too little depth", 19: "step is too coarse", 360: "step is too coarse"} {
		coarse := setup(evidence.Dial)
		coarse.Protractor.Step = step * geometry.Degree
		_, err := plan.Best(coarse, plan.Ground{Deepest: 8}, 12)
		require.ErrorContains(t, err, says, "%v", step)
		if says == "too little depth" {
			shallow, is := errors.AsType[plan.TooShallow](err)
			require.True(t, is)
			_, err = plan.Best(coarse, plan.Ground{Deepest: shallow.Least}, 8)
			require.NoError(t, err, "%v", step)
		}
	}
}

// However small the engine, no place is planned twice in a sweep, and each has a
// certainty that is a number.
func TestSmallEnginesHaveFewerPlaces(t *testing.T) {
	planned := 0
	for _, stroke := range []geometry.Length{4, 6, 8, 10, 12, 15, 20, 30, 42} {
		setup := evidence.Setup{
			Engine:     evidence.Engine{Stroke: stroke, Rod: 2 * stroke, KnownTo: evidence.DefaultKnownTo(false)},
			Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
		}
		for _, oneWay := range []bool{false, true} {
			p, err := plan.Best(setup, plan.Ground{Deepest: plan.Deepest(evidence.Dial), OneWay: oneWay}, 20)
			if err != nil {
				continue // too few places
			}
			planned++
			seen := map[adjust.Place]bool{}
			for _, point := range p.Points {
				require.False(t, seen[point.Place], "stroke %v: %v twice", stroke, point.Place)
				seen[point.Place] = true
				require.Positive(t, float64(point.Drop))
				require.False(t, math.IsInf(float64(point.Uncertainty), 0))
			}
		}
	}
	require.Greater(t, planned, 8)
}

// The usual reach is what the gauge has: a dial gauge's plunger 10 mm, of which some is
// left at either end, a depth rod's more (common practice, no source).
func TestUsualReach(t *testing.T) {
	require.Less(t, plan.Deepest(evidence.Dial), 10*geometry.Millimetre)
	require.Greater(t, plan.Deepest(evidence.Dial), 5*geometry.Millimetre)
	require.Greater(t, plan.Deepest(evidence.DepthRod), 20*geometry.Millimetre)
}

// However far the gauge reaches, no place is planned where the piston moves no faster
// for being farther down: it moves fastest about where rod and throw stand square, at
// atan(rod/throw) from TDC, 73 deg here (kinematics of the slider-crank).
func TestNoPlaceBeyondTheSteepest(t *testing.T) {
	p, err := plan.Best(setup(evidence.DepthRod), plan.Ground{Deepest: 80}, 12)
	require.NoError(t, err)
	square := math.Atan2(133, 81.4/2) * 180 / math.Pi
	for _, point := range p.Points {
		require.Less(t, math.Abs(point.Angle.Degrees()), square+3) // by the 75 deg that any engine gets
	}
}

// A target is said to be reached only by a plan that reaches it.
func TestReachedIsReached(t *testing.T) {
	s, g := setup(evidence.Dial), plan.Ground{Deepest: 8}
	most, err := plan.Best(s, g, plan.Most)
	require.NoError(t, err)
	for _, part := range []float64{0.6, 0.9, 0.99, 1.01, 1.5} {
		target := geometry.Angle(part) * most.Foreseen.AgreeTo.Uncertainty
		p, reached, err := plan.Reach(s, g, target)
		require.NoError(t, err)
		require.Equal(t, part > 1, reached, "%g of the best", part)
		require.Equal(t, reached, p.Foreseen.AgreeTo.Uncertainty <= target)
	}
}

// Evenly spread readings are spread from TDC down to the gauge's reach, and no farther.
func TestEvenIsWithinReach(t *testing.T) {
	s := setup(evidence.Dial)
	p, err := plan.Best(s, plan.Ground{Deepest: 8, OneWay: true}, 12)
	require.NoError(t, err)
	crank, err := s.Kinematics()
	require.NoError(t, err)
	early, late, err := crank.AnglesAt(8)
	require.NoError(t, err)
	var places []adjust.Place
	for k := 1; k <= 6; k++ {
		u := (late - early) / 2 * geometry.Angle(k) / 6
		places = append(places, adjust.Place{Angle: -u, Turn: evidence.Forward}, adjust.Place{Angle: u, Turn: evidence.Forward})
	}
	even, err := adjust.Foresee(s, places)
	require.NoError(t, err)
	require.InEpsilon(t, float64(even.AgreeTo.Uncertainty), float64(p.Even.AgreeTo.Uncertainty), 0.002) // the deepest drop is rounded to a tenth
}

// Where one way does with as many readings as both ways it is less work: by borescope
// to 0.18 deg either takes 12.
func TestOneWayForAsMany(t *testing.T) {
	s, g := setup(evidence.Borescope), plan.Ground{Deepest: plan.Deepest(evidence.Borescope)}
	s.Engine.KnownTo.Offset, s.Engine.OffsetStated = 2, true
	both, err := plan.Best(s, g, 12)
	require.NoError(t, err)
	require.Less(t, both.Foreseen.AgreeTo.Uncertainty, 0.18*deg)
	p, reached, err := plan.Reach(s, g, 0.18*deg)
	require.NoError(t, err)
	require.True(t, reached)
	require.Len(t, p.Points, 12)
	require.False(t, p.TurnsBack())
}

// Turned back, readings lie between those turned forward: a protractor is wrong by the
// same amount each time at one place.
func TestSweepsReadOtherPlaces(t *testing.T) {
	p, err := plan.Best(setup(evidence.Dial), plan.Ground{Deepest: 8}, 24)
	require.NoError(t, err)
	for _, a := range p.Points {
		for _, b := range p.Points {
			if a.Turn == evidence.Forward && b.Turn == evidence.Backward {
				require.Greater(t, math.Abs((a.Angle - b.Angle).Degrees()), 0.2) // half a degree, but for drops that are rounded
			}
		}
	}
}
