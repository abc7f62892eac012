package draw

import (
	"math"
	"strings"
)

// unseen is how far a line may leave a spot that it went through, in units of a picture: a
// twentieth of a pixel on a phone, and half of what a place is rounded to.
const unseen = 0.05

// evened is a path whose lines leave out the spots that they pass within what can be seen, so
// that a curve has many where it bends and few where it does not.
func evened(steps []step) (kept []step) {
	from := 0
	for i, s := range steps {
		if s.letter != 'L' || i+1 == len(steps) || steps[i+1].letter != 'L' || !straightOn(steps[from:i+2]) {
			kept, from = append(kept, s), i
		}
	}
	return kept
}

// straightOn tells whether the straight line from the first to the last of steps that all
// lead to a spot passes the others within what can be seen.
func straightOn(steps []step) bool {
	n := len(steps[0].args)
	first, last := At(steps[0].args[n-2], steps[0].args[n-1]), At(steps[len(steps)-1].args[0], steps[len(steps)-1].args[1])
	x, y := last.X-first.X, last.Y-first.Y
	long := math.Hypot(x, y)
	for _, s := range steps[1 : len(steps)-1] {
		toX, toY := s.args[0]-first.X, s.args[1]-first.Y
		on, off := (toX*x+toY*y)/long, math.Abs(x*toY-y*toX)/long
		if !(on >= 0 && on <= long && off <= unseen) { // nor where it comes back to its first spot, and long is zero
			return false
		}
	}
	return true
}

// relative writes a path with places counted from the one before, which are whole tenths,
// so that nothing adds up.
func relative(steps []step) string {
	var p pen
	for _, s := range steps {
		p.take(s)
	}
	return p.String()
}

// pen is where a path is, and began, in tenths of a unit.
type pen struct {
	strings.Builder
	x, y, fromX, fromY int
}

// take writes a step and goes where it leads.
func (p *pen) take(s step) {
	if s.letter == 'Z' {
		p.WriteByte('z')
		p.x, p.y = p.fromX, p.fromY
		return
	}
	n := len(s.args)
	x, y := tenths(s.args[n-2]), tenths(s.args[n-1])
	dx, dy := decimal(x-p.x), decimal(y-p.y)
	switch {
	case s.letter == 'L' && dy == "0":
		p.WriteString("h" + dx)
	case s.letter == 'L' && dx == "0":
		p.WriteString("v" + dy)
	case s.letter == 'A':
		p.WriteString("a" + number(s.args[0]))
		for _, arg := range s.args[1:5] {
			p.WriteString(" " + number(arg))
		}
		p.WriteString(spaced(dx) + spaced(dy))
	case s.letter == 'Q':
		p.WriteString("q" + decimal(tenths(s.args[0])-p.x) + spaced(decimal(tenths(s.args[1])-p.y)) + spaced(dx) + spaced(dy))
	default:
		p.WriteString(strings.ToLower(string(s.letter)) + dx + spaced(dy))
	}
	p.x, p.y = x, y
	if s.letter == 'M' {
		p.fromX, p.fromY = x, y
	}
}

func tenths(x float64) int { return int(math.Round(x * 10)) }

// decimal is so many tenths as a number.
func decimal(tenths int) string { return number(float64(tenths) / 10) }

// spaced is a number after another.
func spaced(number string) string {
	if strings.HasPrefix(number, "-") {
		return number
	}
	return " " + number
}
