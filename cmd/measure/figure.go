package main

import (
	"math"
	"strings"

	"evendrop/cmd/internal/words"
)

// figure is something measured, beside what it is held to.
type figure struct {
	what   string
	aim    aim
	value  float64
	chance float64 // how far the value may stray from the truth by chance
	shown  string  // the value, with its unit and whatever is worth knowing beside it
}

// aim is the least and the most that a figure may be; of the zero aim nothing is asked.
type aim struct {
	asked     bool
	low, high float64
}

func atMost(x float64) aim       { return aim{true, math.Inf(-1), x} }
func atLeast(x float64) aim      { return aim{true, x, math.Inf(1)} }
func between(low, x float64) aim { return aim{true, low, x} }

// String is an aim in words.
func (a aim) String() string {
	switch {
	case !a.asked:
		return "-"
	case math.IsInf(a.low, -1):
		return "at most " + words.Plain(a.high)
	case math.IsInf(a.high, 1):
		return "at least " + words.Plain(a.low)
	}
	return words.Plain(a.low) + " to " + words.Plain(a.high)
}

// beyond is how far a value lies outside an aim.
func (a aim) beyond(x float64) float64 {
	if !a.asked {
		return 0
	}
	return max(0, a.past(x))
}

// past is how far a value lies past the nearer end of an aim, negative within.
func (a aim) past(x float64) float64 { return max(a.low-x, x-a.high) }

// verdict is whether the figure reaches its aim.
func (f figure) verdict() string {
	switch beyond := f.aim.beyond(f.value); {
	case !f.aim.asked:
		return "-"
	case beyond == 0:
		return "reached"
	case beyond <= f.chance:
		return "reached but for chance"
	}
	return "missed" // what is no number too
}

// head is the top of the table.
func head() string {
	return "| part | what | aim | measured | |\n| --- | --- | --- | --- | --- |\n"
}

// row is the figure's row in it.
func (f figure) row(part string) string {
	cells := []string{part, f.what, f.aim.String(), f.shown, f.verdict()}
	return "| " + strings.Join(cells, " | ") + " |\n"
}
