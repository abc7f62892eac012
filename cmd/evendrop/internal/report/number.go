package report

import (
	"math"
	"strconv"
	"strings"

	"evendrop/geometry"
)

// decimals is how many a number of an uncertainty deserves: one digit of the
// uncertainty, or two when the first is a 1.
func decimals(uncertainty float64) int {
	if !(uncertainty > 0) || math.IsInf(uncertainty, 1) {
		return 2
	}
	return min(6, max(0, -int(math.Floor(math.Log10(uncertainty/2)))))
}

// fixed writes a value with a number of decimals, never as minus nought.
func fixed(value float64, places int) string {
	text := strconv.FormatFloat(value, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// signed is fixed with a plus sign before a positive number.
func signed(value float64, places int) string {
	text := fixed(value, places)
	if value > 0 && strings.Trim(text, "0.") != "" {
		return "+" + text
	}
	return text
}

// plain writes a stated number as it was stated, without trailing noughts.
func plain(value float64) string {
	return strconv.FormatFloat(math.Round(value*1e6)/1e6, 'f', -1, 64)
}

// asRead is how many decimals readings are shown with: as many as the greediest was
// written with, up to one more than their instrument shows. What has more still came
// from another unit, and is shown to the instrument's step.
func asRead(readings []float64, step float64) int {
	most := 2
	if step > 0 {
		most = max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	}
	greediest := 0
	for _, x := range readings {
		_, decimals, _ := strings.Cut(plain(x), ".")
		greediest = max(greediest, len(decimals))
	}
	if greediest > most+1 {
		return most
	}
	return greediest
}

// stated is an angle that somebody wrote, in degrees, without what the way through
// radians added, and never minus nought.
func stated(a geometry.Angle) float64 { return math.Round(a.Degrees()*1e9)/1e9 + 0 }
