package main

import (
	"evendrop/cmd/internal/answer/keep"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
)

func runKeep(args []string, c console) error {
	set := flags.New("keep", "evendrop keep [JOB ...] FILE",
		aJobHere+`
Stores what the marks of a healthy engine showed, with their uncertainties, so
that another can be compared with it: evendrop find JOB --against FILE. Several
jobs of one engine family are combined: the surer a mark is known, the more it
counts. How much the engines differ is kept too.`)
	open := trustFlag(set)
	replace := set.Bool("replace", "overwrite a known-good FILE that already exists")
	as := set.As()
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	names, file, err := c.kept(rest)
	if err != nil {
		return err
	}
	var jobs []job.Job
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
