package recheck

import (
	"fmt"

	"evendrop/cmd/internal/answer/find"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// Of finds two jobs on one engine and compares them.
func Of(before, after job.Job) (Recheck, error) {
	var answer Recheck
	for _, side := range []struct {
		job  job.Job
		into *find.Answer
	}{{before, &answer.Before}, {after, &answer.After}} {
		found, err := find.Of(side.job)
		if err != nil {
			return answer, err
		}
		if why := found.NotJudged(); why != "" {
			return answer, fmt.Errorf("%s: TDC cannot be determined from its readings, so there is nothing to compare: %s", side.job.File, why)
		}
		*side.into = found
	}
	was, is := answer.Before.Results[0], answer.After.Results[0]
	if was.Number != is.Number {
		return answer, fmt.Errorf("%s: its first cylinder is %d, and that of %s is %d: read the same cylinder in both",
			after.File, is.Number, before.File, was.Number)
	}
	answer.TDC = mark.ChangeOfTDC(was, is)
	var err error
	if answer.Marks, err = mark.Changes(answer.Before.AllMarks(), answer.After.AllMarks()); err != nil {
		return answer, answer.After.Job.Locate(err)
	}
	return answer, nil
}
