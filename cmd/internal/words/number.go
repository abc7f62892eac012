package words

import (
	"math"
	"strconv"
	"strings"

	"evendrop/geometry"
)

// Decimals is how many a number of an uncertainty deserves: two digits of the uncertainty
// up to 0.354, 3.54 and so on, and one above (the rule of the Particle Data Group, from
// memory). An unknown uncertainty gives two.
func Decimals(uncertainty float64) int {
	if !(uncertainty > 0) || math.IsInf(uncertainty, 1) {
		return 2
	}
	return min(6, max(0, -int(math.Floor(math.Log10(uncertainty/3.55)))))
}

// Fixed writes a value with a number of decimals, never as minus zero.
func Fixed(value float64, places int) string {
	text := strconv.FormatFloat(value, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// Signed is Fixed with a plus sign before a positive number.
func Signed(value float64, places int) string {
	text := Fixed(value, places)
	if value > 0 && strings.Trim(text, "0.") != "" {
		return "+" + text
	}
	return text
}

// Plain writes a stated number as it was stated, without trailing zeros.
func Plain(value float64) string { return Trimmed(value, 6) }

// Trimmed writes a number with at most so many decimals, without trailing zeros and
// never as minus zero.
func Trimmed(value float64, places int) string {
	text := Fixed(value, places)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// AsRead is how many decimals readings are shown with: as many as the greediest was
// written with, up to one more than their instrument shows. What has more still came
// from another unit, and is shown to the instrument's step.
func AsRead(readings []float64, step float64) int {
	most := 2
	if step > 0 {
		most = max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	}
	greediest := 0
	for _, x := range readings {
		_, decimals, _ := strings.Cut(Plain(x), ".")
		greediest = max(greediest, len(decimals))
	}
	if greediest > most+1 {
		return most
	}
	return greediest
}

// Stated is an angle that somebody wrote, in degrees, without what the way through
// radians added, and never minus zero.
func Stated(a geometry.Angle) float64 { return math.Round(a.Degrees()*1e9)/1e9 + 0 }

// Within is a value and its half-width, both with the digits that the half-width
// deserves: "2.8 ± 0.3".
func Within(value, half float64) string {
	places := Decimals(half)
	return Fixed(value, places) + " ± " + Fixed(half, places)
}

// chance is a probability for a person: "1 chance in 200".
func chance(p float64) string {
	switch {
	case !(p > 0) || p < 1e-6:
		return "less than 1 chance in 1,000,000"
	case p > 0.5:
		return "no more than chance makes"
	}
	n := math.Round(1 / p)
	if n > 10 { // two digits say enough
		tens := math.Pow(10, math.Floor(math.Log10(n))-1)
		n = math.Round(n/tens) * tens
	}
	return "1 chance in " + thousands(int(n))
}

// thousands writes a count with a comma between thousands.
func thousands(n int) string {
	text := strconv.Itoa(n)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
