package mark

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/geometry"
)

// size writes how great an angle is, in tenths of a degree.
func Size(a geometry.Angle) string { return fmt.Sprintf("%.1f", math.Abs(a.Degrees())) }

// tenths is size with a sign, late positive.
func tenths(a geometry.Angle) string { return fmt.Sprintf("%+.1f", a.Degrees()) }

// plain writes a stated number as it was stated.
func plain(value float64) string {
	return strconv.FormatFloat(math.Round(value*1e6)/1e6, 'f', -1, 64)
}

// way is the word for the sign.
func Way(a geometry.Angle) string {
	if a < 0 {
		return "early"
	}
	return "late"
}
