package job

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"

	"evendrop/geometry"
)

// lengthForm is a length after folded: number, unit.
var lengthForm = regexp.MustCompile(`^([+-]?) ?` + unsigned + ` ?(mm|in|inch|inches|"|″|”|'')?$`)

// longest is farther than any length of an engine; what is longer was mistyped.
const longest = 100_000 * geometry.Millimetre

var (
	errLength = errors.New("expected a length such as 81.4, 81.4 mm or 3.2 in")
	errLong   = errors.New("expected a length of less than 100 m")
	errUnit   = errors.New(`expected the unit "mm" or "in"`)
)

// ParseLength reads a length as somebody wrote it down: 3.29, 3,29, 3.29 mm,
// 0.1295 in, 0.1295". Without a unit of its own it is in unit, "mm" or "in".
// What is no such length is an error that says so.
func ParseLength(text, unit string) (geometry.Length, error) {
	l, err := parseLength(text, unit)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", strconv.Quote(cut(text)), err)
	}
	return l, nil
}

func parseLength(text, unit string) (geometry.Length, error) {
	m := lengthForm.FindStringSubmatch(folded(text))
	if m == nil {
		return 0, errLength
	}
	x, err := decimal(m[1] + m[2])
	if err != nil {
		return 0, errLong // too many digits is all that can be wrong
	}
	switch m[3] {
	case "":
		return inUnit(x, unit)
	case "mm":
		return inUnit(x, "mm")
	}
	return inUnit(x, "in")
}

// inUnit is x of a unit as a length.
func inUnit(x float64, unit string) (geometry.Length, error) {
	var l geometry.Length
	switch unit {
	case "mm":
		l = geometry.Length(x) * geometry.Millimetre
	case "in":
		l = geometry.Length(x) * geometry.Inch
	default:
		return 0, errUnit
	}
	if !(math.Abs(float64(l)) < float64(longest)) {
		return 0, errLong
	}
	return l, nil
}
