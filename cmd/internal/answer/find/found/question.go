package found

import (
	"fmt"
	"slices"

	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

// Of is the main job: TDC of every cylinder, the marks against the first one's, and
// the cylinders against one another. An error names the cylinder, mark or lobe that has no
// answer.
func Of(j job.Job) (All, error) { return of(j, tdc.Find, nil) }

// Finder is tdc.Find, or what knows its answers already.
type Finder func(evidence.Setup, evidence.Cylinder) (tdc.Result, error)

// OfBy is Of with TDC found by another that knows it. It errs as Of does.
func OfBy(j job.Job, find Finder) (All, error) { return of(j, find, nil) }

// of is OfBy with healthy engines' lobes in place of cards.
func of(j job.Job, find Finder, kept []healthy.Kept) (All, error) {
	for _, cylinder := range j.Cylinders {
		j.Setup.Protractor = j.Setup.Protractor.WrittenAs(cylinder.Readings)
	}
	answer := All{Job: j, healthy: kept}
	for _, cylinder := range j.Cylinders {
		result, err := find(j.Setup, cylinder)
		if err != nil {
			return answer, inCylinder(j, cylinder, err)
		}
		answer.Results = append(answer.Results, result)
	}
	if err := answer.compare(); err != nil {
		return answer, err
	}
	return answer, answer.judge()
}

// compare holds the cylinders against one another, on the last setting of the protractor
// that all of them were read on.
func (f *All) compare() error {
	results, ok := tdc.OnOneSet(f.Results)
	if !ok {
		return fmt.Errorf("%s: no set of readings has all cylinders in it, so their throws cannot be compared. Read each of them in one set, or leave the others out of this job", f.Job.File)
	}
	throws := tdc.Throws(f.Job.Cylinders, results)
	f.Throws = mark.JudgeThrows(f.Job.Setup.Engine, results, throws)
	f.Index = tdc.WheelIndex(results, throws)
	return nil
}

// Against is Of with the marks of a known-good file in place of the job's nominal
// angles; Of without a file. An error is Of's, of a file that cannot be read, of a mark that
// is not the same in both, and of a job none of whose marks and lobes the file has.
func Against(j job.Job, file string) (All, error) {
	if file == "" {
		return Of(j)
	}
	known, err := knowngood.Open(file)
	if err != nil {
		return All{}, err
	}
	if j.Marks, err = mark.HoldAgainst(j.Marks, known.Marks); err != nil {
		return All{}, j.Locate(err)
	}
	if !slices.ContainsFunc(j.Marks, mark.Mark.AgainstHealthy) && !slices.ContainsFunc(j.Lobes, func(l lobe.Lobe) bool {
		return slices.ContainsFunc(known.Lobes, func(k healthy.Kept) bool { return k.Name == l.Name })
	}) {
		return All{}, fmt.Errorf("%s: none of the job's marks is in %s: give the marks the same names in both", j.File, file)
	}
	answer, err := of(j, tdc.Find, known.Lobes)
	answer.Against = &known
	return answer, err
}

// judge compares the marks, lobes among them, with cylinder 1's TDC, and says what they
// point to; not with a TDC that cannot be determined, or by a protractor whose sense is in
// doubt.
func (f *All) judge() error {
	j, result := f.Job, f.Results[0]
	if len(j.Marks)+len(j.Lobes) == 0 || f.NotJudged() != "" {
		return nil
	}
	if result.Number != 1 {
		return fmt.Errorf("%s: marks and lobes count from cylinder 1's TDC, and the job has none: add a [[cylinder]] with number = 1", j.File)
	}
	if err := f.checkLobes(); err != nil {
		return j.Locate(err)
	}
	f.Again = mark.Again(result, j.Marks)
	if err := f.measureLobes(result); err != nil {
		return err
	}
	findings, err := mark.Judge(j.Setup, result, j.Drive, f.allMarks())
	if err != nil {
		return j.Locate(err)
	}
	if f.Marks, f.Measured = mark.Part(findings); len(f.Marks) == 0 {
		return nil
	}
	if f.Diagnosis, err = joint.Explain(j.Setup, j.Drive, f.Marks, seen.Hear(j.Setup, f.Results, f.Throws, f.Marks)); err != nil {
		return j.Locate(err)
	}
	return nil
}

// NotJudged is why nothing can be judged by the answer: the first cylinder's TDC cannot
// be told in one of its sets, or any cylinder's readings contradict the protractor's
// sense; "" where it can.
func (f All) NotJudged() string {
	for i, last := range f.Results {
		for _, r := range last.Sets() {
			switch {
			case i == 0 && untold(r):
				return InSet(last, r, f.Untold(r))
			case r.AgainstTurn():
				return fmt.Sprintf("cylinder %d: %s", r.Number, InSet(last, r, f.Untold(r)))
			}
		}
	}
	return ""
}

// InSet is a text with its set before it where there are several; nothing of nothing.
func InSet(last, r tdc.Result, text string) string {
	if len(last.Earlier) == 0 || text == "" {
		return text
	}
	return fmt.Sprintf("set %d: %s", r.Set, text)
}

// untold tells whether a TDC is no answer to go by.
func untold(r tdc.Result) bool { return r.CannotTell != nil }

// Strict tells whether a mark, a throw or a crown is outside or too close to call, a mark
// has to be read again, or TDC cannot be determined to judge them by.
func (f All) Strict() bool {
	return len(f.Again) > 0 || slices.ContainsFunc(f.Results, func(r tdc.Result) bool { return slices.ContainsFunc(r.Sets(), untold) }) ||
		slices.ContainsFunc(f.Throws, func(t mark.JudgedThrow) bool { return t.Worst().Open() }) ||
		slices.ContainsFunc(f.Marks, func(m mark.Judged) bool { return m.Verdict.Open() })
}

// inCylinder puts an error of readings into words, and names the file that it is about.
func inCylinder(j job.Job, cylinder evidence.Cylinder, err error) error {
	err = words.NewBench(j.Setup, j.Unit).Refused(err)
	file := j.File
	if len(cylinder.Readings) > 0 {
		file = cylinder.Readings[0].File
	}
	if len(j.Cylinders) > 1 {
		return fmt.Errorf("%s: cylinder %d: %w", file, cylinder.Number, err)
	}
	return fmt.Errorf("%s: %w", file, err)
}
