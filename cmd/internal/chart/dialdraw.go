package chart

import (
	"math"
	"slices"
	"strconv"

	"evendrop/cmd/internal/chart/draw"
)

// turned is where an angle of the picture lies, in degrees clockwise from the top.
func (f *face) turned(angle float64) float64 { return f.gain * (angle - f.middle) }

// polar is the place at so many picture degrees from the top and a radius.
func (f *face) polar(picture, radius float64) draw.Spot {
	sin, cos := math.Sincos(picture * math.Pi / 180)
	return draw.At(f.centre.X+radius*sin, f.centre.Y-radius*cos)
}

func (f *face) laneRadius(n int) float64 { return f.radius + (float64(f.lanes[n])+0.6)*laneWidth }

// ring draws the circle, or the part of it, with its ticks and numbers inside.
func (f *face) ring() {
	if f.whole360 {
		f.Circle("axis round", f.centre, f.radius)
	} else {
		f.arc("axis", f.turned(f.from), f.turned(f.to), f.radius)
	}
	for _, t := range f.Ticks {
		p := f.turned(t)
		f.Line("grid", f.polar(p, f.radius), f.polar(p, f.outer))
		f.Line("axis", f.polar(p, f.radius), f.polar(p, f.radius-7))
		at := f.polar(p, f.radius-f.numbersIn())
		f.Words("quiet small", "middle", draw.At(at.X, at.Y+draw.SmallSize*0.35), draw.Pretty(f.Label(t)))
	}
	if zero := f.turned(0); f.whole360 || f.from <= 0 && f.to >= 0 {
		f.Line("curve fore", f.polar(zero, f.radius-9), f.polar(zero, f.radius+2))
		at := f.polar(zero, f.radius-f.numbersIn()-16)
		f.Words("text small strong", "middle", draw.At(at.X, at.Y+draw.SmallSize*0.35), f.Zero)
	}
	f.sense()
}

// numbersIn is how far inside the ring its numbers stand.
func (f *face) numbersIn() float64 {
	if f.whole360 {
		return 22
	}
	return 18
}

// sense says which way is later.
func (f *face) sense() {
	if f.whole360 {
		f.Words("quiet", "middle", f.centre, "crank degrees")
		f.Words("quiet", "middle", draw.At(f.centre.X, f.centre.Y+draw.TextSize*draw.LineHeight), "later is clockwise")
		return
	}
	f.Words("quiet", "middle", draw.At(f.centre.X, f.foot-2), "← earlier · crank degrees · later →")
}

// arcs draws what mark n may lie in, broad and pale, the interval it is known to
// lie in, narrow and dark, and the mark itself.
func (f *face) arcs(n int) {
	m, radius := f.Marks[n], f.laneRadius(n)
	f.Group(m.Name)
	defer f.EndGroup()
	if m.LimitFrom != m.LimitTo {
		from, to := f.seen(m.LimitFrom, m.LimitTo, radius, 3)
		f.arc("limit", from, to, radius)
		for _, end := range []float64{from, to} {
			f.Line("edge solid", f.polar(end, radius-5), f.polar(end, radius+5))
		}
	}
	if m.From != m.To {
		from, to := f.seen(m.From, m.To, radius, 3)
		f.arc("reach", from, to, radius)
	}
	at := f.polar(f.turned(m.At), radius)
	f.Circle("tag", at, 3.6)
	if m.Alarm {
		const r = 5.5
		f.Line("mark alarmed", draw.At(at.X-r, at.Y-r), draw.At(at.X+r, at.Y+r))
		f.Line("mark alarmed", draw.At(at.X-r, at.Y+r), draw.At(at.X+r, at.Y-r))
	}
}

// seen is an interval in degrees of the picture, long enough to be seen.
func (f *face) seen(from, to, radius, least float64) (float64, float64) {
	return atLeast(f.turned(math.Min(from, to)), f.turned(math.Max(from, to)), least/radius*180/math.Pi)
}

