package convert

import (
	"strings"

	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/mark"
)

// Apart is a value and its unit that were typed as one word, such as 10mm.
func Apart(text string) []string {
	at := strings.LastIndexAny(text, "0123456789.,") + 1
	if at == 0 || at == len(text) {
		return []string{text}
	}
	return []string{text[:at], strings.TrimSpace(text[at:])}
}

// Read takes a value and its unit as the shift to convert.
func (c *Conversion) Read(value, unit string) (err error) {
	c.Inches = unit == "in"
	c.Crank, err = c.crank(value, unit)
	return err
}

// crank is a value and its unit as crank degrees.
func (c *Conversion) crank(value, unit string) (geometry.Angle, error) {
	if unit == "mm" || unit == "in" {
		length, err := measure.ParseLength(value, unit)
		if err != nil {
			return 0, usage.Errorf("%v", err)
		}
		return c.fromWheel(length.Millimetres(), c.Across())
	}
	written, err := measure.ParseAngle(value)
	if err != nil || written.Side != evidence.NoSide {
		return 0, usage.Errorf("%s: expected a number such as 2.5", value)
	}
	switch unit {
	case "crank":
		return written.Angle, nil
	case "cam":
		return 2 * written.Angle, nil
	case "teeth", "tooth":
		return c.fromWheel(written.Angle.Degrees(), mark.Teeth)
	}
	return 0, usage.Errorf("%s is not a unit that convert knows: expected teeth, mm, in, crank or cam", unit)
}

// fromWheel is the crank degrees of an amount measured on the wheel.
func (c *Conversion) fromWheel(amount float64, unit mark.Unit) (geometry.Angle, error) {
	angle, err := mark.Turn(amount, unit, c.Pitches, c.Radius)
	switch {
	case err != nil && unit == mark.Teeth:
		return 0, usage.Errorf("%v: add it, as in --pitches 60", err)
	case err != nil && c.Radius == 0:
		return 0, usage.Errorf("%v: add it, as in --radius 65", err)
	case err != nil:
		return 0, usage.Errorf("%v: expected at most %v, or the length along the arc, without --chord", err, 2*c.Radius)
	case c.OnCam:
		angle *= 2
	}
	return angle, nil
}
