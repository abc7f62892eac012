package geometry

import "strconv"

// Decimal writes x to so many significant digits as people write numbers: never with an
// exponent, and without zeros that say nothing.
func Decimal(x float64, digits int) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil {
		return strconv.FormatFloat(x, 'g', digits, 64) // rounded up beyond the greatest number
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
