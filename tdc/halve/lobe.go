package halve

import (
	"errors"
	"fmt"
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Centred is a cam lobe's centre by pairs of angles alone.
type Centred struct {
	Centre  gum.Estimate
	Middles []geometry.Angle // of each pair
}

// mostOpen is longer than any valve is open at a lift that a gauge shows (common
// practice, no source): pairs wider than this were typed closing first.
const mostOpen = 340 * geometry.Degree

// Open is how far the crank turns forward from a pair's first angle, read as the valve
// opens, to its second at the same lift as it closes: often more than half a turn.
func (p Pair) Open() geometry.Angle { return (p.Second - p.First).Positive() }

// Lobe is a cam lobe's centre as the mean midpoint of pairs of angles at equal lift, all
// turned forward, with each pair's own midpoint. The uncertainty is as in [Pairs]. No
// pairs, one angle twice, pairs typed closing first as far as that shows, and pairs that
// do not belong together are an error.
func Lobe(p evidence.Protractor, pairs []Pair) (Centred, error) {
	if len(pairs) == 0 {
		return Centred{}, errors.New("no pair of angles")
	}
	var c Centred
	for i, pair := range pairs {
		if err := noLobe(p, i, pair); err != nil {
			return Centred{}, err
		}
		c.Middles = append(c.Middles, pair.First+pair.Open()/2)
	}
	c.Centre = oneLot(p, c.Middles)
	if c.Centre.Expanded > Vague {
		return Centred{}, otherLobes(p, c.Middles)
	}
	return c, nil
}

// noLobe is why two angles are no pair of a lobe.
func noLobe(p evidence.Protractor, i int, pair Pair) error {
	first, second := evidence.ShortNumber(p.Shows(pair.First).Degrees()), evidence.ShortNumber(p.Shows(pair.Second).Degrees())
	const rounding = 1e-9
	switch open := pair.Open(); {
	case min(open, geometry.Turn-open) <= p.Step+rounding:
		return fmt.Errorf("pair %d: %s and %s are the same angle on this protractor: read the same lift on both flanks of the lobe", i+1, first, second)
	case open > mostOpen:
		return fmt.Errorf("pair %d: no valve is open for the %s deg from %s to %s: type first the angle at which it was opening",
			i+1, evidence.ShortNumber(open.Degrees()), first, second)
	}
	return nil
}

// otherLobes says that pairs of a lobe do not belong together, and why that may be.
func otherLobes(p evidence.Protractor, middles []geometry.Angle) error {
	which, off := Farthest(middles)
	if math.Abs(off.Degrees()) > 170 {
		return errors.New("the pairs do not belong together: their midpoints lie half a turn apart. Type first in each pair the angle at which the valve was opening")
	}
	return fmt.Errorf("the pairs do not belong together: half-way is %s for pair %d, %s deg from the others. "+
		"A lobe with unlike flanks has another midpoint at every lift: halve those of one lift, or read that pair again",
		evidence.ShortNumber(p.Shows(middles[which]).Degrees()), which+1, geometry.Decimal(math.Abs(off.Degrees()), 3))
}
