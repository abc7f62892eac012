package halve

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
)

// Flanks puts readings on the two sides of a rough curve.
type Flanks struct {
	Crank geometry.SliderCrank
	Setup evidence.Setup
	Rough look.Rough
}

// knot is the readings at one depth on a flank, in coordinates that straighten
// the curve.
type knot struct {
	reach   float64 // half the angle between the rough curve's flanks at their depth, radians
	bend    float64 // how much farther from TDC the protractor has it, radians
	side    float64 // +1 while the piston fell, -1 while it rose
	flank   float64 // +1 after TDC, -1 before
	line    int
	members []int // readings
}

// split is the readings before and after TDC that lie deep enough to tell an
// angle, by depth.
func (f Flanks) split(read []evidence.Reading, angle, depth []float64, use func(i int) bool) (before, after []*knot) {
	for i, r := range read {
		drop := (depth[i] - f.Rough.Zero) / f.Rough.Scale
		if !use(i) || drop < f.shallowest() {
			continue
		}
		drop = math.Min(drop, float64(f.Crank.Stroke()))
		early, late, err := f.Crank.AnglesAt(geometry.Length(drop))
		if err != nil {
			continue
		}
		u := angle[i] - f.Rough.TDC
		k := &knot{reach: float64(late-early) / 2, flank: math.Copysign(1, u), line: r.Line, members: []int{i}}
		k.side = k.flank * float64(r.Turn)
		if u < 0 {
			k.bend = float64(early) - u
			before = append(before, k)
		} else {
			k.bend = u - float64(late)
			after = append(after, k)
		}
	}
	return f.merged(before), f.merged(after)
}

// shallowest is the drop below which a flank is too flat to read an angle from.
func (f Flanks) shallowest() float64 {
	gauge := f.Setup.Gauge
	return math.Max(3*float64(gauge.Uncertainty()), float64(gauge.Lash+gauge.LashKnownTo)) / f.Rough.Scale
}

// merged sorts knots by depth and makes one of those whose depths differ by less
// than a tenth of what the instruments can tell.
func (f Flanks) merged(knots []*knot) []*knot {
	slices.SortStableFunc(knots, func(x, y *knot) int { return cmp.Compare(x.reach, y.reach) })
	var out []*knot
	for _, k := range knots {
		if n := len(out); n > 0 && k.reach-out[n-1].reach < f.angleUncertainty(k.reach)/10 {
			out[n-1].join(k)
		} else {
			out = append(out, k)
		}
	}
	return out
}

// join takes another knot's readings in.
func (k *knot) join(other *knot) {
	n := float64(len(k.members))
	k.reach += (other.reach - k.reach) / (n + 1)
	k.bend += (other.bend - k.bend) / (n + 1)
	k.side += (other.side - k.side) / (n + 1)
	k.members = append(k.members, other.members...)
}

// between is the knots of a flank on both sides of a depth and the share of the
// higher one; false beyond its readings. A depth beyond by less than the
// instruments tell is still within.
func (f Flanks) between(flank []*knot, reach float64) (low, high *knot, share float64, ok bool) {
	n := len(flank)
	if n == 0 {
		return nil, nil, 0, false
	}
	slack := 2 * f.angleUncertainty(reach)
	if reach < flank[0].reach-slack || reach > flank[n-1].reach+slack {
		return nil, nil, 0, false
	}
	i, _ := slices.BinarySearchFunc(flank, reach, func(k *knot, r float64) int { return cmp.Compare(k.reach, r) })
	low, high = flank[max(i-1, 0)], flank[min(i, n-1)]
	if low == high {
		return low, high, 0, true
	}
	return low, high, (reach - low.reach) / (high.reach - low.reach), true
}

// slope is the gauge's, in mm per radian, at a reach from TDC.
func (f Flanks) slope(reach float64) float64 {
	return f.Rough.Scale * float64(f.Crank.Slope(geometry.Angle(reach)))
}

// angleUncertainty is the standard uncertainty of one angle on a flank: the
// depth's divided by the slope, and the protractor's own.
func (f Flanks) angleUncertainty(reach float64) float64 {
	return math.Hypot(float64(f.Setup.Gauge.Uncertainty())/f.slope(reach), float64(f.Setup.Protractor.Uncertainty()))
}
