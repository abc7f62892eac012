package halve

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Level is one depth at which both flanks have an angle: a reading, and the
// angle interpolated between readings on the other flank.
type Level struct {
	Drop        geometry.Length        // below the piston's highest point, roughly
	Midpoint    geometry.Angle         // crank, from the protractor's zero, less what offset makes
	lash        geometry.Angle         // how far the expected lash would carry it late; not taken off
	Uncertainty geometry.Angle         // standard uncertainty from one angle and depth a flank
	Turn        evidence.TurnDirection // 0 when the flanks were read in different directions
	line        int                    // of the reading
	terms       [3]term
}

// term is a knot's share in a midpoint.
type term struct {
	knot  *knot
	share float64
}

// EqualDrop is TDC as the mean of the midpoints of equal drop.
type EqualDrop struct {
	Levels []Level // by drop
	Trend  Trend   // of their midpoints
	TDC    float64 // radians, from where the readings' angles count
	// Angle and Depth are how TDC answers to every reading's: radians per radian, per mm.
	Angle, Depth []float64
}

// EqualDrop is TDC by readings whose angles (radians) count from where the rough curve's
// TDC does, depths in mm; some are skipped. False where the flanks do not overlap in
// depth.
func (f Flanks) EqualDrop(read []evidence.Reading, angle, depth []float64, skip []bool) (EqualDrop, bool) {
	levels := f.levels(read, angle, depth, skip)
	if len(levels) == 0 {
		return EqualDrop{}, false
	}
	e := EqualDrop{Levels: levels, Trend: f.trend(levels)}
	var part []float64
	e.TDC, part = average(levels)
	e.Angle, e.Depth = f.influence(levels, part, len(depth))
	return e, true
}

// levels is every midpoint the readings allow, by drop, from angles (radians from
// the rough curve's zero of angle) and depths (mm). The rough curve only guides
// the eye between readings: where two flanks were read at the same depth it has no
// part in the midpoint, but for what a stated offset makes of it.
func (f Flanks) levels(read []evidence.Reading, angle, depth []float64, skip []bool) []Level {
	var levels []Level
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		before, after := f.split(read, angle, depth, func(i int) bool { return !skip[i] && read[i].Turn == turn })
		levels = append(levels, f.pair(before, after, turn)...)
	}
	if len(levels) == 0 { // each flank in its own direction: the flanks still pair
		before, after := f.split(read, angle, depth, func(i int) bool { return !skip[i] })
		levels = f.pair(before, after, 0)
	}
	slices.SortStableFunc(levels, func(x, y Level) int { return cmp.Compare(x.Drop, y.Drop) })
	return levels
}

// pair is the midpoints at the depth of every knot of either flank that lies
// within the other flank's readings.
func (f Flanks) pair(before, after []*knot, turn evidence.TurnDirection) []Level {
	var levels []Level
	for _, k := range before {
		if low, high, share, ok := f.between(after, k.reach); ok {
			levels = append(levels, f.level(k, turn, term{k, -0.5}, term{low, (1 - share) / 2}, term{high, share / 2}))
		}
	}
	for _, k := range after {
		if low, high, share, ok := f.between(before, k.reach); ok {
			levels = append(levels, f.level(k, turn, term{k, 0.5}, term{low, (share - 1) / 2}, term{high, -share / 2}))
		}
	}
	return levels
}

// level is the midpoint that the terms make.
func (f Flanks) level(k *knot, turn evidence.TurnDirection, terms ...term) Level {
	l := Level{
		Drop:        f.Crank.Drop(geometry.Angle(k.reach)),
		Uncertainty: geometry.Angle(f.angleUncertainty(k.reach) / math.Sqrt2),
		Turn:        turn,
		line:        k.line,
		terms:       [3]term(terms),
	}
	middle := 0.0
	for _, t := range terms {
		middle += t.share * t.knot.bend
		l.lash += geometry.Angle(t.share * t.knot.side * float64(f.Setup.Gauge.Lash) / 2 / f.slope(t.knot.reach))
	}
	l.Midpoint = geometry.Angle(f.Rough.TDC + middle)
	return l
}

// average is the weighted mean of the midpoints in each direction, and the plain
// mean of the two directions, in which lash cancels; the lash expected is taken
// off where it does not. It tells each level's part in it.
func average(levels []Level) (middle float64, part []float64) {
	var weight [3]float64
	for _, l := range levels {
		weight[l.Turn+1] += 1 / float64(l.Uncertainty*l.Uncertainty)
	}
	directions := 0.0
	for _, w := range weight {
		if w > 0 {
			directions++
		}
	}
	part = make([]float64, len(levels))
	for i, l := range levels {
		part[i] = 1 / float64(l.Uncertainty*l.Uncertainty) / weight[l.Turn+1] / directions
		middle += part[i] * float64(l.Midpoint-l.lash)
	}
	return middle, part
}

// influence is how the average answers to every reading's angle and depth. Depth
// moves an angle by its share of the slope; that the level moves along the other
// flank's bend is of second order.
func (f Flanks) influence(levels []Level, part []float64, n int) (angle, depth []float64) {
	angle, depth = make([]float64, n), make([]float64, n)
	for i, l := range levels {
		for _, t := range l.terms {
			each := part[i] * t.share / float64(len(t.knot.members))
			for _, m := range t.knot.members {
				angle[m] += each * t.knot.flank
				depth[m] -= each / f.slope(t.knot.reach)
			}
		}
	}
	return angle, depth
}
