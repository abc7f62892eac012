package measure

import (
	"errors"
	"fmt"
	"math"
	"regexp"

	"evendrop/geometry"
	"evendrop/tdc/job/source"
)

// lengthForm is a length after folded: number, unit.
var lengthForm = regexp.MustCompile(`^([+-]?) ?` + unsigned + ` ?(mm|in|inch|inches|"|″|”|'')?$`)

// Longest is farther than any length of an engine; what is longer was mistyped.
const Longest = 100_000 * geometry.Millimetre

// ErrLength is a text that is no length.
var ErrLength = errors.New("expected a length such as 81.4, 81.4 mm or 3.2 in")

var (
	errLong = errors.New("expected a length of less than 100 m")
	errUnit = errors.New(`expected the unit "mm" or "in"`)
)

// ParseLength reads a length as somebody wrote it down: 3.29, 3,29, 3.29 mm,
// 0.1295 in, 0.1295". Without a unit of its own it is in unit, "mm" or "in".
// What is no such length is an error that says so.
func ParseLength(text, unit string) (geometry.Length, error) {
	l, err := Length(text, unit)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", source.Quoted(text), err)
	}
	return l, nil
}

// Length is ParseLength with an error that does not repeat the text.
func Length(text, unit string) (geometry.Length, error) {
	m := lengthForm.FindStringSubmatch(folded(text))
	if m == nil {
		return 0, ErrLength
	}
	x, err := Decimal(m[1] + m[2])
	if err != nil {
		return 0, errLong // too many digits is all that can be wrong
	}
	switch m[3] {
	case "":
		return InUnit(x, unit)
	case "mm":
		return InUnit(x, "mm")
	}
	return InUnit(x, "in")
}

// InUnit is x of a unit as a length. An error is of another unit than mm or in, and of 100
// m or more.
func InUnit(x float64, unit string) (geometry.Length, error) {
	var l geometry.Length
	switch unit {
	case "mm":
		l = geometry.Length(x) * geometry.Millimetre
	case "in":
		l = geometry.Length(x) * geometry.Inch
	default:
		return 0, errUnit
	}
	if !(math.Abs(float64(l)) < float64(Longest)) {
		return 0, errLong
	}
	return l, nil
}

// Bound is what a measure may be.
type Bound int

// A measure may be of any size, from zero up, or above zero.
const (
	AnySize Bound = iota
	FromZero
	AboveZero
)

// Holds tells whether x is within the bound.
func (b Bound) Holds(x float64) bool {
	return b == AnySize || x > 0 || b == FromZero && x == 0
}

// Of says what is expected: "a length above 0, such as 81.4".
func (b Bound) Of(what string) string {
	return "expected " + what + map[Bound]string{
		AnySize:   " such as 4.1",
		FromZero:  " of 0 or more, such as 0.05",
		AboveZero: " above 0, such as 81.4",
	}[b]
}
