package curve

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Kind is a way of observing TDC by two angles, without a depth.
type Kind int

// The kinds, and how many there are.
const (
	StopPair Kind = iota
	DwellPair
	ViewPair
	Kinds
)

// The methods of pairs, by kind.
const (
	StopContacts = "stops"
	DwellPairs   = "dwell"
	EqualViews   = "equal views"
)

// String is the method that it makes.
func (k Kind) String() string { return [...]string{StopContacts, DwellPairs, EqualViews}[k] }

// Midpoint is an observation of TDC: half-way between two crank angles at one
// drop, whatever that is.
type Midpoint struct {
	Kind          Kind
	Angle         geometry.Angle         // crank, from the protractor's zero
	Read          []geometry.Angle       // what it is the mean of
	Half          float64                // half of what lies between the two, radians
	Sigma         float64                // standard uncertainty, radians
	Turn          evidence.TurnDirection // 0: the two were approached from either side
	ByLash, ByEye float64                // how late it comes per mm of lash, per unit of the eye's lag; radians
	Label         string                 // for messages
	Count         int                    // of pairs averaged in it
	Scatter       geometry.Angle         // between the highest and lowest repeat, when that is more than a step
}

// What an eye makes of a piston seen to stand still and to move: by how much of
// the half dwell it may see the end of motion earlier than the beginning, every
// time; by how much its own judgement varies; and how closely it matches a crown's
// edge with the same feature twice (common practice, no source: dwell edges are
// good to 0.5 to 1.5 deg).
const (
	EyeLagBound  = 0.25 // of the half dwell
	eyeNoise     = 0.05
	viewsMatchTo = 0.1 * geometry.Millimetre
)

// Midpoints is the pairs of a cylinder as observations of TDC.
func Midpoints(setup evidence.Setup, crank geometry.SliderCrank, c evidence.Cylinder) []Midpoint {
	list := stopMidpoints(setup.Protractor, c.Stops)
	for i, d := range c.Dwell {
		m := newMidpoint(setup.Protractor, d.Still, d.Moves)
		m.Kind, m.Turn, m.Label = DwellPair, d.Turn, numbered("Dwell pair", i)
		m.Sigma = math.Hypot(m.Sigma, eyeNoise*m.Half)
		m.ByLash = float64(d.Turn) / 2 / float64(crank.Slope(geometry.Angle(m.Half)))
		m.ByEye = float64(d.Turn) * m.Half
		list = append(list, m)
	}
	for i, v := range c.Views {
		m := newMidpoint(setup.Protractor, v.Before, v.After)
		slope := float64(crank.Slope(geometry.Angle(m.Half)))
		m.Kind, m.Turn, m.Label = ViewPair, v.Turn, numbered("Equal view", i)
		m.Sigma = math.Hypot(m.Sigma, float64(viewsMatchTo)/math.Sqrt(6)/slope)
		m.ByLash = float64(v.Turn) / 2 / slope
		list = append(list, m)
	}
	return list
}

// newMidpoint is between two angles, the nearer way round: two roundings halved,
// and the protractor's error at both places.
func newMidpoint(p evidence.Protractor, first, second geometry.Angle) Midpoint {
	return Midpoint{
		Count: 1,
		Read:  []geometry.Angle{first, second},
		Angle: geometry.CircularMean(first, second),
		Half:  math.Abs(float64((second - first).Signed())) / 2,
		Sigma: math.Hypot(float64(p.Step)/math.Sqrt(24), float64(p.Error)/math.Sqrt(6)),
	}
}

// stopMidpoints is a midpoint for every stop, its repeats averaged: contacts as
// far apart as one another are repeats of one stop.
func stopMidpoints(p evidence.Protractor, stops []evidence.Stop) []Midpoint {
	all := make([]Midpoint, len(stops))
	for i, s := range stops {
		all[i] = newMidpoint(p, s.Rising, s.Falling)
	}
	slices.SortStableFunc(all, func(a, b Midpoint) int { return cmp.Compare(a.Half, b.Half) })
	apart := math.Max(float64(geometry.Degree), 4*float64(p.Step))
	var out []Midpoint
	for from, i := 0, 1; i <= len(all); i++ {
		if i < len(all) && all[i].Half-all[i-1].Half < apart {
			continue
		}
		out = append(out, oneStop(p, all[from:i]))
		out[len(out)-1].Label = numbered("Stop", len(out)-1)
		from = i
	}
	return out
}

// oneStop is the mean of a stop's repeats. Few that scatter count as Student's t
// has it.
func oneStop(p evidence.Protractor, repeats []Midpoint) Midpoint {
	m := Midpoint{Kind: StopPair, Count: len(repeats)}
	var middles []geometry.Angle
	for _, r := range repeats {
		middles = append(middles, r.Angle)
		m.Read = append(m.Read, r.Read...)
		m.Half += r.Half / float64(len(repeats))
	}
	mean, component := gum.Repeated(middles, p.Step)
	if math.IsInf(component.Degrees, 1) {
		component.Standard /= math.Sqrt2 // two roundings to a midpoint
	} else {
		m.Scatter = extent(middles)
	}
	m.Angle = mean
	m.Sigma = math.Hypot(component.Standard*gum.Student95(component.Degrees)/gum.Normal95, float64(p.Error)/math.Sqrt(6))
	return m
}

// extent is how far apart the farthest of some near angles lie.
func extent(angles []geometry.Angle) geometry.Angle {
	var least, most geometry.Angle
	for _, a := range angles {
		off := (a - angles[0]).Signed()
		least, most = min(least, off), max(most, off)
	}
	return most - least
}

// Expected is where a midpoint comes, in radians from TDC, and its derivatives by
// the offset and by the wheel: what they make of it, and lash and eye in the
// direction it was turned.
func (m Midpoint) Expected(crank geometry.SliderCrank, beta []float64) (off, byOffset, byP float64) {
	off, byOffset = midway(crank, m.Half)
	byP = math.Cos(m.Half) - 1
	return off + byP*beta[WheelP] + m.ByLash*beta[Lash] + m.ByEye*beta[Eye], byOffset, byP
}

// midway is the angle from TDC about which two angles, half to either side, are at
// equal drop, and its derivative by the offset. Newton's steps start so near that the
// second leaves rounding alone. Two angles that are one are at TDC.
func midway(crank geometry.SliderCrank, half float64) (at, byOffset float64) {
	at = float64(crank.EqualDropMidpoint(crank.Drop(geometry.Angle(half))))
	for range 2 {
		before, rise, beforeByOffset := crank.Motion(geometry.Angle(at - half))
		after, fall, afterByOffset := crank.Motion(geometry.Angle(at + half))
		if fall == rise {
			return 0, 0
		}
		at -= float64(after-before) / float64(fall-rise)
		byOffset = (beforeByOffset - afterByOffset) / float64(fall-rise)
	}
	return at, byOffset
}

// numbered is a pair's name, counted from 1.
func numbered(what string, i int) string { return fmt.Sprintf("%s %d", what, i+1) }
