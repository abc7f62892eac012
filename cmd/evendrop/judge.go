package main

import (
	"fmt"

	"evendrop/cmd/internal/answer/find"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// judge holds a job's marks against cylinder 1's TDC, and says what they point to;
// nothing against a TDC that cannot be told, or by a protractor whose sense is in doubt.
func judge(j job.Job, answer *find.Answer) error {
	if len(j.Marks) == 0 || untold(*answer) != "" {
		return nil
	}
	result := answer.Results[0]
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
	if answer.Diagnosis, err = joint.Explain(j.Setup, j.Drive, answer.Marks); err != nil {
		return j.Locate(err)
	}
	return nil
}

// untold is why nothing can be judged by the results: the first cylinder's TDC cannot be
// told, or any cylinder's readings contradict the protractor's sense; "" where it can.
func untold(answer find.Answer) (why string) {
	for i, r := range answer.Results {
		switch {
		case i == 0 && r.CannotTell != nil:
			return answer.Untold(r)
		case r.AgainstTurn():
			return fmt.Sprintf("cylinder %d: %s", r.Number, answer.Untold(r))
		}
	}
	return ""
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
