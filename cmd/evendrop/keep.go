package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"

	"evendrop/cmd/internal/answer/keep"

	"evendrop/cmd/internal/answer/find"
	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/mark"
)

const keepUsage = `evendrop keep JOB [JOB ...] FILE

Stores what the marks of a healthy engine showed, with their uncertainties, so
that another can be held against them: evendrop find JOB --against FILE. Several
jobs of one engine family are combined: the mean weighted by what each is known
to, with the scatter among them.

  --trust-paths             let the jobs read files outside their own folders
  --replace                 write over a known-good FILE that already exists
  --as text|markdown|json|csv
`

func runKeep(args []string, stdout io.Writer) error {
	flags := flagSet("keep")
	as := flags.String("as", "text", "")
	trust := newTrust(flags)
	replace := flags.Bool("replace", false, "")
	rest, err := parse(flags, args, keepUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	if len(rest) < 2 {
		return misuse("keep takes one job file or more and the file to write: type for example evendrop keep job.toml known-good.toml")
	}
	jobs, file := rest[:len(rest)-1], rest[len(rest)-1]
	if err := onlyKnownGood(file); err != nil {
		return err
	}
	answer, err := kept(jobs, file, trust)
	if err != nil {
		return err
	}
	var files disk.Together
	files.Write(file, answer.KnownGood.Text(), *replace)
	return files.DoneWith(func() error { return write(stdout, answer, *as) })
}

// otherJob refuses one job given twice, under whatever names: it would count as two
// engines.
func otherJob(others []find.Answer, j job.Job) error {
	for _, other := range others {
		switch {
		case !job.Same(other.Job, j):
		case other.Job.File == j.File:
			return misuse("%s is given twice: name each job once", j.File)
		default:
			return misuse("%s is the same job as %s, to the last reading: name each job once; an engine of its own has a title or a date of its own",
				j.File, other.Job.File)
		}
	}
	return nil
}

// onlyKnownGood refuses to write over a file that is there and is something else,
// such as a job whose name slipped to the end.
func onlyKnownGood(file string) error {
	_, err := os.Stat(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if _, err := job.OpenKnownGood(file); err != nil {
		return fmt.Errorf("%s: already exists and is not a known-good file, so it was left as it is: name another last", file)
	}
	return nil
}

// keep finds every job and combines what their marks showed.
func kept(files []string, file string, trust trust) (keep.Kept, error) {
	answer := keep.Kept{KnownGood: job.KnownGood{File: file}}
	var engines [][]mark.Healthy
	for _, name := range files {
		j, err := trust.open(name)
		if err != nil {
			return answer, err
		}
		if len(j.Marks) == 0 {
			return answer, fmt.Errorf("%s: has no marks to keep: add a [[mark]]", j.File)
		}
		if err := sameFamily(answer.Jobs, j); err != nil {
			return answer, err
		}
		if err := otherJob(answer.Jobs, j); err != nil {
			return answer, err
		}
		found, err := find.Of(j)
		if err != nil {
			return answer, err
		}
		if why := found.NotJudged(); why != "" {
			return answer, fmt.Errorf("%s: TDC cannot be determined from its readings, so its marks are no figures to keep: %s", j.File, why)
		}
		answer.Jobs = append(answer.Jobs, found)
		answer.KnownGood.From = append(answer.KnownGood.From, job.ConditionOf(j, found.Results[0]))
		engines = append(engines, mark.Keep(slices.Concat(found.Marks, found.Measured)))
	}
	var err error
	if answer.KnownGood.Marks, err = mark.Combine(engines...); err != nil {
		return answer, fmt.Errorf("%s: %w", files[len(files)-1], err)
	}
	return answer, nil
}

// sameFamily refuses an engine that is not of the others' family: whose stroke,
// rod or bore differs by more than a hundredth.
func sameFamily(others []find.Answer, j job.Job) error {
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
