package crank

import (
	"math"
	"slices"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
)

// run is the lanes of one body, the outermost first.
type run []lane

func (r run) outer() float64 { return r[0].outer }
func (r run) inner() float64 { return r[len(r)-1].inner }

// suspect tells whether the body is to be outlined: a mark on it is likely moved with it,
// and is not within.
func (r run) suspect() bool {
	return slices.ContainsFunc(r, func(l lane) bool { return l.Suspect && (l.State == doc.Outside || l.State == doc.TooClose) })
}

// runs are the bodies of the picture.
func (f *fan) runs() (out []run) {
	for _, l := range f.lanes {
		if l.joined {
			out[len(out)-1] = append(out[len(out)-1], l)
			continue
		}
		out = append(out, run{l})
	}
	return out
}

func (f *fan) sector(class string, inner, outer, from, to float64) {
	f.Trace(class, draw.Sector(f.centre, inner, outer, from, to), true)
}

// bodies draws the arcs, with a seam between two of one body.
func (f *fan) bodies() {
	for _, r := range f.runs() {
		f.sector("body", r.inner(), r.outer(), -f.half, f.half)
		for _, l := range r[1:] {
			f.Curve("seam", f.arc(l.outer, -f.half, f.half))
		}
	}
}

// bodyNames writes the name of each body that has more than one lane along its left end,
// moved apart where they would touch.
func (f *fan) bodyNames() {
	const clear, apart = 62.0, 8.0 // clear of the cylinder, from the centre
	var names []string
	var wanted, sizes []float64
	for _, r := range f.runs() {
		if len(r) > 1 {
			names = append(names, draw.Clean(r[0].Body))
			wanted = append(wanted, -(r.outer()+r.inner())/2)
		}
	}
	for i, name := range names {
		names[i] = draw.Shortened(name, (f.outer-clear)/float64(len(names))-apart, draw.SmallSize)
		sizes = append(sizes, draw.TextWidth(names[i], draw.SmallSize)+apart)
	}
	for i, middle := range draw.Spread(wanted, sizes, -f.outer, -clear) {
		at := f.at(-f.half, -middle+sizes[i]/2-apart/2)
		f.Turn(90-f.half, at)
		f.Words("text small", "start", draw.At(at.X, at.Y+draw.SmallSize), names[i])
		f.EndGroup()
	}
}

// suspects outlines the bodies that are likely to blame.
func (f *fan) suspects() {
	for _, r := range f.runs() {
		if r.suspect() {
			f.sector("suspect", r.inner(), r.outer(), -f.half, f.half)
		}
	}
}

// boxes draws what is allowed of every mark.
func (f *fan) boxes() {
	for _, l := range f.lanes {
		half, open := l.box(f)
		switch {
		case l.Limit == 0:
		case open:
			f.sector("ground", l.inner, l.outer, -half, half)
			f.Curve("axis", f.arc(l.inner, -half, half))
			f.Curve("axis", f.arc(l.outer, -half, half))
		default:
			f.sector("member", l.inner, l.outer, -half, half)
		}
	}
}

// mark draws where a mark was, where it is, and its words.
func (f *fan) mark(l lane) {
	f.Group(l.described())
	defer f.EndGroup()
	ink, line := "text", "axis heavy"
	if l.accused() {
		ink, line = "accused", "suspect"
	}
	if from, to, shown := l.bar(f); shown {
		f.bar(line, l, from, to)
	}
	if l.moved {
		f.before(l)
	}
	f.signed(l, l.sign, func(at draw.Spot) { f.Sign(ink, l.State, at, l.signSize()) })
	if l.sign.beyond {
		f.onward(ink, l, l.sign)
	}
	f.phrase(ink+" small strong", l, l.says)
	f.phrase("text small", l, l.named)
	f.phrase("text small", l, l.wasSays)
}

// bar draws the measured interval, with a cap at each end that is not cut off.
func (f *fan) bar(class string, l lane, from, to float64) {
	f.Curve(class, f.arc(l.middle(), from, to))
	var caps [][2]draw.Spot
	for _, end := range []float64{from, to} {
		if math.Abs(math.Abs(end-l.sign.at)-f.drawn(l.Half)) < 1e-9 {
			caps = append(caps, [2]draw.Spot{f.at(end, l.middle()-4), f.at(end, l.middle()+4)})
		}
	}
	if len(caps) > 0 {
		f.Strokes(class, caps)
	}
}

// before draws the sign of what was, dashed, with an arrow to the one of what is.
func (f *fan) before(l lane) {
	f.signed(l, l.was, func(at draw.Spot) { f.Ghost(l.Was.State, at, l.signSize()) })
	if l.was.beyond { // the words stand where the arrow would be
		f.onward("text", l, l.was)
		return
	}
	way := math.Copysign(1, l.sign.at-l.was.at)
	room := l.signHalf() + l.span(2)
	if barFrom, barTo, shown := l.bar(f); shown { // an arrow ends short of the bar
		room = max(room, math.Max(barTo-l.sign.at, l.sign.at-barFrom)+l.span(3))
	}
	from, tip := l.was.at+way*(l.signHalf()+l.span(1)), l.sign.at-way*room
	if way*(tip-from) > l.span(7) {
		f.Curve("axis mark", f.arc(l.middle(), min(from, tip-way*l.span(5)), max(from, tip-way*l.span(5))))
		f.head("text", f.at(tip, l.middle()), tip+way*90)
	}
}

// signed draws a sign turned as its lane is where it stands.
func (f *fan) signed(l lane, where place, sign func(draw.Spot)) {
	at := f.at(where.at, l.middle())
	f.Turn(where.at, at)
	sign(at)
	f.EndGroup()
}

// onward draws the arrow that says that a mark lies farther than the fan.
func (f *fan) onward(ink string, l lane, where place) {
	way := math.Copysign(1, where.at)
	tip := way * (f.half - l.span(1.5))
	f.head(ink, f.at(tip, l.middle()), tip+way*90)
}

// head draws an arrow's head that points in a direction, in degrees clockwise from up.
func (f *fan) head(ink string, tip draw.Spot, direction float64) {
	const long, half = 7.0, 3.6
	base := draw.Polar(tip, direction+180, long)
	f.Path(ink, []draw.Spot{tip, draw.Polar(base, direction-90, half), draw.Polar(base, direction+90, half)}, true)
}

// phrase writes words along a lane. Its arc goes on to the fan's end, for letters that are
// wider than they were taken to be.
func (f *fan) phrase(class string, l lane, p phrase) {
	if p.text != "" {
		f.WordsAlong(class, "start", f.arc(l.baseline(), p.from, max(p.to, f.half)), p.text)
	}
}
