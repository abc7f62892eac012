package timing

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/teeth"
)

// Edge is where a cam's edge comes, over the turns that were used.
type Edge struct {
	Channel   int    // column, from 1
	Name      string // the column's heading; "" when it has none
	Kind      signal.Way
	Angle     geometry.Angle // crank, after the gap; mean
	Teeth     float64        // the same in leading edges passed
	Deviation geometry.Angle // standard deviation; NaN of one alone
	Count     int
}

// sighting is one passing of a cam edge. There may be a million.
type sighting struct {
	angle   geometry.Angle // from the run's beginning
	run     int32
	channel int16
	rising  bool
}

func (s sighting) kind() signal.Way { return signal.WayTo(s.rising) }

// apart is how far two passings of one edge are from each other at most: more
// than cams wander (standard deviation 0.3 to 2 deg, common practice, no source),
// less than edges of a kind are apart on a wheel.
const apart = 6 * geometry.Degree

// cycle is two turns of the crank, one of the cam.
const cycle = 2 * geometry.Turn

// sightings are the cam edges that fall into good turns.
func sightings(edges []camEdges, curves []teeth.Curve) []sighting {
	passings := 0
	for _, e := range edges {
		passings += len(e.times)
	}
	out := make([]sighting, 0, passings)
	for _, e := range edges {
		i := 0
		for r, c := range curves {
			first, last := c.Times[0], c.Times[len(c.Times)-1]
			for i < len(e.times) && e.times[i] < first {
				i++
			}
			for ; i < len(e.times) && e.times[i] < last; i++ {
				out = append(out, sighting{c.At(e.times[i]), int32(r), int16(e.channel), e.kind == signal.Rising})
			}
		}
	}
	return out
}

// camEdges are the times of one kind of edge of a cam.
type camEdges struct {
	channel int // from 1: cams only
	kind    signal.Way
	times   []float64
}

// group is the passings of one edge, angles in one stretch.
type group struct {
	channel int
	kind    signal.Way
	angles  []geometry.Angle
}

// mean is the group's mean, in [0, period).
func (g group) mean(period geometry.Angle) geometry.Angle {
	sum := geometry.Angle(0)
	for _, a := range g.angles {
		sum += a
	}
	return Into(sum/geometry.Angle(len(g.angles)), period)
}

// deviation is the standard deviation; NaN of one alone.
func (g group) deviation() geometry.Angle {
	n := float64(len(g.angles))
	mean, sum := 0.0, 0.0
	for _, a := range g.angles {
		mean += float64(a) / n
	}
	for _, a := range g.angles {
		sum += (float64(a) - mean) * (float64(a) - mean)
	}
	if n < 2 {
		return geometry.Angle(math.NaN())
	}
	return geometry.Angle(math.Sqrt(sum / (n - 1)))
}

// Into is an angle less whole periods, in [0, period).
func Into(a, period geometry.Angle) geometry.Angle {
	r := geometry.Angle(math.Mod(float64(a), float64(period)))
	if r < 0 {
		r += period
	}
	return r
}

// groups puts passings that are one edge together, angles less whole periods.
func groups(all []sighting, period geometry.Angle) []group {
	sorted := slices.Clone(all)
	for i := range sorted {
		sorted[i].angle = Into(sorted[i].angle, period)
	}
	slices.SortFunc(sorted, func(a, b sighting) int {
		return cmp.Or(cmp.Compare(a.channel, b.channel), cmp.Compare(a.kind(), b.kind()), cmp.Compare(a.angle, b.angle))
	})
	var out []group
	first := 0 // of this channel and kind
	for i, s := range sorted {
		if i == 0 || s.channel != sorted[i-1].channel || s.rising != sorted[i-1].rising {
			out = joinEnds(out, first, period)
			first = len(out)
			out = append(out, group{channel: int(s.channel), kind: s.kind()})
		} else if s.angle-sorted[i-1].angle > apart {
			out = append(out, group{channel: int(s.channel), kind: s.kind()})
		}
		last := &out[len(out)-1]
		last.angles = append(last.angles, s.angle)
	}
	return joinEnds(out, first, period)
}

// joinEnds joins the groups at either end of the period when they are one.
func joinEnds(all []group, first int, period geometry.Angle) []group {
	if len(all)-first < 2 {
		return all
	}
	low, high := &all[first], all[len(all)-1]
	if low.angles[0]+period-high.angles[len(high.angles)-1] > apart {
		return all
	}
	for _, a := range high.angles {
		low.angles = append(low.angles, a-period)
	}
	return all[:len(all)-1]
}
