package main

import (
	"errors"
	"fmt"
	"strings"

	"evendrop/cmd/internal/answer/motion"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/flags/setup"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/measure"
)

func runMotion(args []string, c console) error {
	set := flags.New("motion", "evendrop motion --stroke MM --rod MM [...]",
		`How the piston moves near TDC: drop, slope and volume by crank angle, the dwell
within a drop, against pure cosine motion and against BDC.

  evendrop motion --stroke 86 --rod 146
  evendrop motion --stroke 86 --rod 120,146,172 --picture rods.svg
  evendrop motion --stroke 86 --rod 146 --chords half-way.svg
  evendrop motion --stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid 60`)
	unit := set.Unit()
	asked := newMotionFlags(set, unit)
	as := set.As()
	picture := set.File("picture", flags.Picture, "a drawing of drop against angle")
	chords := newChordFlags(set, unit)
	replace := set.Bool("replace", "overwrite the pictures")
	set.Note(`Several engines: lists with commas, the first of each list with the first of
the others; a list of one goes with all. --rod 133,145 --pin-offset 0,0.8 is
two engines. Decimals have a point; or part the list with semicolons, in quotes.`)
	rest, err := c.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(rest) > 0:
		return misuse("motion takes flags alone, and was given %q: type for example %s", rest[0], motion.Example)
	case *replace && *picture == "" && *chords.file == "":
		return misuse("--replace goes with --picture FILE.svg or --chords FILE.svg")
	case *chords.file == "" && set.Given("lash"):
		return misuse("--lash goes with --chords FILE.svg, which is missing")
	case *picture != "" && *picture == *chords.file:
		return misuse("--picture and --chords name one file, %s: give them two", *picture)
	case !set.Given("stroke") || !set.Given("rod"):
		return misuse("motion needs --stroke and --rod: type for example %s", motion.Example)
	}
	answer, err := motion.Of(asked())
	if err != nil {
		return err
	}
	var files disk.Together
	if *picture != "" {
		svg, err := answer.Picture()
		if err != nil {
			return err
		}
		files.Write(*picture, svg, *replace)
	}
	if err := chords.draw(answer, &files, *replace); err != nil {
		return err
	}
	return files.DoneWith(func() error { return c.write(answer, *as) })
}

// chordFlags are the flags of the picture that shows why half-way works.
type chordFlags struct {
	file   *string
	lash   *geometry.Length
	stated func() bool // whether lash was typed
}

func newChordFlags(set *flags.Set, unit *string) chordFlags {
	return chordFlags{
		set.File("chords", flags.Picture, "a drawing of why half-way between equal depths is TDC, turned one way and both"),
		set.Length(unit, "lash", measure.FromZero, "clearance drawn there; more than there is, so that it is seen; 0 for none"),
		func() bool { return set.Given("lash") },
	}
}

// draw adds the picture to the files, where it was asked for.
func (f chordFlags) draw(m motion.Motion, files *disk.Together, replace bool) error {
	if *f.file == "" {
		return nil
	}
	lash := m.SeenLash()
	if f.stated() {
		lash = *f.lash
	}
	chords, err := m.Chords(lash)
	if err != nil {
		return err
	}
	svg, err := chords.Picture()
	if err != nil {
		return err
	}
	files.Write(*f.file, svg, replace)
	return nil
}

