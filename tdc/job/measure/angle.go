// Package measure reads an angle or a length as somebody wrote it down.
package measure

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/source"
)

// unsigned is a number as people write it: with a decimal point or a decimal
// comma, without an exponent.
const unsigned = `(\d+[.,]?\d*|[.,]\d+)`

// angleForm is an angle after folded: sign, degrees, minutes, seconds, side.
var angleForm = regexp.MustCompile(`^([+-]?) ?` + unsigned +
	` ?(?:(?:°|º|deg(?:rees?)?) ?(?:` + unsigned + ` ?['′’] ?(?:` + unsigned + ` ?(?:"|″|”|'') ?)?)?)?` +
	` ?([a-z ]*)$`)

var sides = map[string]evidence.Side{
	"":     evidence.NoSide,
	"btdc": evidence.BTDC, "budc": evidence.BTDC, "vot": evidence.BTDC, "before": evidence.BTDC, "before tdc": evidence.BTDC,
	"atdc": evidence.ATDC, "audc": evidence.ATDC, "not": evidence.ATDC, "after": evidence.ATDC, "after tdc": evidence.ATDC,
	"bbdc": evidence.BBDC, "bldc": evidence.BBDC, "vut": evidence.BBDC, "before bdc": evidence.BBDC,
	"abdc": evidence.ABDC, "aldc": evidence.ABDC, "nut": evidence.ABDC, "after bdc": evidence.ABDC,
}

// ErrAngle is a text that is no angle.
var ErrAngle = errors.New(`expected an angle such as 12.5, 12 BTDC or 12°30'`)

// ParseAngle reads an angle as somebody wrote it down: 12.5, -12.5, 12,5,
// 12 BTDC, 48 ABDC, 12°30'. Without a unit it is in degrees. What is no such angle is an
// error that says so.
func ParseAngle(text string) (evidence.Written, error) {
	w, err := Angle(text)
	if err != nil {
		return evidence.Written{}, fmt.Errorf("%s: %w", source.Quoted(text), err)
	}
	return w, nil
}

// Angle is ParseAngle with an error that does not repeat the text.
func Angle(text string) (evidence.Written, error) {
	m := angleForm.FindStringSubmatch(folded(text))
	if m == nil {
		return evidence.Written{}, ErrAngle
	}
	side, ok := sides[m[5]]
	if !ok {
		return evidence.Written{}, ErrAngle
	}
	degrees, err := sexagesimal(m[2], m[3], m[4])
	if err != nil {
		return evidence.Written{}, err
	}
	if m[1] == "-" {
		degrees = -degrees
	}
	return evidence.Written{Angle: geometry.Angle(degrees) * geometry.Degree, Side: side}, nil
}

// sexagesimal is degrees, minutes and seconds in degrees. Only the last of them
// may have decimals.
func sexagesimal(texts ...string) (float64, error) {
	var sum float64
	size := 1.0
	for i, text := range texts {
		if text == "" {
			break
		}
		if i > 0 && strings.ContainsAny(texts[i-1], ".,") {
			return 0, errors.New("decimals before minutes or seconds: expected an angle such as 12°30' or 12.5")
		}
		x, err := Decimal(text)
		if err != nil {
			return 0, ErrAngle
		}
		if i > 0 && x >= 60 {
			return 0, errors.New("60 or more minutes or seconds: expected an angle such as 12°30'")
		}
		sum += x / size
		size *= 60
	}
	return sum, nil
}

// folded is a text as the forms expect it: lower case, single blanks, and one
// kind of minus.
func folded(text string) string {
	text = strings.ReplaceAll(text, "−", "-")
	return strings.Join(strings.Fields(strings.ToLower(text)), " ")
}

// Decimal reads a number with a decimal point or a decimal comma. An error is of a text
// that is no number, or of one too large to hold.
func Decimal(text string) (float64, error) {
	return strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
}

// OnCrank is an angle as it is written on a cam card: crank degrees after TDC, or with its
// side; false of what no card says.
func OnCrank(w evidence.Written) (geometry.Angle, bool) {
	angle := w.Side.Crank(w.Angle)
	return angle, (w.Side == evidence.NoSide || w.Angle >= 0) && math.Abs(angle.Degrees()) <= 720
}
