package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
)

// Of finds every job and combines what their marks showed, for a known-good file. No job
// is named twice, and all are of one engine family; an error says which cannot be kept.
func Of(jobs []job.Job, file string) (Kept, error) {
	answer := Kept{knownGood: knowngood.File{File: file}}
	if err := onlyKnownGood(file); err != nil {
		return answer, err
	}
	var engines [][]mark.Healthy
	var lobes [][]lobe.Measured
	for _, j := range jobs {
		if err := mayBeKept(answer.jobs, j); err != nil {
			return answer, err
		}
		engine, err := found.Of(j)
		if err != nil {
			return answer, err
		}
		if why := engine.NotJudged(); why != "" {
			return answer, fmt.Errorf("%s: TDC cannot be determined from its readings, so its marks cannot be kept: %s", j.File, why)
		}
		answer.jobs = append(answer.jobs, engine)
		answer.knownGood.From = append(answer.knownGood.From, knowngood.ConditionOf(j, engine.Results[0]))
		lobes = append(lobes, engine.Lobes)
		engines = append(engines, mark.Keep(slices.Concat(engine.Marks, engine.Measured)))
	}
	var err error
	if answer.knownGood.Marks, err = mark.Combine(engines...); err == nil {
		answer.knownGood.Lobes, answer.unlike, err = healthy.Combine(lobes...)
	}
	if err != nil {
		return answer, fmt.Errorf("%s: %w", jobs[len(jobs)-1].File, err)
	}
	if len(answer.knownGood.Marks)+len(answer.knownGood.Lobes) == 0 {
		return answer, fmt.Errorf("%s: %s", jobs[0].File, nothingKept(answer.jobs[0]))
	}
	return answer, nil
}

// nothingKept is why nothing of an engine can be kept: its lobes have no events, and its
// marks have to be read again.
func nothingKept(f found.All) string {
	for _, m := range f.Lobes {
		if m.CannotTell != nil {
			return fmt.Sprintf("nothing of it can be kept: lobe %q: %s", m.Name, words.NewBench(f.Job.Setup, f.Job.Unit).Finding(m.CannotTell))
		}
	}
	return "nothing of it can be kept: the protractor moved while it was read, and its marks have to be read again"
}

// onlyKnownGood refuses to write over a file that exists and is something else,
// such as a job whose name slipped to the end.
func onlyKnownGood(file string) error {
	_, err := os.Stat(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if _, err := knowngood.Open(file); err != nil {
		return fmt.Errorf("%s: already exists and is not a known-good file, so it was left as it is: name another last", file)
	}
	return nil
}

// mayBeKept refuses a job without marks, of another family, or given before.
func mayBeKept(others []found.All, j job.Job) error {
	if len(j.Marks)+len(j.Lobes) == 0 {
		return fmt.Errorf("%s: has no marks to keep: add a [[mark]] or a [[lobe]]", j.File)
	}
	if err := sameFamily(others, j); err != nil {
		return err
	}
	return otherJob(others, j)
}

// otherJob refuses one job given twice, under whatever names: it would count as two
// engines.
func otherJob(others []found.All, j job.Job) error {
	for _, other := range others {
		switch {
		case !job.Same(other.Job, j):
		case other.Job.File == j.File:
			return usage.Errorf("%s is given twice: name each job once", j.File)
		default:
			return usage.Errorf("%s is the same job as %s, to the last reading: name each job once; another engine needs another title or date",
				j.File, other.Job.File)
		}
	}
	return nil
}

// sameFamily refuses an engine that is not of the others' family: whose stroke,
// rod or bore differs by more than a hundredth.
func sameFamily(others []found.All, j job.Job) error {
	if len(others) == 0 {
		return nil
	}
	first := others[0].Job
	a, b := first.Setup.Engine, j.Setup.Engine
	for _, d := range []struct {
		name        string
		there, here geometry.Length
	}{{"stroke", a.Stroke, b.Stroke}, {"rod", a.Rod, b.Rod}, {"bore", a.Bore, b.Bore}} {
		if d.there > 0 && d.here > 0 && (d.here > 1.01*d.there || d.there > 1.01*d.here) {
			return fmt.Errorf("%s: its %s is %v, and that of %s is %v: keep engines of one family only", j.File, d.name, d.here, first.File, d.there)
		}
	}
	return nil
}
