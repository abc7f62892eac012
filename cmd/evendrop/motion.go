package main

import (
	"io"

	"evendrop/tdc/job/disk"
)

const motionUsage = `evendrop motion --stroke MM --rod MM [...]

How the piston moves near TDC: drop, slope and volume by crank angle, the dwell
within a drop, against pure cosine motion and against BDC.

  evendrop motion --stroke 86 --rod 146
  evendrop motion --stroke 86 --rod 120,146,172 --picture rods.svg
  evendrop motion --stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid 60

  --stroke MM, --rod MM
  --pin-offset MM           toward the major thrust side positive
  --bore-offset MM          toward the other side positive
  --bore MM, --compression RATIO
  --unit mm|in              of every length that has no unit of its own
  --from DEG, --to DEG, --by DEG
                            crank degrees from TDC, late positive: -30, 30 and 5
  --within MM               dwell within this drop (repeatable): 0.01, 0.1 and
                            1 mm, or 0.0005, 0.005 and 0.05 in
  --rpm N                   speed of the piston
  --liquid ML               crank angle where so much trapped liquid fills the
                            space above the piston; needs --bore, --compression
  --as text|markdown|json|csv
  --picture FILE.svg        a drawing of drop against angle
  --replace                 overwrite the picture

Several engines: lists with commas, the first of each list with the first of
the others; a list of one goes with all. --rod 133,145 --pin-offset 0,0.8 is
two engines. Decimals have a point; or part the list with semicolons, in quotes.
`

func runMotion(args []string, stdout io.Writer) error {
	flags := flagSet("motion")
	as := flags.String("as", "text", "")
	picture := flags.String("picture", "", "")
	replace := flags.Bool("replace", false, "")
	typed := newMotionFlags(flags)
	rest, err := parse(flags, args, motionUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	if len(rest) > 0 {
		return misuse("motion takes flags alone, and was given %q: type for example %s", rest[0], motionExample)
	}
	if *replace && *picture == "" {
		return misuse("--replace goes with --picture FILE.svg")
	}
	if err := pictureName(*picture); err != nil {
		return err
	}
	answer, err := typed.motion()
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
	return files.DoneWith(func() error { return write(stdout, answer, *as) })
}

const motionExample = "evendrop motion --stroke 86 --rod 146"
