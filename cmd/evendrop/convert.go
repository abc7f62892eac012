package main

import (
	"errors"
	"strconv"

	"evendrop/cmd/internal/answer/convert"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/wheel"
)

func runConvert(args []string, c console) error {
	set := flags.New("convert", "evendrop convert VALUE teeth|mm|in|crank|cam [--pitches N] [--radius MM]",
		`A shift as crank degrees, cam degrees, teeth and millimetres.

  evendrop convert 2 teeth --pitches 60
  evendrop convert 10 mm --radius 65
  evendrop convert 2.5 cam`)
	var shift convert.Conversion
	flags.Var(set, &shift.Pitches, "pitches", "N", "teeth a turn, those that are missing counted, or the wheel, such as 60-2", pitchesOf)
	mm := "mm"
	radius := set.Length(&mm, "radius", measure.AboveZero, "of the mark itself, not of the wheel's rim")
	chord := set.Bool("chord", "millimetres straight across; without it along the arc")
	on := set.Choice("on", "crank", "the wheel turns with the crank or at cam speed", "crank", "cam")
	as := set.As()
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	if len(rest) == 1 {
		rest = convert.Apart(rest[0])
	}
	if len(rest) != 2 {
		return misuse("convert takes a value and its unit, and was given %s: type for example evendrop convert 2 teeth --pitches 60", words.Count(len(rest), "word"))
	}
	shift.Radius, shift.Chord, shift.OnCam = *radius, *chord, *on == "cam"
	if err := shift.Read(rest[0], rest[1]); err != nil {
		return err
	}
	return c.write(form.Of(shift), *as)
}

// pitchesOf is how many teeth a wheel has in a turn, those that are missing counted:
// a number, or a wheel such as 60-2.
func pitchesOf(text string) (int, error) {
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= 1000 {
		return n, nil
	}
	w, err := wheel.Parse(text)
	if err != nil {
		return 0, errors.New("expected the number of teeth round the wheel, such as 60, or a wheel such as 60-2")
	}
	return w.Pitches(), nil
}
