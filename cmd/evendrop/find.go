package main

import (
	"errors"
	"math"
	"slices"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/lobe"
)

func runFind(args []string, c console) error {
	set := flags.New("find", "evendrop find [JOB]\nevendrop find --readings FILE [--stroke MM --rod MM] [...]",
		aJobHere+`
TDC by every method, how sure it is, the marks compared with it, and the joints
of the drive that they point to. Late is retarded, early is advanced.`)
	as := set.As()
	details := set.Bool("details", "everything: what makes TDC unsure, every explanation, a check at the bench, what was used; without it the text is one screen")
	every := set.Bool("every-reading", "a table of each reading, with how far it lies off the curve")
	// fewer trials do not tell a 95 % interval, more only take time
	trials := flags.Whole(set, "trials", 0, 1_000, 10_000_000, "100000", "also simulate the whole job N times (JCGM 101), such as 100000")
	seed := flags.Whole[uint64](set, "seed", 1, 0, math.MaxUint64, "7", "of the trials, 1 unless stated: the same seed gives the same numbers")
	against := set.Text("against", "FILE", "compare the marks with a known-good file (evendrop keep) in place of their should_be")
	strict := set.Bool("strict", "exit status 3 when a mark is outside or too close to call")
	open := trustFlag(set)
	page := newPageFlags(set)
	bare := newBareJob(set)
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	if err := page.check(); err != nil {
		return err
	}
	j, err := bare.open(c, rest, open)
	if err != nil {
		return err
	}
	answer, err := find.Against(j, *against)
	if err != nil {
		return err
	}
	answer.Details, answer.EveryReading = *details, *every
	if *trials > 0 {
		for _, r := range answer.Results {
			answer.Trials = append(answer.Trials, r.Trials(*trials, *seed, c.progress(*trials, "trials")))
		}
	}
	files, err := page.files(answer)
	if err != nil {
		return err
	}
	if err := c.writeBeside(&files, answer, *as, *page.page, *page.picture); err != nil {
		return err
	}
	return strictly(*strict, answer)
}

// writeBeside prints an answer and writes files beside it, and says where. The answer is
// printed also where they cannot be written: it is none the worse.
func (c console) writeBeside(files *disk.Together, answer form.Printable, as string, names ...string) error {
	printed := false
	err := files.DoneWith(func() error {
		printed = true
		return c.write(answer, as)
	})
	switch {
	case err != nil && !printed:
		return errors.Join(c.write(answer, as), err)
	case err != nil:
		return err
	}
	for _, name := range names {
		if name != "" {
			c.tell("Written: %s", name)
		}
	}
	return nil
}

// strictly is errNotFine of an answer that is not a clean one, where that was asked.
func strictly(asked bool, answer interface{ Strict() bool }) error {
	if asked && answer.Strict() {
		return errNotFine
	}
	return nil
}

// pageFlags are the flags of find that write files.
type pageFlags struct {
	page, picture, of, lobe *string
	cylinder                *int
	replace                 *bool
}

func newPageFlags(set *flags.Set) pageFlags {
	return pageFlags{
		page:     set.File("page", flags.Page, "the answer as a page with pictures, to print"),
		picture:  set.File("picture", flags.Picture, "one picture"),
		of:       set.Choice("of", "", "what the picture shows; the curve unless stated, or the observations where no depth was read", picture.Names...),
		cylinder: flags.Whole(set, "cylinder", 0, 1, 999, "2", "which cylinder's picture; the first one's unless stated"),
		lobe:     set.Text("lobe", "NAME", "which lobe's lean; the first one's unless stated"),
		replace:  set.Bool("replace", "overwrite the page and the picture"),
	}
}

// check refuses flags that do not go together.
func (f pageFlags) check() error {
	switch {
	case *f.picture == "" && (*f.of != "" || *f.cylinder != 0 || *f.lobe != ""):
		return misuse("--of, --cylinder and --lobe say what --picture FILE.svg shows, which is missing")
	case *f.lobe != "" && *f.of != picture.Lean:
		return misuse("--lobe says which lobe --of lean shows, which is missing")
	case *f.lobe != "" && *f.cylinder != 0:
		return misuse("--lobe and --cylinder both say whose lean is shown: leave one out")
	case *f.replace && *f.page == "" && *f.picture == "":
		return misuse("--replace goes with --page FILE.html or --picture FILE.svg")
	case *f.page != "" && *f.page == *f.picture:
		return misuse("--page and --picture name one file, %s: give them two", *f.page)
	}
	return nil
}

// files are the page and the picture that were asked for.
func (f pageFlags) files(answer find.Answer) (disk.Together, error) {
	var together disk.Together
	p := find.Page{Answer: answer, Version: version()}
	if *f.page != "" {
		html, err := p.HTML()
		if err != nil {
			return together, err
		}
		together.Write(*f.page, html, *f.replace)
	}
	if *f.picture != "" {
		svg, err := f.draw(p)
		if err != nil {
			return together, err
		}
		together.Write(*f.picture, svg, *f.replace)
	}
	return together, nil
}

// draw is the picture that was asked for.
func (f pageFlags) draw(p find.Page) ([]byte, error) {
	n, err := f.nth(p)
	if err != nil {
		return nil, err
	}
	name := *f.of
	switch {
	case name == "" && len(p.Results[n].Readings) == 0:
		name = picture.Observations
	case name == "":
		name = picture.Curve
	}
	return p.Picture(name, n)
}

// nth is whose picture was asked for: the first cylinder's or lobe's unless another is
// named.
func (f pageFlags) nth(p find.Page) (n int, err error) {
	switch {
	case *f.lobe != "":
		if n = slices.IndexFunc(p.Lobes, func(m lobe.Measured) bool { return m.Name == *f.lobe }); n < 0 {
			return 0, misuse("--lobe %s: the job has no such lobe%s", *f.lobe, instead(p.Lobes, func(m lobe.Measured) string { return m.Name }))
		}
	case *f.cylinder != 0:
		if n, err = place(p.Job.Cylinders, *f.cylinder); err != nil {
			return 0, err
		}
		if *f.of == picture.Lean { // its first lobe; none is beyond them
			if n = slices.IndexFunc(p.Lobes, func(m lobe.Measured) bool { return m.Cylinder == *f.cylinder }); n < 0 {
				n = len(p.Lobes)
			}
		}
	}
	return n, nil
}
