package main

import (
	"evendrop/cmd/internal/answer/recheck"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/disk"
)

func runRecheck(args []string, c console) error {
	set := flags.New("recheck", "evendrop recheck BEFORE AFTER",
		`BEFORE and AFTER are job files, folders with a job.toml, or zips of them.

Two jobs on one engine side by side: what changed, by how much, and whether the
slip that the marks pointed to is gone. A mark has changed when the whole 95 %
interval of its change lies on one side of zero. It is unchanged when the
interval holds zero and lies within its limit (1 deg where none is given).
Otherwise it is too close to call.`)
	as := set.As()
	page := set.File("page", flags.Page, "before and after as a sheet for a customer, to print")
	replace := set.Bool("replace", "overwrite the page")
	strict := set.Bool("strict", "exit status 3 when after the repair a mark is outside or too close to call, or its change is too close to call")
	open := trustFlag(set)
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	if *replace && *page == "" {
		return misuse("--replace goes with --page FILE.html")
	}
	if len(rest) != 2 {
		return misuse("recheck takes two jobs, before and after, and was given %s: type evendrop recheck BEFORE AFTER, where . is the folder you are in", words.Count(len(rest), "job"))
	}
	before, err := open(rest[0])
	if err != nil {
		return err
	}
	after, err := open(rest[1])
	if err != nil {
		return err
	}
	answer, err := recheck.Of(before, after)
	if err != nil {
		return err
	}
	var files disk.Together
	if *page != "" {
		html, err := answer.Page(version())
		if err != nil {
			return err
		}
		files.Write(*page, html, *replace)
	}
	if err := c.writeBeside(&files, form.Of(answer), *as, *page); err != nil {
		return err
	}
	return strictly(*strict, answer)
}
