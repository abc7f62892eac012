package main

import (
	"fmt"
	"io"

	"evendrop/cmd/internal/answer/recheck"

	"evendrop/cmd/internal/answer/find"
	"evendrop/tdc/mark"
)

const recheckUsage = `evendrop recheck BEFORE AFTER

Two jobs on one engine side by side: what changed, by how much, and whether the
joint that the marks pointed to is back. A mark has changed when the whole 95 %
interval of its change lies on one side of nought; it is unchanged when the
interval holds nought and lies within its limit (1 deg where none is given);
else it is too close to call.

  --as text|markdown|json|csv
  --strict                  exit status 3 when, after, a mark is outside or too
                            close to call, or its change is too close to call
  --trust-paths             let the jobs read files outside their own folders
`

func runRecheck(args []string, stdout io.Writer) error {
	flags := flagSet("recheck")
	as := flags.String("as", "text", "")
	strict := flags.Bool("strict", false, "")
	trust := newTrust(flags)
	rest, err := parse(flags, args, recheckUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	if len(rest) != 2 {
		return misuse("recheck takes two job files, before and after, and was given %d: type evendrop recheck BEFORE AFTER", len(rest))
	}
	answer, err := rechecked(rest[0], rest[1], trust)
	if err != nil {
		return err
	}
	if err := write(stdout, answer, *as); err != nil {
		return err
	}
	if *strict && answer.Strict() {
		return errNotFine
	}
	return nil
}

// recheck finds two jobs and compares them.
func rechecked(beforeFile, afterFile string, trust trust) (recheck.Recheck, error) {
	var answer recheck.Recheck
	for _, side := range []struct {
		file string
		into *find.Answer
	}{{beforeFile, &answer.Before}, {afterFile, &answer.After}} {
		j, err := trust.open(side.file)
		if err == nil {
			*side.into, err = find.Of(j)
		}
		if err != nil {
			return answer, err
		}
		if why := side.into.NotJudged(); why != "" {
			return answer, fmt.Errorf("%s: TDC cannot be determined from its readings, so there is nothing to compare: %s", side.file, why)
		}
	}
	before, after := answer.Before.Results[0], answer.After.Results[0]
	if before.Number != after.Number {
		return answer, fmt.Errorf("%s: its first cylinder is %d, and that of %s is %d: read the same cylinder in both",
			afterFile, after.Number, beforeFile, before.Number)
	}
	answer.TDC = mark.ChangeOfTDC(before, after)
	var err error
	if answer.Marks, err = mark.Changes(answer.Before.AllMarks(), answer.After.AllMarks()); err != nil {
		return answer, answer.After.Job.Locate(err)
	}
	return answer, nil
}
