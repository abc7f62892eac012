// Package compare says how far cam edges moved from one capture to another, and what
// that points to.
package compare

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/timing"
)

// Shift is how far an edge moved from one capture to another.
type Shift struct {
	Edge        timing.Edge    // in the later capture
	Before      geometry.Angle // in the earlier one
	Angle       geometry.Angle // crank, late positive
	Uncertainty geometry.Angle // standard; NaN when either was seen once
	Expanded    geometry.Angle // half-width of the 95 % interval; +Inf then
}

// Moved says whether the shift is more than chance.
func (s Shift) Moved() bool { return math.Abs(float64(s.Angle)) > float64(s.Expanded) }

func (s Shift) unsure() bool { return math.IsInf(float64(s.Expanded), 1) }

// Comparison is two captures of an engine side by side.
type Comparison struct {
	Shifts  []Shift
	Finding finding.Finding   // what the shifts point to
	Notes   []finding.Finding // what to bear in mind
}

// Compare holds a capture against an earlier one, or one known to be good; an error where
// their crank wheels differ, or no cam edge is in both.
func Compare(before, after timing.Result) (Comparison, error) {
	var c Comparison
	if !before.Wheel.Alike(after.Wheel) {
		return c, fault.Errorf("the crank wheel is %s in one capture and %s in the other", before.Wheel.Name, after.Wheel.Name).OrWheel("")
	}
	if before.CrankEdge != after.CrankEdge || before.CrankKind != after.CrankKind {
		c.Notes = append(c.Notes, finding.LeadsDiffer{Before: string(before.CrankEdge), After: string(after.CrankEdge)})
	}
	period := min(before.Period, after.Period)
	best := math.Inf(1)
	part := max(before.Wheel.Part(), after.Wheel.Part())
	for n := range int(math.Round(float64(period / part))) {
		turned := geometry.Angle(n) * part
		shifts, notes := pair(before, after, period, turned)
		if size := totalOf(shifts); size < best || len(c.Shifts) == 0 {
			best, c.Shifts = size, shifts
			c.Notes = append(c.Notes[:len(c.Notes):len(c.Notes)], notes...)
			if turned > 0 {
				c.Notes = slices.Compact(c.Notes)
			}
		}
	}
	if len(c.Shifts) == 0 {
		return c, fault.Errorf("no cam edge is in both captures: capture the same sensors").Or(fault.CamColumns)
	}
	if a, b := before.RPMMin+before.RPMMax, after.RPMMin+after.RPMMax; math.Max(a, b) > speedsAlike*math.Min(a, b) {
		c.Notes = append(c.Notes, finding.SpeedsDiffer{Before: a / 2, After: b / 2})
	}
	c.Finding = pointsTo(c.Shifts, after.Wheel)
	return c, nil
}

// speedsAlike is the ratio of speeds above which captures are told to differ: a
// Hall sensor's 50 us of delay are 0.06 deg at 200 rev/min and 0.9 at 3000
// (common practice, no source).
const speedsAlike = 1.5

// OfCam is the shifts of a cam's edges, in the order of its edges, and whether they
// are one shift, each known to some uncertainty.
func (c Comparison) OfCam(channel int) (shifts []Shift, one bool) {
	shifts = ofCam(c.Shifts, channel)
	return shifts, len(shifts) > 0 && !slices.ContainsFunc(shifts, Shift.unsure) && together(shifts)
}

// Mean is edges that moved together as one, at the first of them, by their mean
// shift. It is known to the greatest of their uncertainties, no better: edges timed
// by one crank wheel share errors.
func Mean(shifts []Shift) Shift {
	mean := shifts[0]
	mean.Angle = meanShift(shifts)
	for _, s := range shifts {
		mean.Uncertainty, mean.Expanded = max(mean.Uncertainty, s.Uncertainty), max(mean.Expanded, s.Expanded)
	}
	return mean
}

func totalOf(shifts []Shift) float64 {
	sum := 0.0
	for _, s := range shifts {
		sum += math.Abs(float64(s.Angle))
	}
	return sum
}

