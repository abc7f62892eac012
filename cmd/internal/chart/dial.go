package chart

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"evendrop/cmd/internal/chart/draw"
)

// Dial is marks round a crank, in degrees: zero at the top, later clockwise.
// Marks that lie near one another are drawn on a part of the circle, opened out.
type Dial struct {
	Title       string
	Description string
	Zero        string // what zero is
	Marks       []DialMark
}

// DialMark is a mark, the interval it is known to lie in, and the interval it
// may lie in.
type DialMark struct {
	Name string
	// Detail is words under the name, such as a verdict. Leave the name out of
	// it: one written from right to left would turn the numbers after it round.
	Detail string
	At     float64 // degrees
	// From and To are the interval of At; zero both: none.
	From, To float64
	// LimitFrom and LimitTo are what is allowed; zero both: nothing is stated.
	LimitFrom, LimitTo float64
	Alarm              bool // drawn heavier, and crossed
}

// SVG is the dial as a picture. Numbers that are none, and no marks, are an error.
func (d Dial) SVG() ([]byte, error) {
	if len(d.Marks) == 0 {
		return nil, errors.New("a dial needs at least one mark")
	}
	for _, m := range d.Marks {
		if !draw.Finite(m.At, m.From, m.To, m.LimitFrom, m.LimitTo) {
			return nil, fmt.Errorf("mark %q at %g deg cannot be drawn", m.Name, m.At)
		}
	}
	f := d.face()
	f.ring()
	for n := range d.Marks {
		f.arcs(n)
	}
	f.tags()
	bottom := f.list()
	return f.Whole(draw.Width, bottom, d.Title, d.Description), nil
}

// face is a dial laid out. A crank angle a is drawn at gain (a - middle) from
// the top.
type face struct {
	*draw.Canvas
	Dial
	Scale
	gain, middle float64
	whole360     bool
	centre       draw.Spot
	radius       float64 // of the ring with the ticks
	lanes        []int   // of each mark
	outer        float64 // radius beyond the last lane
	foot         float64 // below everything round
}

// Sizes of a dial.
const (
	openedTo  = 100.0 // degrees of the picture that a part of a circle fills
	mostLimit = 90.0  // crank degrees that are drawn opened out
	laneWidth = 13.0
	tagRadius = 9.5
)

func (d Dial) face() *face {
	f := &face{Canvas: &draw.Canvas{}, Dial: d, gain: 1}
	var e extent
	for _, m := range d.Marks {
		from, to := m.reach()
		e.take(from, to)
	}
	f.whole360 = e.high-e.low > mostLimit
	if f.whole360 {
		f.Scale = newScale(Axis{From: 0, To: 360, Angle: true}, e)
		f.step = 30
		f.Ticks = f.Ticks[:0]
		for t := 0.0; t < 360; t += f.step {
			f.Ticks = append(f.Ticks, t)
		}
	} else {
		f.Scale = newScale(Axis{Angle: true}, e)
		f.middle = (f.from + f.to) / 2
		f.gain = openedTo / (f.to - f.from)
	}
	f.lanes = lanes(d.Marks, 12/f.gain, f.whole360)
	f.place()
	return f
}

// place fixes the centre and the radii under the title.
func (f *face) place() {
	top := f.Heading(f.Title, draw.Width)
	depth := float64(slices.Max(f.lanes)+1) * laneWidth
	const beyond = 3*tagRadius + 4
	half := openedTo / 2 * math.Pi / 180
	f.outer = (draw.Width/2-draw.Margin-10)/math.Sin(half) - beyond
	if f.whole360 {
		f.outer = draw.Width/2 - draw.Margin - beyond
	}
	f.radius = f.outer - depth
	f.centre = draw.At(draw.Width/2, top+6+f.outer+beyond)
	f.foot = f.centre.Y - (f.radius-18)*math.Cos(half) + 2.2*draw.TextSize
	if f.whole360 {
		f.foot = f.centre.Y + f.outer + beyond
	}
}

// reach is everything of a mark that is drawn, from the earliest to the latest.
func (m DialMark) reach() (from, to float64) {
	var e extent
	e.take(m.At)
	if m.From != m.To {
		e.take(m.From, m.To)
	}
	if m.LimitFrom != m.LimitTo {
		e.take(m.LimitFrom, m.LimitTo)
	}
	return e.low, e.high
}

// lanes gives each mark the innermost circle on which its arcs stay a gap away
// from the others'.
func lanes(marks []DialMark, gap float64, round bool) []int {
	out := make([]int, len(marks))
	order := make([]int, len(marks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		first, _ := marks[a].reach()
		second, _ := marks[b].reach()
		return cmp.Compare(first, second)
	})
	var taken [][]int
	for _, i := range order {
		lane := 0
		for lane < len(taken) && slices.ContainsFunc(taken[lane], func(j int) bool { return meet(marks[i], marks[j], gap, round) }) {
			lane++
		}
		if lane == len(taken) {
			taken = append(taken, nil)
		}
		taken[lane], out[i] = append(taken[lane], i), lane
	}
	return out
}

// meet tells whether two marks' arcs come nearer than a gap, on a line or round
// a circle.
func meet(a, b DialMark, gap float64, round bool) bool {
	aFrom, aTo := a.reach()
	bFrom, bTo := b.reach()
	half := (aTo-aFrom+bTo-bFrom)/2 + gap
	apart := math.Abs((aFrom+aTo)/2 - (bFrom+bTo)/2)
	if round {
		apart = math.Abs(math.Remainder(apart, 360))
	}
	return apart < half
}
