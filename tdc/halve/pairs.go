package halve

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Pair is two crank angles at the same drop, or at a stop, from the protractor's
// zero, in the order that the crank came to them.
type Pair struct {
	First, Second geometry.Angle
}

// width is how far the second angle lies on from the first: negative turning back.
func (p Pair) width() geometry.Angle { return (p.Second - p.First).Signed() }

// middle is half-way, on the shorter way round.
func (p Pair) middle() geometry.Angle { return geometry.CircularMean(p.First, p.Second) }

// Halved is TDC by pairs of angles alone.
type Halved struct {
	TDC     gum.Estimate
	Middles []geometry.Angle // of each pair
	// Lag is how much later than TDC the pairs turned forward put it, and earlier the
	// pairs turned back; nil when all were turned one way.
	Lag *geometry.Angle
	// Between tells that the pairs came in two lots as far apart as lash and the eye
	// make them, all written as turned one way: TDC is between the two.
	Between bool
}

// Vague is the half-width of a 95 % interval from which TDC is no answer: it does not
// tell a crank sprocket's tooth, 16 to 21 deg, from the next (common practice, no
// source).
const Vague = 10 * geometry.Degree

// Most that pairs turned forward may come after pairs turned back: dwell edges seen one
// way are good to 1.5 deg (common practice, no source), a loose engine's a deg more.
const mostLag = 2.5 * geometry.Degree

// Pairs is TDC as the mean midpoint of pairs of angles at equal drop or at a
// stop, with each pair's own midpoint. A pair whose second angle lies before its first
// was turned back; of pairs turned both ways the two means are averaged, in which lash
// cancels. The uncertainty is the protractor's alone, or the scatter of the midpoints
// where that is greater: lash and the gauge are not in it. No pairs, one angle twice,
// two half a turn apart, and pairs that do not belong together are an error.
func Pairs(p evidence.Protractor, pairs []Pair) (Halved, error) {
	if len(pairs) == 0 {
		return Halved{}, errors.New("no pair of angles")
	}
	var h Halved
	var ways [2][]geometry.Angle // turned forward, turned back
	for i, pair := range pairs {
		if err := noPair(p, i, pair); err != nil {
			return Halved{}, err
		}
		way := 0
		if pair.width() < 0 {
			way = 1
		}
		ways[way] = append(ways[way], pair.middle())
		h.Middles = append(h.Middles, pair.middle())
	}
	forward, back := ways[0], ways[1]
	bothWays := len(forward) > 0 && len(back) > 0
	if !bothWays {
		forward, back = inTwoLots(p, h.Middles)
		h.Between = len(back) > 0 && lagSize(forward, back) <= lagWithin(pairs)
	}
	switch {
	case bothWays:
		h.TDC = betweenLots(p, forward, back, 0)
		lag := lagOf(forward, back)
		h.Lag = &lag
	case h.Between:
		h.TDC = betweenLots(p, forward, back, float64(lagSize(forward, back)))
	default:
		h.TDC = oneLot(p, h.Middles)
	}
	if bothWays && lagSize(forward, back) > lagWithin(pairs) || h.TDC.Expanded > Vague {
		return Halved{}, strangers(p, h.Middles)
	}
	return h, nil
}

// noPair is why two angles are no pair.
func noPair(p evidence.Protractor, i int, pair Pair) error {
	first, second := evidence.ShortNumber(p.Shows(pair.First).Degrees()), evidence.ShortNumber(p.Shows(pair.Second).Degrees())
	const rounding = 1e-9
	switch apart := geometry.Angle(math.Abs(float64(pair.width()))); {
	case apart.Degrees() > 179.999:
		return fmt.Errorf("pair %d: two angles half a turn apart have no nearer midpoint: take a smaller drop", i+1)
	case apart <= p.Step+rounding:
		return fmt.Errorf("pair %d: %s and %s are the same angle on this protractor: read the same drop on both sides of TDC", i+1, first, second)
	}
	return nil
}

// lagOf is half of what the first lot of midpoints comes after the second.
func lagOf(forward, back []geometry.Angle) geometry.Angle {
	first, _ := gum.Repeated(forward, 0)
	second, _ := gum.Repeated(back, 0)
	return (first - second).Signed() / 2
}

// lagSize is its size.
func lagSize(forward, back []geometry.Angle) geometry.Angle {
	return geometry.Angle(math.Abs(float64(lagOf(forward, back))))
}

// lagWithin is the most that lash and the eye may make of pairs like these: never more
// than a quarter of the narrowest one.
func lagWithin(pairs []Pair) geometry.Angle {
	most := mostLag
	for _, pair := range pairs {
		most = min(most, geometry.Angle(math.Abs(float64(pair.width())))/4)
	}
	return most
}

