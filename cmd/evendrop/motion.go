package main

import (
	"evendrop/cmd/internal/answer/motion"
	"evendrop/cmd/internal/flags"
	"evendrop/tdc/job/disk"
)

func runMotion(args []string, c console) error {
	set := flags.New("motion", "evendrop motion --stroke MM --rod MM [...]",
		`How the piston moves near TDC: drop, slope and volume by crank angle, the dwell
within a drop, against pure cosine motion and against BDC.

  evendrop motion --stroke 86 --rod 146
  evendrop motion --stroke 86 --rod 120,146,172 --picture rods.svg
  evendrop motion --stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid 60`)
	asked := newMotionFlags(set)
	as := set.As()
	picture := set.File("picture", flags.Picture, "a drawing of drop against angle")
	replace := set.Bool("replace", "overwrite the picture")
	set.Note(`Several engines: lists with commas, the first of each list with the first of
the others; a list of one goes with all. --rod 133,145 --pin-offset 0,0.8 is
two engines. Decimals have a point; or part the list with semicolons, in quotes.`)
	rest, err := c.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(rest) > 0:
		return misuse("motion takes flags alone, and was given %q: type for example %s", rest[0], motion.Example)
	case *replace && *picture == "":
		return misuse("--replace goes with --picture FILE.svg")
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
	return files.DoneWith(func() error { return c.write(answer, *as) })
}