// arc draws a part of a circle between two degrees of the picture, in chords
// too short to be told from it.
func (f *face) arc(class string, from, to, radius float64) {
	pieces := int(math.Ceil((to-from)/2)) + 1
	var spots []draw.Spot
	for i := range pieces + 1 {
		spots = append(spots, f.polar(from+(to-from)*float64(i)/float64(pieces), radius))
	}
	f.Path(class, spots, false)
}

// tags draws a number outside for each mark, moved apart where they would touch,
// with a line to the mark.
func (f *face) tags() {
	for n, at := range f.tagAngles() {
		m := f.Marks[n]
		on := f.polar(f.turned(m.At), f.laneRadius(n)+4)
		elbow := f.polar(f.turned(m.At), f.outer+2)
		tag := f.polar(at, f.tagDistance())
		f.Path("leader", []draw.Spot{on, elbow, tag}, false)
		f.tag(n, tag)
	}
}

func (f *face) tagDistance() float64 { return f.outer + 2*tagRadius }

// tag draws mark n's number in a circle, in a square where it is an alarm.
func (f *face) tag(n int, at draw.Spot) {
	if f.Marks[n].Alarm {
		f.Rect("tag alarmed heavy", draw.Box{Left: at.X, Top: at.Y, Right: at.X, Bottom: at.Y}.Grown(tagRadius-0.5))
	} else {
		f.Circle("tag", at, tagRadius)
	}
	f.Words("text small strong", "middle", draw.At(at.X, at.Y+draw.SmallSize*0.35), strconv.Itoa(n+1))
}

// tagAngles is where the tags go, in degrees of the picture. Round a whole
// circle they keep to the side of 180 deg that their marks lie on.
func (f *face) tagAngles() []float64 {
	size := (2*tagRadius + 6) / f.tagDistance() * 180 / math.Pi
	wanted, sizes := make([]float64, len(f.Marks)), make([]float64, len(f.Marks))
	for n, m := range f.Marks {
		wanted[n], sizes[n] = f.turned(m.At), size
	}
	low, high := -openedTo/2-size, openedTo/2+size
	if f.whole360 {
		low, high = -180, 180
		for n := range wanted {
			wanted[n] = math.Remainder(wanted[n], 360)
		}
	}
	return draw.Spread(wanted, sizes, low, high)
}

// list names the marks under the dial, and returns where it ends.
func (f *face) list() float64 {
	const left = draw.Margin + 2*tagRadius + 8
	y := f.foot + 12
	for n, m := range f.Marks {
		f.tag(n, draw.At(draw.Margin+tagRadius, y+tagRadius))
		at := draw.At(left, y+tagRadius+draw.TextSize*0.35)
		at.Y = f.Lines("text strong", "start", at, draw.TextSize, draw.Wrapped(m.Name, draw.Width-left-draw.Margin, draw.TextSize*draw.Bold, 2))
		if m.Detail != "" {
			at.Y = f.Lines("text", "start", at, draw.TextSize, draw.Wrapped(m.Detail, draw.Width-left-draw.Margin, draw.TextSize, 3))
		}
		y = at.Y - tagRadius - draw.TextSize*0.35 + 8
	}
	f.key(&y)
	return y + draw.Margin
}

// key says what the arcs are.
func (f *face) key(y *float64) {
	const wide = 30.0
	for _, k := range []struct{ class, says string }{
		{"limit", "allowed"}, {"reach", "where the mark lies (95 %)"},
	} {
		at := *y + draw.TextSize*0.5
		f.Line(k.class, draw.At(draw.Margin, at), draw.At(draw.Margin+wide, at))
		f.Words("quiet small", "start", draw.At(draw.Margin+wide+8, at+draw.SmallSize*0.35), k.says)
		*y += draw.TextSize * draw.LineHeight
	}
	if slices.ContainsFunc(f.Marks, func(m DialMark) bool { return m.Alarm }) {
		f.Words("quiet small", "start", draw.At(draw.Margin, *y+draw.TextSize*0.85), "Crossed, its number in a square: outside what is allowed")
		*y += draw.TextSize * draw.LineHeight
	}
}
