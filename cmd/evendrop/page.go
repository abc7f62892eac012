package main

import (
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
)

// pageFlags are the flags of find that write files.
type pageFlags struct {
	page, picture, of *string
	cylinder          *int
	replace           *bool
}

func newPageFlags(flags *pflag.FlagSet) pageFlags {
	return pageFlags{
		page: flags.String("page", "", ""), picture: flags.String("picture", "", ""), of: flags.String("of", "", ""),
		cylinder: flags.Int("cylinder", 0, ""), replace: flags.Bool("replace", false, ""),
	}
}

// check refuses flags that do not go together.
func (f pageFlags) check() error {
	switch {
	case *f.of != "" && !slices.Contains(picture.Names, *f.of):
		return misuse("--of %s: expected one of %s", *f.of, strings.Join(picture.Names, ", "))
	case *f.picture == "" && (*f.of != "" || *f.cylinder != 0):
		return misuse("--of and --cylinder say what --picture FILE.svg shows, which is missing")
	case *f.replace && *f.page == "" && *f.picture == "":
		return misuse("--replace goes with --page FILE.html or --picture FILE.svg")
	case misnamed(*f.page, ".html", ".htm"):
		return misuse("--page %s: pages are HTML: name it %s.html, and print it to PDF from a browser", *f.page, withoutEnd(*f.page))
	case *f.page != "" && *f.page == *f.picture:
		return misuse("--page and --picture name one file, %s: give them two", *f.page)
	}
	return pictureName(*f.picture)
}

// pictureName refuses a picture's name that ends as one of another kind does.
func pictureName(file string) error {
	if misnamed(file, ".svg") {
		return misuse("--picture %s: pictures are SVG: name it %s.svg", file, withoutEnd(file))
	}
	return nil
}

// misnamed tells whether a file's name ends as one of another kind does.
func misnamed(file string, ends ...string) bool {
	end := strings.ToLower(filepath.Ext(file))
	return slices.Contains([]string{".png", ".jpg", ".jpeg", ".gif", ".pdf", ".txt", ".csv", ".toml", ".json", ".md", ".svg", ".html"}, end) && !slices.Contains(ends, end)
}

func withoutEnd(file string) string { return strings.TrimSuffix(file, filepath.Ext(file)) }

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
