package mark

import (
	"fmt"
	"math"
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

// either lists names with "or" before the last.
func either(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