// newMotionFlags adds the flags of a question about motion, and returns what it is once
// they are read.
func newMotionFlags(set *flags.Set, unit *string) func() motion.Question {
	q := motion.Question{From: -30, To: 30, By: 5}
	list := func(d setup.Dimension, split func(string) ([]string, error)) *[]geometry.Length {
		return set.Lengths(unit, d.Name, "MM[,MM]", d.Least, d.Help, split)
	}
	s, r, b := list(setup.Stroke, sizes), list(setup.Rod, sizes), list(setup.Bore, sizes)
	pin, off := list(setup.PinOffset, offsets), list(setup.BoreOffset, offsets)
	flags.List(set, &q.Compression, "compression", "RATIO", "the greatest volume over the least", ratios)
	for _, angle := range []struct {
		name, help string
		into       *float64
	}{{"from", "of the first row, crank degrees from TDC, late positive: -30", &q.From}, {"to", "of the last row: 30", &q.To}} {
		flags.Var(set, angle.into, angle.name, "DEG", angle.help, fromTDC)
	}
	flags.Var(set, &q.By, "by", "DEG", "from row to row: 5", step)
	within := set.Lengths(unit, "within", "MM", measure.AnySize, "dwell within this drop (repeatable): 0.01, 0.1 and 1 mm, or 0.0005, 0.005 and 0.05 in", offsets)
	rpm := set.Number("rpm", "N", func(x float64) bool { return x > 0 && x <= 1e6 }, "turns a minute such as 3000", "speed of the piston")
	liquid := set.Number("liquid", "ML", func(x float64) bool { return x > 0 && x <= 1e9 }, "millilitres such as 20",
		"crank angle where so much trapped liquid fills the space above the piston; needs --bore, --compression")
	return func() motion.Question {
		q.Stroke, q.Rod, q.Bore, q.PinOffset, q.BoreOffset, q.Within = *s, *r, *b, *pin, *off, *within
		q.Inches = *unit == "in"
		q.RPM, q.Liquid = *rpm, geometry.Volume(*liquid)*geometry.CubicCentimetre
		return q
	}
}

// items are the values of a list: parted by commas, or by semicolons where there is
// one, since then a comma is a decimal's.
func items(text string) []string {
	if strings.Contains(text, ";") {
		return strings.Split(text, ";")
	}
	return strings.Split(text, ",")
}

// offsets are a list that may be one number with a decimal comma: whole numbers on both
// sides of it, which nothing tells from 10.5, are refused.
func offsets(text string) ([]string, error) {
	if strings.Contains(text, ",") && !strings.ContainsAny(text, ";.") {
		return nil, fmt.Errorf("a comma parts engines: write %s with a point, or %q for several",
			strings.Replace(text, ",", ".", 1), strings.ReplaceAll(text, ",", ";"))
	}
	return items(text), nil
}

// sizes are a list of lengths above zero. Where a comma parts two so unlike as 81 and 4,
// a decimal comma was meant.
func sizes(text string) ([]string, error) {
	var least, most geometry.Length
	for n, item := range items(text) {
		length, err := measure.ParseLength(item, "mm") // whatever the unit: they are compared
		if err != nil {
			return nil, errors.New("expected a length such as 81.4, and commas between several")
		}
		if n == 0 || length < least {
			least = length
		}
		most = max(most, length)
	}
	if least > 0 && most > 2*least && !strings.Contains(text, ";") {
		return nil, fmt.Errorf("a comma parts engines, and these differ too much: write 81.4 with a point, or %q for two", strings.ReplaceAll(text, ",", ";"))
	}
	return items(text), nil
}

func ratios(text string) ([]float64, error) {
	list, err := offsets(text)
	if err != nil {
		return nil, err
	}
	var ratios []float64
	for _, item := range list {
		ratio, err := flags.ParseNumber(item, func(x float64) bool { return x > 1 && x <= 1000 }, "a ratio above 1 such as 10.5")
		if err != nil {
			return nil, err
		}
		ratios = append(ratios, ratio)
	}
	return ratios, nil
}

var errAngle = errors.New("expected crank degrees such as -30 or 30 BTDC")

// fromTDC is crank degrees from TDC, late positive.
func fromTDC(text string) (float64, error) {
	written, err := measure.ParseAngle(text)
	if err != nil || written.Side != evidence.NoSide && written.Angle < 0 {
		return 0, errAngle
	}
	return motion.Tidy(written.Side.Crank(written.Angle).Degrees()), nil
}

// step is crank degrees on no side of TDC.
func step(text string) (float64, error) {
	written, err := measure.ParseAngle(text)
	if err != nil || written.Side != evidence.NoSide {
		return 0, errAngle
	}
	return motion.Tidy(written.Angle.Degrees()), nil
}