// oneLot is the mean of midpoints turned one way.
func oneLot(p evidence.Protractor, middles []geometry.Angle) gum.Estimate {
	mean, component := meanMiddle(p, middles)
	return ofPairs(p, gum.Spread{Normal: []gum.Component{component}}, mean)
}

// betweenLots is half-way between the means of two lots of midpoints, which may be
// off by a doubt (radians) either way: as likely at its ends as between them.
func betweenLots(p evidence.Protractor, forward, back []geometry.Angle, doubt float64) gum.Estimate {
	first, one := meanMiddle(p, forward)
	second, other := meanMiddle(p, back)
	one.Standard, other.Standard = one.Standard/2, other.Standard/2
	s := gum.Spread{Normal: []gum.Component{one, other}}
	if doubt > 0 {
		s.Rectangular = []float64{doubt}
	}
	return ofPairs(p, s, geometry.CircularMean(first, second))
}

// meanMiddle is the mean of midpoints, and what rounding and scatter leave of it.
func meanMiddle(p evidence.Protractor, middles []geometry.Angle) (geometry.Angle, gum.Component) {
	mean, component := gum.Repeated(middles, p.Step)
	if math.IsInf(component.Degrees, 1) {
		component.Standard /= math.Sqrt2 // two roundings to a midpoint
	}
	return mean, component
}

// ofPairs adds the protractor's error at both places, and where TDC comes on it.
func ofPairs(p evidence.Protractor, s gum.Spread, at geometry.Angle) gum.Estimate {
	s.Normal = append(s.Normal, gum.Component{Standard: float64(p.Error) / math.Sqrt(6), Degrees: math.Inf(1)})
	s.Rectangular = append(s.Rectangular, float64(p.Error)/math.Sqrt(3))
	return s.Estimate(at.Signed())
}

// inTwoLots is midpoints in two lots, the later first, with no more in each than the
// protractor explains; none where they come in one lot, in more, or one stands alone
// among three and more.
func inTwoLots(p evidence.Protractor, middles []geometry.Angle) (later, earlier []geometry.Angle) {
	from := middles[0]
	off := make([]geometry.Angle, len(middles))
	for i, m := range middles {
		off[i] = (m - from).Signed()
	}
	slices.Sort(off)
	split := 0
	for i := 1; i < len(off); i++ {
		if split == 0 || off[i]-off[i-1] > off[split]-off[split-1] {
			split = i
		}
	}
	explained := p.Step + geometry.Angle(math.Sqrt2)*p.Error
	if len(off) < 2 || len(off) > 2 && min(split, len(off)-split) < 2 || off[len(off)-1]-off[0] <= explained ||
		off[split-1]-off[0] > explained || off[len(off)-1]-off[split] > explained {
		return nil, nil
	}
	for i, o := range off {
		if i < split {
			earlier = append(earlier, from+o)
		} else {
			later = append(later, from+o)
		}
	}
	return later, earlier
}

// strangers says that pairs do not belong together, and which.
func strangers(p evidence.Protractor, middles []geometry.Angle) error {
	at := func(m geometry.Angle) string { return evidence.ShortNumber(p.Shows(m).Degrees()) }
	if len(middles) == 2 {
		return fmt.Errorf("the pairs do not belong together: half-way is %s for pair 1 and %s for pair 2. One of them is wrong: read a third to see which%s",
			at(middles[0]), at(middles[1]), ofBottom((middles[1] - middles[0]).Signed()))
	}
	which, off := Farthest(middles)
	return fmt.Errorf("the pairs do not belong together: half-way is %s for pair %d, %s deg from the others; read it again, or leave it out%s",
		at(middles[which]), which+1, geometry.Decimal(math.Abs(off.Degrees()), 3), ofBottom(off))
}

// ofBottom says that a midpoint half a turn from another is of the other dead centre.
func ofBottom(off geometry.Angle) string {
	if math.Abs(off.Degrees()) > 170 {
		return ". One is of the piston's lowest point: that is BDC"
	}
	return ""
}

// Farthest is the midpoint that lies farthest from the middle one, and how far.
func Farthest(middles []geometry.Angle) (which int, off geometry.Angle) {
	from := middles[0]
	for _, m := range middles { // one that most lie near, not across the circle
		if near(middles, m) > near(middles, from) {
			from = m
		}
	}
	var all []geometry.Angle
	for _, m := range middles {
		all = append(all, (m - from).Signed())
	}
	middle := slices.Sorted(slices.Values(all))[len(all)/2]
	for i, o := range all {
		if math.Abs(float64(o-middle)) > math.Abs(float64(off)) {
			which, off = i, o-middle
		}
	}
	return which, off
}

// near is how many of some angles lie within a quarter turn of one.
func near(angles []geometry.Angle, of geometry.Angle) (n int) {
	for _, a := range angles {
		if math.Abs((a - of).Signed().Degrees()) < 90 {
			n++
		}
	}
	return n
}
