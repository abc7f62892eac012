package find

import (
	"fmt"
	"slices"

	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// Of is the answer to a job: TDC of every cylinder, and the marks by the first one's.
func Of(j job.Job) (Answer, error) {
	for _, cylinder := range j.Cylinders {
		j.Setup.Protractor = j.Setup.Protractor.WrittenAs(cylinder.Readings)
	}
	answer := Answer{Job: j}
	for _, cylinder := range j.Cylinders {
		result, err := tdc.Find(j.Setup, cylinder)
		if err != nil {
			return answer, inCylinder(j, cylinder, err)
		}
		answer.Results = append(answer.Results, result)
	}
	answer.Throws = tdc.Throws(j.Cylinders, answer.Results)
	answer.Index = tdc.WheelIndex(answer.Results, answer.Throws)
	return answer, judge(j, &answer)
}

// inCylinder names the file whose readings an error is about.
func inCylinder(j job.Job, cylinder evidence.Cylinder, err error) error {
	file := j.File
	if len(cylinder.Readings) > 0 {
		file = cylinder.Readings[0].File
	}
	if len(j.Cylinders) > 1 {
		return fmt.Errorf("%s: cylinder %d: %w", file, cylinder.Number, err)
	}
	return fmt.Errorf("%s: %w", file, err)
}

// judge compares a job's marks with cylinder 1's TDC, and says what they point to;
// nothing by a TDC that cannot be determined, or by a protractor whose sense is in doubt.
func judge(j job.Job, answer *Answer) error {
	result := answer.Results[0]
	doubtful := slices.ContainsFunc(answer.Results, func(r tdc.Result) bool { return r.AgainstTurn })
	if len(j.Marks) == 0 || result.CannotTell != "" || doubtful {
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

// Against is the job with a known-good file's marks in place of its nominal angles, and
// that file; the job as it is without one.
func Against(j job.Job, file string) (job.Job, *job.KnownGood, error) {
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
