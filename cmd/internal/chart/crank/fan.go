package crank

import (
	"cmp"
	"math"
	"slices"

	"evendrop/cmd/internal/chart/draw"
)

// Sizes of a picture, in its own units: shown 340 px wide, small words are 11.01 px high.
const (
	width   = 386.0
	top     = 42.0  // of the outermost arc
	reach   = 186.0 // of the fan to either side
	widest  = 66.0  // degrees of the picture that the fan opens to either side
	bodyGap = 3.0   // between two bodies
	textPad = 5.0   // round words
)

// fan is a picture laid out. An angle of the crank is drawn times as large.
type fan struct {
	*draw.Canvas
	centre draw.Spot
	outer  float64 // radius of the outermost arc
	inner  float64 // radius that the arcs leave free
	half   float64 // degrees of the picture to either side
	times  int
	lanes  []lane
}

// radii are of the outermost arc, and the breadth of a lane with the gap after it, by how
// many lanes there are: few are broader, many need a larger fan.
var radii = [mostMarks + 1]struct{ outer, pitch float64 }{
	1: {172, 31}, 2: {184, 29}, 3: {196, 27}, 4: {204, 23.5}, 5: {206, 23}, 6: {210, 20.5},
}

// fan lays a picture out at the greatest exaggeration at which everything fits.
func (p Picture) fan() *fan {
	size := radii[len(p.Marks)]
	f := &fan{Canvas: &draw.Canvas{}, outer: size.outer, inner: size.outer}
	f.centre = draw.At(width/2, top+f.outer)
	f.half = widest
	if sin := reach / f.outer; sin < 1 {
		f.half = min(widest, math.Asin(sin)*180/math.Pi)
	}
	f.exaggerate(sideBySide(p.Marks))
	return f
}

// arrange gives every mark its lane, the first the outermost.
func (f *fan) arrange(marks []Mark) {
	f.inner, f.lanes = f.outer, f.lanes[:0]
	for i, m := range marks {
		l := lane{Mark: m, outer: f.inner, inner: f.inner - radii[len(marks)].pitch + bodyGap}
		l.joined = i > 0 && m.Body != "" && marks[i-1].Body == m.Body
		if l.joined {
			l.outer += bodyGap
			l.inner += bodyGap
		}
		f.inner = l.inner - bodyGap
		f.lanes = append(f.lanes, l)
	}
}

// sideBySide is marks with those of one body after the first of them.
func sideBySide(marks []Mark) (out []Mark) {
	for i, m := range marks {
		first := slices.IndexFunc(marks, func(other Mark) bool { return other.Body == m.Body })
		switch {
		case m.Body == "":
			out = append(out, m)
		case first == i:
			for _, other := range marks[i:] {
				if other.Body == m.Body {
					out = append(out, other)
				}
			}
		}
	}
	return out
}

// scales are how many times too large angles may be drawn.
var scales = []int{20, 10, 5, 3, 2, 1}

// exaggerate lays the lanes out at the scale that shows most: everything on the fan that
// scale 1 has on it, as large as it can be with as little cut from the words. Where that
// makes it larger, the bodies that need most room go outside.
func (f *fan) exaggerate(marks []Mark) {
	const step = 8.0 // of loss by which a smaller scale, or another order, must be better
	best, order, least := 1, marks, math.Inf(1)
	for i, times := range scales {
		for j, try := range [][]Mark{marks, f.roomy(marks, times)} {
			f.arrange(try)
			f.layOut(times)
			loss := step * (float64(i) + float64(j)/2)
			for _, l := range f.lanes {
				loss += l.loss
			}
			cramped := slices.ContainsFunc(f.lanes, func(l lane) bool { return l.cramped(f) })
			if !cramped && loss < least {
				best, order, least = times, try, loss
			}
		}
	}
	f.arrange(order)
	f.layOut(best)
}

// roomy is the marks with the bodies outside whose names leave least room beside what is
// allowed.
func (f *fan) roomy(marks []Mark, times int) []Mark {
	needs := map[string]float64{} // the radius at which everything fits, by body or by name
	key := func(m Mark) string { return m.Body + "\n" + map[bool]string{true: m.Name}[m.Body == ""] }
	for _, m := range marks {
		room := max(1, f.half-float64(times)*m.Limit)
		needs[key(m)] = max(needs[key(m)], draw.TextWidth(m.Name, draw.SmallSize)/room)
	}
	out := slices.Clone(marks)
	slices.SortStableFunc(out, func(a, b Mark) int { return cmp.Compare(needs[key(b)], needs[key(a)]) })
	return sideBySide(out)
}

func (f *fan) layOut(times int) {
	f.times = times
	for i := range f.lanes {
		f.lanes[i].layOut(f)
	}
}

// drawn is an angle of the crank as an angle of the picture.
func (f *fan) drawn(degrees float64) float64 { return float64(f.times) * degrees }

func (f *fan) at(degrees, radius float64) draw.Spot { return draw.Polar(f.centre, degrees, radius) }

func (f *fan) arc(radius, from, to float64) draw.Arc {
	return draw.Arc{Centre: f.centre, Radius: radius, From: from, To: to}
}

// bottom is how high the picture is.
func (f *fan) bottom() float64 { return f.centre.Y + 0.46*f.crown() + 6 }

// crown is how far the piston's crown stands from the crank's centre.
func (f *fan) crown() float64 { return min(f.inner-4, 112) }
