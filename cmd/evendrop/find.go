package main

import (
	"math"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/flags"
)

func runFind(args []string, c console) error {
	set := flags.New("find", "evendrop find JOB\nevendrop find --readings FILE [--stroke MM --rod MM] [...]",
		`TDC by every method, how sure it is, the marks compared with it, and the joints
of the drive that they point to. Late is retarded, early is advanced.`)
	as := set.As()
	details := set.Bool("details", "everything: budget, trend, explanations, a check at the bench, what was used; text is one screen without")
	every := set.Bool("every-reading", "a table of each reading with its residual")
	// fewer trials do not tell a 95 % interval, more only take time
	trials := flags.Whole(set, "trials", 0, 1_000, 10_000_000, "100000", "also simulate the whole job N times (JCGM 101), such as 100000")
	seed := flags.Whole[uint64](set, "seed", 1, 0, math.MaxUint64, "7", "of the trials, 1 unless stated: the same seed gives the same numbers")
	against := set.Text("against", "FILE", "compare the marks with a known-good file (evendrop keep) in place of their should_be")
	strict := set.Bool("strict", "exit status 3 when a mark is outside or too close to call")
	open := trustFlag(set)
	page := newPageFlags(set)
	bare := newBareJob(set)
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	if err := page.check(); err != nil {
		return err
	}
	j, err := bare.open(rest, open)
	if err != nil {
		return err
	}
	answer, err := find.Against(j, *against)
	if err != nil {
		return err
	}
	answer.Details, answer.EveryReading = *details, *every
	if *trials > 0 {
		for _, r := range answer.Results {
			answer.Trials = append(answer.Trials, r.Trials(*trials, *seed, c.progress(*trials, "trials")))
		}
	}
	files, err := page.files(answer)
	if err != nil {
		return err
	}
	if err := files.DoneWith(func() error { return c.write(answer, *as) }); err != nil {
		return err
	}
	return strictly(*strict, answer)
}

// strictly is errNotFine of an answer that is not a clean one, where that was asked.
func strictly(asked bool, answer interface{ Strict() bool }) error {
	if asked && answer.Strict() {
		return errNotFine
	}
	return nil
}
