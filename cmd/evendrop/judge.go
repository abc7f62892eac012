package main

import (
	"fmt"
	"slices"

	"evendrop/cmd/internal/answer/find"
	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// judge holds a job's marks against cylinder 1's TDC, and says what they point to;
// nothing against a TDC that cannot be told, or by a protractor whose sense is in doubt.
func judge(j job.Job, answer *find.Answer) error {
	result := answer.Results[0]
	doubtful := slices.ContainsFunc(answer.Results, func(r tdc.Result) bool { return r.AgainstTurn() })
	if len(j.Marks) == 0 || result.CannotTell != nil || doubtful {
		return nil
	}
	if result.Number != 1 {
		return fmt.Errorf("%s: marks count from cylinder 1's TDC, and the job has none: add a [[cylinder]] with number = 1", j.File)
	}
	findings, err := mark.Judge(j.Setup, result, j.Drive, j.Marks)
	if err != nil {
		return j.Locate(err)
	}
	if answer.Marks, answer.Measured = mark.Part(findings); len(answer.Marks) == 0 {
		return nil
	}
	if answer.Diagnosis, err = mark.Explain(j.Setup, j.Drive, answer.Marks); err != nil {
		return j.Locate(err)
	}
	return nil
}

// holdAgainst puts a known-good file's marks in place of the job's nominal angles;
// nothing without a file.
func holdAgainst(j job.Job, file string) (job.Job, *job.KnownGood, error) {
	if file == "" {
		return j, nil, nil
	}
	known, err := job.OpenKnownGood(file)
	if err != nil {
		return j, nil, err
	}
	if j.Marks, err = mark.HoldAgainst(j.Marks, known.Marks); err != nil {
		return j, nil, j.Locate(err)
	}
	for _, m := range j.Marks {
		if m.Healthy != nil {
			return j, &known, nil
		}
	}
	return j, nil, fmt.Errorf("%s: none of the job's marks is in %s: give the marks the same names in both", j.File, file)
}
