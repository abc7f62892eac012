package lobe

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
)

// crossing is where a flank passes a lift: between two of its readings, straight in the
// measure that straightens it.
type crossing struct {
	sum                  // its angle, by what it was made from
	below, above int     // the readings
	share        float64 // of the second
	slope        float64 // mm a radian there, negative on the closing flank
	slopeDoubt   float64 // standard uncertainty of the slope, relative
	bias         float64 // half-width of what the straight line may be wrong by, radians
}

// A straight line between readings 3 deg apart is wrong by at most 0.015 deg half-way
// (lobes.md 4), on a cycloid by 0.017, and by the square of that distance at others.
const (
	biasAcross = 3 * geometry.Degree
	mostBias   = 0.018 * geometry.Degree
)

// beyond is how far outside two readings, as a share of their distance, a lift may lie
// and still be taken by their straight line.
const beyond = 0.3

// cross is where a flank passes a lift; false where no two readings near one another
// straddle it, or nearly so.
func (d *laid) cross(f flank, lift float64, slack float64) (c crossing, ok bool) {
	z, least := d.straight(lift), math.Inf(1)
	for k := 1; k < len(f.of); k++ {
		i, j := f.of[k-1], f.of[k]
		by := (d.z[j] - d.z[i]) * f.rises
		if by <= 0 {
			continue
		}
		share, gap := (z-d.z[i])/(d.z[j]-d.z[i]), d.angle[j]-d.angle[i]
		bias := 4 * math.Abs(share*(1-share)) * sq(gap/float64(biasAcross)) * float64(mostBias)
		outside := math.Max(0, math.Max(-share, share-1))
		cost := gap * (1 + 10*outside) // rather between two a little farther apart
		if outside > slack || cost >= least {
			continue
		}
		least = cost
		c, ok = crossing{below: i, above: j, share: share, bias: bias}, true
	}
	if ok {
		c.sum = d.newSum().add(c.below, 1-c.share).add(c.above, c.share)
		c.slope, c.slopeDoubt = d.slopeOf(f, c, z)
		ok = c.slope*f.rises > 0
	}
	if ok {
		c.sum = c.byLifts(c.slope)
	}
	return c, ok
}

// nearest is how many readings tell a slope, and tellsSlope how far apart two of them lie
// that tell it alone: what lies farther off shows the flank's bend as well.
const (
	nearest    = 4
	tellsSlope = 4 * geometry.Degree
)

// slopeOf is how fast a flank's lift changes where it passes a lift, mm a radian, and the
// relative standard uncertainty of that.
func (d *laid) slopeOf(f flank, c crossing, z float64) (slope, doubt float64) {
	if d.angle[c.above]-d.angle[c.below] >= float64(tellsSlope) {
		return d.slopeBy([]int{c.below, c.above}, z)
	}
	return d.slope(f, z, c.of(d.angle))
}

// slope is the same at an angle, by the nearest readings.
func (d *laid) slope(f flank, z, angle float64) (slope, doubt float64) {
	of := slices.Clone(f.of)
	slices.SortStableFunc(of, func(i, j int) int { return cmp.Compare(math.Abs(d.angle[i]-angle), math.Abs(d.angle[j]-angle)) })
	return d.slopeBy(of[:min(nearest, len(of))], z)
}

// slopeBy is the same by least squares of readings, in the measure that straightens the
// flank.
func (d *laid) slopeBy(of []int, z float64) (slope, doubt float64) {
	var meanA, meanZ float64
	for _, i := range of {
		meanA += d.angle[i] / float64(len(of))
		meanZ += d.z[i] / float64(len(of))
	}
	var square, product float64
	for _, i := range of {
		square += sq(d.angle[i] - meanA)
		product += (d.angle[i] - meanA) * (d.z[i] - meanZ)
	}
	slope = d.top * math.Sin(2*z) * product / square
	return slope, math.Sqrt((sq(float64(d.step))/12 + sq(d.gauge()/slope)) / square)
}

// gauge is the standard uncertainty of a lift, mm.
func (d *laid) gauge() float64 { return float64(d.lobe.Gauge.Uncertainty()) }

func sq(x float64) float64 { return x * x }
