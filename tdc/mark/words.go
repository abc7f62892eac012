package mark

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evendrop/geometry"
)

// size writes how great an angle is, in tenths of a degree.
func size(a geometry.Angle) string { return fmt.Sprintf("%.1f", math.Abs(a.Degrees())) }

// tenths is size with a sign, late positive.
func tenths(a geometry.Angle) string { return fmt.Sprintf("%+.1f", a.Degrees()) }

// plain writes a stated number as it was stated.
func plain(value float64) string {
	return strconv.FormatFloat(math.Round(value*1e6)/1e6, 'f', -1, 64)
}

// way is the word for the sign.
func way(a geometry.Angle) string {
	if a < 0 {
		return "early"
	}
	return "late"
}

func slips(n int) string {
	if n == 1 {
		return "one slip"
	}
	return fmt.Sprintf("%d slips", n)
}

// String writes an explanation's slips.
func (e Explanation) String() string {
	var parts []string
	for _, s := range e.Slips {
		parts = append(parts, s.String())
	}
	return strings.Join(parts, ", and ")
}

// String writes a slip: its joints, how far and which way.
func (s Slip) String() string {
	var names []string
	for _, j := range s.Joints {
		if slices.Contains(s.Opposite, j) {
			j += " (" + way(-s.Angle) + ")"
		}
		names = append(names, j)
	}
	last := len(names) - 1
	text := names[last]
	if last > 0 {
		text = strings.Join(names[:last], ", ") + " or " + text
	}
	return fmt.Sprintf("%s, %s ± %s deg %s", text, size(s.Angle), size(s.Expanded), way(s.Angle))
}
