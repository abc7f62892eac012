package main

import (
	"evendrop/cmd/internal/answer/keep"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
)

func runKeep(args []string, c console) error {
	set := flags.New("keep", "evendrop keep JOB [JOB ...] FILE",
		`Stores what the marks of a healthy engine showed, with their uncertainties, so
that another can be compared with it: evendrop find JOB --against FILE. Several
jobs of one engine family are combined: the mean weighted by what each is known
to, with the scatter among them.`)
	open := trustFlag(set)
	replace := set.Bool("replace", "overwrite a known-good FILE that already exists")
	as := set.As()
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	if len(rest) < 2 {
		return misuse("keep takes one job file or more and the file to write: type for example evendrop keep job.toml known-good.toml")
	}
	var jobs []job.Job
	names, file := rest[:len(rest)-1], rest[len(rest)-1]
	for _, name := range names {
		j, err := open(name)
		if err != nil {
			return err
		}
		jobs = append(jobs, j)
	}
	answer, err := keep.Of(jobs, file)
	if err != nil {
		return err
	}
	var files disk.Together
	files.Write(file, answer.File(), *replace)
	return files.DoneWith(func() error { return c.write(form.Of(answer), *as) })
}
