package main

import (
	"slices"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/flags"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
)

// pageFlags are the flags of find that write files.
type pageFlags struct {
	page, picture, of *string
	cylinder          *int
	replace           *bool
}

func newPageFlags(set *flags.Set) pageFlags {
	return pageFlags{
		page:     set.File("page", flags.Page, "the answer as a page with pictures, to print"),
		picture:  set.File("picture", flags.Picture, "one picture"),
		of:       set.Choice("of", "", "what the picture shows, curve unless stated", picture.Names...),
		cylinder: flags.Whole(set, "cylinder", 0, 1, 999, "2", "whose picture, the first one's unless stated"),
		replace:  set.Bool("replace", "overwrite the page and the picture"),
	}
}

// check refuses flags that do not go together.
func (f pageFlags) check() error {
	switch {
	case *f.picture == "" && (*f.of != "" || *f.cylinder != 0):
		return misuse("--of and --cylinder say what --picture FILE.svg shows, which is missing")
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

// draw is the picture that was asked for, of the first cylinder unless another is
// named.
func (f pageFlags) draw(p find.Page) ([]byte, error) {
	name, n := *f.of, 0
	if name == "" {
		name = picture.Curve
	}
	if *f.cylinder != 0 {
		n = slices.IndexFunc(p.Job.Cylinders, func(c evidence.Cylinder) bool { return c.Number == *f.cylinder })
		if n < 0 {
			return nil, misuse("--cylinder %d: the job has no such cylinder", *f.cylinder)
		}
	}
	return p.Picture(name, n)
}
