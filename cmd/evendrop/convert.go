package main

import (
	"io"
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/convert"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/mark"
	"evendrop/tdc/wheel"
)

const convertUsage = `evendrop convert VALUE teeth|mm|in|crank|cam [--pitches N] [--radius MM]

A shift as crank degrees, cam degrees, teeth and millimetres.

  evendrop convert 2 teeth --pitches 60
  evendrop convert 10 mm --radius 65
  evendrop convert 2.5 cam

  --pitches N           teeth a turn, those that are missing counted
  --radius MM           of the mark itself, not of the wheel's rim
  --chord               millimetres straight across; without it along the arc
  --on crank|cam        the wheel turns with the crank or at cam speed
  --as text|markdown|json|csv
`

func runConvert(args []string, stdout io.Writer) error {
	flags := flagSet("convert")
	as := flags.String("as", "text", "")
	pitches := flags.String("pitches", "", "")
	radius := flags.String("radius", "", "")
	chord := flags.Bool("chord", false, "")
	on := flags.String("on", "crank", "")
	rest, err := parse(flags, args, convertUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	if len(rest) == 1 {
		rest = apartFromUnit(rest[0])
	}
	if len(rest) != 2 {
		return misuse("convert takes a value and its unit, and was given %d words: type for example evendrop convert 2 teeth --pitches 60", len(rest))
	}
	c := convert.Conversion{Chord: *chord, OnCam: *on == "cam"}
	switch {
	case *on != "crank" && *on != "cam":
		return misuse("--on %s: expected crank or cam", *on)
	case *radius == "":
	default:
		if c.Radius, err = measure.ParseLength(*radius, "mm"); err != nil || c.Radius <= 0 {
			return misuse("--radius %s: expected a length above zero, such as 65", *radius)
		}
	}
	if c.Pitches, err = pitchesOf(*pitches); err != nil {
		return err
	}
	c.Inches = rest[1] == "in"
	c.Crank, err = crankShift(c, rest[0], rest[1])
	if err != nil {
		return err
	}
	return write(stdout, c, *as)
}

// pitchesOf is how many teeth a wheel has in a turn, those that are missing counted:
// a number, or a wheel such as 60-2. Nothing said is 0.
func pitchesOf(text string) (int, error) {
	if text == "" {
		return 0, nil
	}
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= 1000 {
		return n, nil
	}
	w, err := wheel.Parse(text)
	if err != nil {
		return 0, misuse("--pitches %s: expected the number of teeth round the wheel, such as 60, or a wheel such as 60-2", text)
	}
	return w.Pitches(), nil
}

// apartFromUnit is a value and its unit that were typed as one word, such as 10mm.
func apartFromUnit(text string) []string {
	at := strings.LastIndexAny(text, "0123456789.,") + 1
	if at == 0 || at == len(text) {
		return []string{text}
	}
	return []string{text[:at], strings.TrimSpace(text[at:])}
}

// crankShift reads a value and its unit as crank degrees.
func crankShift(c convert.Conversion, value, unit string) (geometry.Angle, error) {
	if unit == "mm" || unit == "in" {
		length, err := measure.ParseLength(value, unit)
		if err != nil {
			return 0, misuse("%v", err)
		}
		return fromWheel(c, length.Millimetres(), c.Across())
	}
	written, err := measure.ParseAngle(value)
	if err != nil || written.Side != evidence.NoSide {
		return 0, misuse("%s: expected a number such as 2.5", value)
	}
	switch unit {
	case "crank":
		return written.Angle, nil
	case "cam":
		return 2 * written.Angle, nil
	case "teeth", "tooth":
		return fromWheel(c, written.Angle.Degrees(), mark.Teeth)
	}
	return 0, misuse("%s is no unit that convert knows: expected teeth, mm, in, crank or cam", unit)
}

// fromWheel is the crank degrees of an amount measured on the wheel.
func fromWheel(c convert.Conversion, amount float64, unit mark.Unit) (geometry.Angle, error) {
	angle, err := mark.Turn(amount, unit, c.Pitches, c.Radius)
	switch {
	case err != nil && unit == mark.Teeth:
		return 0, misuse("%v: add it, as in --pitches 60", err)
	case err != nil && c.Radius == 0:
		return 0, misuse("%v: add it, as in --radius 65", err)
	case err != nil:
		return 0, misuse("%v: expected at most %v, or the length along the arc, without --chord", err, 2*c.Radius)
	case c.OnCam:
		angle *= 2
	}
	return angle, nil
}
