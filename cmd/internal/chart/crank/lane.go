package crank

import (
	"math"

	"evendrop/cmd/internal/chart/draw"
)

// lane is a mark laid out on its arc; angles are degrees of the picture.
type lane struct {
	Mark
	outer, inner float64 // radii
	joined       bool    // with the lane outside it, on one body
	sign, was    place
	moved        bool    // far enough from where it was to be drawn there too
	allowed      float64 // half of the band that is allowed
	writing
}

// place is where a sign stands.
type place struct {
	at     float64
	beyond bool // the mark lies farther off than the fan shows
}

func (l lane) middle() float64 { return (l.inner + l.outer) / 2 }

// signSize is the side of the square that is the sign for outside.
func (l lane) signSize() float64 { return min(12.5, (l.outer-l.inner)*0.56) }

// span is what a length on the lane takes, in degrees of the picture.
func (l lane) span(length float64) float64 { return draw.Degrees(length, l.middle()) }

// signHalf is half of what a sign takes.
func (l lane) signHalf() float64 { return l.span(l.signSize() * 0.7) }

// signEnd is how far from the middle a sign may stand.
func (l lane) signEnd(f *fan) float64 { return f.half - l.signHalf() - l.span(10) }

// placed is where the sign of an angle stands: at the fan's end where the angle is beyond.
func (l lane) placed(f *fan, degrees float64) place {
	at, end := f.drawn(degrees), l.signEnd(f)
	if math.Abs(at) <= end {
		return place{at: at}
	}
	return place{at: math.Copysign(end, at), beyond: true}
}

// cramped tells whether something is off the fan that a smaller scale would have on it.
func (l lane) cramped(f *fan) bool {
	reaches := func(degrees, end float64) bool { return degrees > end || f.drawn(degrees) <= end }
	off := math.Abs(l.Off)
	ok := reaches(off, l.signEnd(f)) && reaches(l.Limit, f.half-2) && (off > l.signEnd(f) || reaches(off+l.Half, f.half-2))
	if l.Was != nil {
		ok = ok && reaches(math.Abs(l.Was.Off), l.signEnd(f))
	}
	return !ok
}

// bar is from where to where the measured interval is drawn: to the fan's ends, or to a
// sign at one, at most; shown tells whether it reaches out of its sign.
func (l lane) bar(f *fan) (from, to float64, shown bool) {
	half, low, high := f.drawn(l.Half), -f.half, f.half
	if l.moved && l.was.beyond {
		end := math.Abs(l.was.at) - l.signHalf() - l.span(2)
		if l.was.at < 0 {
			low = -end
		} else {
			high = end
		}
	}
	from, to = max(low, l.sign.at-half), min(high, l.sign.at+half)
	return from, to, !l.sign.beyond && half > l.signHalf()+l.span(2)
}

// box is half of the allowed band, wide enough to be seen; open tells that it is wider than
// the fan.
func (l lane) box(f *fan) (half float64, open bool) {
	half = f.drawn(l.Limit)
	return min(f.half, max(half, l.span(1.5))), half > f.half
}

// layOut places the signs and then the words.
func (l *lane) layOut(f *fan) {
	l.sign, l.moved = l.placed(f, l.Off), false
	if l.Was != nil {
		l.was = l.placed(f, l.Was.Off)
		l.moved = math.Abs(l.was.at-l.sign.at) > 2*l.signHalf()+l.span(3)
	}
	l.allowed, _ = l.box(f)
	l.write(l.taken(f))
}

// taken is what signs, bars and the allowed band leave of a lane for words.
func (l lane) taken(f *fan) gaps {
	pad := l.span(textPad)
	free := gaps{{pad - f.half, f.half - pad}}
	free = free.without(-l.span(2), l.span(2)) // the line of top dead centre
	if half, _ := l.box(f); l.Limit > 0 {
		free = free.without(-half-pad+l.span(1), -half+pad).without(half-pad, half+pad-l.span(1))
	}
	if from, to, shown := l.bar(f); shown {
		free = free.without(from-pad, to+pad)
	}
	half := l.signHalf() + l.span(3)
	free = free.without(l.sign.at-half, l.sign.at+half)
	if l.sign.beyond {
		free = free.without(l.sign.at, math.Copysign(f.half, l.sign.at))
	}
	switch {
	case l.moved && l.was.beyond:
		free = free.without(l.was.at-math.Copysign(half, l.was.at), math.Copysign(f.half, l.was.at))
	case l.moved:
		free = free.without(min(l.was.at, l.sign.at)-half, max(l.was.at, l.sign.at)+half)
	}
	return free
}
