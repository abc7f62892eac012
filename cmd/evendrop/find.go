package main

import (
	"io"

	"evendrop/cmd/internal/answer/find"
)

const findUsage = `evendrop find JOB
evendrop find --readings FILE [--stroke MM --rod MM] [...]

TDC by every method, how sure it is, the marks against it, and the joints of the
drive that they point to.

  --as text|markdown|json|csv
  --details                 everything: budget, trend, explanations, a check at
                            the bench, what was used; text is one screen without
  --every-reading           a table of each reading with its residual
  --trials N                also draw the whole job N times anew (JCGM 101),
                            such as 100000
  --seed N                  of the trials, 1 unless stated: the same seed
                            gives the same numbers
  --against FILE            compare the marks with a known-good file
                            (evendrop keep) in place of their should_be
  --strict                  exit status 3 when a mark is outside or too close
                            to call
  --trust-paths             let the job read files outside its own folder
  --page FILE.html          the answer as a page with pictures, to print
  --picture FILE.svg        one picture: --of curve (unless stated), residuals,
                            midpoints, marks or drive; --cylinder N whose
  --replace                 overwrite the page and the picture

Without a job file:
  --readings FILE           angle,depth[,turn][,sweep][,note] with a header row
  --stroke MM, --rod MM     either may be left out
  --bore MM
  --pin-offset MM           toward the major thrust side positive
  --bore-offset MM          toward the other side positive
  --unit mm|in              of every length that has no unit of its own
  --counts with|against     protractor numbers grow with or against the
                            running direction
  --wraps 720|360|180|90    how the protractor's scale comes round
  --protractor-step DEG     smallest difference read
  --protractor-error DEG    bound on the protractor's own error
  --gauge dial|rod|borescope
  --gauge-counts down|up    numbers grow as the piston goes down or up
  --gauge-step MM, --gauge-error MM
  --scale-known-to FRACTION half-width about 1: gauge tilt, crown slope
  --lash MM, --lash-known-to MM
  --pin DEG                 protractor reading with the crank locking pin in
                            line (repeatable)
  --pin-limit DEG           allowed either way
`

func runFind(args []string, stdout io.Writer) error {
	flags := flagSet("find")
	as := flags.String("as", "text", "")
	details := flags.Bool("details", false, "")
	every := flags.Bool("every-reading", false, "")
	strict := flags.Bool("strict", false, "")
	against := flags.String("against", "", "")
	trials := flags.Int("trials", 0, "")
	seed := flags.Uint64("seed", 1, "")
	trust := newTrust(flags)
	page := newPageFlags(flags)
	bare := newBareJob(flags)
	rest, err := parse(flags, args, findUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	if err := page.check(); err != nil {
		return err
	}
	j, err := bare.open(rest, trust)
	if err != nil {
		return err
	}
	answer, err := find.Against(j, *against)
	if err != nil {
		return err
	}
	answer.Details, answer.EveryReading = *details, *every
	if *trials != 0 {
		if answer.Trials, err = drawTrials(answer.Results, *trials, *seed); err != nil {
			return err
		}
	}
	files, err := page.files(answer)
	if err != nil {
		return err
	}
	if err := files.DoneWith(func() error { return write(stdout, answer, *as) }); err != nil {
		return err
	}
	if *strict && answer.Strict() {
		return errNotFine
	}
	return nil
}