// pair matches the edges of each channel of two captures, the earlier turned on.
func pair(before, after timing.Result, period, turned geometry.Angle) (shifts []Shift, notes []finding.Finding) {
	for _, channel := range channelsOf(after.Edges) {
		old, now := ofChannel(before.Edges, channel, period, turned), ofChannel(after.Edges, channel, period, 0)
		if len(old) != len(now) {
			notes = append(notes, finding.EdgeCountsDiffer{Column: channel, Before: len(old), After: len(now)})
			continue
		}
		offset := bestOffset(old, now, period)
		if offset < 0 {
			notes = append(notes, finding.EdgeKindsDiffer{Column: channel})
			continue
		}
		for i, e := range now {
			o := old[(i+offset)%len(old)]
			shifts = append(shifts, shiftOf(o, e, period, before.Step, after.Step))
		}
	}
	return shifts, notes
}

func channelsOf(edges []timing.Edge) []int {
	var out []int
	for _, e := range edges {
		out = append(out, e.Channel)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// ofChannel is a channel's edges turned on, in order within the period.
func ofChannel(edges []timing.Edge, channel int, period, turned geometry.Angle) []timing.Edge {
	var out []timing.Edge
	for _, e := range edges {
		if e.Channel == channel {
			e.Angle = timing.Into(e.Angle+turned, period)
			out = append(out, e)
		}
	}
	slices.SortStableFunc(out, func(a, b timing.Edge) int { return cmp.Compare(a.Angle, b.Angle) })
	return out
}

// likeSpread is how much less alike the shifts of a cam's edges may be for a
// pairing that moves them less.
const likeSpread = 2 * geometry.Degree

// bestOffset is the pairing, in cyclic order, that leaves a cam's pattern most
// alike, and among those about as good the one that moves it least; -1 of none.
func bestOffset(old, now []timing.Edge, period geometry.Angle) int {
	type candidate struct {
		offset       int
		spread, size float64
	}
	var all []candidate
	for offset := range old {
		low, high := math.Inf(1), math.Inf(-1)
		fits := true
		first := 0.0
		for i, e := range now {
			o := old[(i+offset)%len(old)]
			fits = fits && e.Kind == o.Kind
			d := math.Remainder(float64(e.Angle-o.Angle), float64(period))
			if i == 0 {
				first = d
			}
			d = first + math.Remainder(d-first, float64(period))
			low, high = math.Min(low, d), math.Max(high, d)
		}
		if fits {
			all = append(all, candidate{offset, high - low, math.Abs(low + high)})
		}
	}
	if len(all) == 0 {
		return -1
	}
	least := slices.MinFunc(all, func(a, b candidate) int { return cmp.Compare(a.spread, b.spread) }).spread
	all = slices.DeleteFunc(all, func(c candidate) bool { return c.spread > least+float64(likeSpread) })
	return slices.MinFunc(all, func(a, b candidate) int { return cmp.Compare(a.size, b.size) }).offset
}

// shiftOf is one edge's shift. The scatter from turn to turn gives the means'
// uncertainty (JCGM 100 4.2.3), with Welch and Satterthwaite's degrees of freedom
// (G.4.1); a sample's width, rectangular, is the least that it can be.
func shiftOf(old, now timing.Edge, period, oldStep, nowStep geometry.Angle) Shift {
	s := Shift{Edge: now, Before: old.Angle, Angle: geometry.Angle(math.Remainder(float64(now.Angle-old.Angle), float64(period)))}
	a, b := variance(old, oldStep), variance(now, nowStep)
	s.Uncertainty = geometry.Angle(math.Sqrt(a + b))
	if old.Count < 2 || now.Count < 2 {
		s.Uncertainty, s.Expanded = geometry.Angle(math.NaN()), geometry.Angle(math.Inf(1))
		return s
	}
	freedom := (a + b) * (a + b) / (a*a/float64(old.Count-1) + b*b/float64(now.Count-1))
	s.Expanded = s.Uncertainty * geometry.Angle(distuv.StudentsT{Sigma: 1, Nu: freedom}.Quantile(0.975))
	return s
}

// variance is that of an edge's mean, rad^2.
func variance(e timing.Edge, step geometry.Angle) float64 {
	deviation := math.Max(float64(e.Deviation), float64(step)/math.Sqrt(12))
	return deviation * deviation / float64(e.Count)
}
