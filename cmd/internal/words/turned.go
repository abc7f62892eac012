package words

import (
	"math"
	"strings"

	"evendrop/geometry"
)

// Way is the word for the sign of a shift; late is positive.
func Way(off geometry.Angle) string {
	if off < 0 {
		return "early"
	}
	return "late"
}

// Lower is the word for the sign of a height; lower is positive.
func Lower(by float64) string {
	if by < 0 {
		return "higher"
	}
	return "lower"
}

// ItsLimit is what so many things are within or outside: "its limit", "their limits".
func ItsLimit(n int) string {
	if n == 1 {
		return "its limit"
	}
	return "their limits"
}

// Later compares two angles: "later" or "earlier".
func Later(by geometry.Angle) string {
	if by < 0 {
		return "earlier"
	}
	return "later"
}

// Off is how far off something is, with its interval: "2.8 ± 0.3 deg late".
func Off(off, expanded geometry.Angle) string {
	text := Within(math.Abs(off.Degrees()), expanded.Degrees()) + " deg"
	if strings.Trim(Fixed(off.Degrees(), Decimals(expanded.Degrees())), "-0.") == "" {
		return text // nought is neither
	}
	return text + " " + Way(off)
}

// SignedOff is the same with a sign in place of the word: "+2.8 ± 0.3".
func SignedOff(off, expanded geometry.Angle) string {
	places := Decimals(expanded.Degrees())
	return Signed(off.Degrees(), places) + " ± " + Fixed(expanded.Degrees(), places)
}
