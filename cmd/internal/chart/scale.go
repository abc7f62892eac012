package chart

import (
	"math"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/words"
)

// extent is the least and the greatest of the values taken.
type extent struct {
	low, high float64
	any       bool
}

func (e *extent) take(values ...float64) {
	for _, v := range values {
		if !e.any {
			e.low, e.high, e.any = v, v, true
		}
		e.low, e.high = math.Min(e.low, v), math.Max(e.high, v)
	}
}

// Scale is an axis laid out: its ends and its ticks.
type Scale struct {
	from, to float64
	step     float64
	Ticks    []float64 // the values that have a number
}

// mostTicks is how many ticks an axis has at most, before its ends are moved out.
const mostTicks = 8

// newScale lays an axis out over what it must show. Ends that the axis does not
// fix are moved out to a tick or half-way to one.
func newScale(a Axis, e extent) Scale {
	fixed := a.From != a.To
	if fixed {
		e = extent{low: math.Min(a.From, a.To), high: math.Max(a.From, a.To)}
	}
	if e.low == e.high {
		room := math.Max(1, math.Abs(e.low)*0.1)
		e.low, e.high = e.low-room, e.high+room
	}
	s := Scale{from: e.low, to: e.high, step: niceStep(e.high-e.low, a.Angle)}
	if !fixed {
		half := s.step / 2
		s.from = math.Floor(e.low/half+rounding) * half
		s.to = math.Ceil(e.high/half-rounding) * half
	}
	if a.Bare {
		return s
	}
	first := math.Ceil(s.from/s.step - rounding)
	for n := first; n*s.step <= s.to+rounding*s.step; n++ {
		s.Ticks = append(s.Ticks, n*s.step)
	}
	return s
}

// rounding is the part of a step within which an end is on a tick: far more
// than the roundings of a division, far less than can be seen.
const rounding = 1e-6

// turnSteps are the steps that divide a turn evenly and are counted easily.
var turnSteps = []float64{1, 2, 5, 10, 15, 30, 45, 60, 90, 180, 360}

// niceStep is the least step of 1, 2 or 5 and zeros, or a part of a turn, that
// needs no more than mostTicks steps for a span.
func niceStep(span float64, angle bool) float64 {
	least := span / mostTicks * (1 - rounding)
	if angle && least > 1 {
		for _, step := range turnSteps {
			if step >= least {
				return step
			}
		}
	}
	ten := math.Pow(10, math.Floor(math.Log10(least)))
	for _, step := range []float64{1, 2, 5} {
		if step*ten >= least {
			return step * ten
		}
	}
	return 10 * ten
}

// At is how far along the axis a value lies: 0 at from, 1 at to.
func (s Scale) At(value float64) float64 { return (value - s.from) / (s.to - s.from) }

// Label writes a tick with the decimals that its step needs.
func (s Scale) Label(tick float64) string {
	places := max(0, -int(math.Floor(math.Log10(s.step)+rounding)))
	return words.Fixed(tick, places)
}

// numbered is the ticks whose numbers have room beside one another along so much of a picture:
// all, or every second, third and so on, zero among them.
func (s Scale) numbered(long float64) (list []float64) {
	widest := 0.0
	for _, t := range s.Ticks {
		widest = math.Max(widest, draw.TextWidth(draw.Pretty(s.Label(t)), draw.SmallSize))
	}
	const apart = 4.0 // units of a picture between two numbers
	every := math.Ceil((widest + apart) / (long * s.step / (s.to - s.from)))
	for _, t := range s.Ticks {
		if n := math.Round(t / s.step); math.Mod(n, math.Max(1, every)) == 0 {
			list = append(list, t)
		}
	}
	return list
}
