package looked

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"

	"evendrop/cmd/internal/browser"
)

// blank is what is wrong where more than a third of a page is empty, on every page but
// below the last words.
func blank(pdf []byte, on browser.Paper) (list []Fault, err error) {
	const dotsAnInch = 30 // a line of text is several dots high
	pages, err := drawn(pdf, dotsAnInch, "-gray")
	if err != nil {
		return nil, err
	}
	for i, page := range pages {
		run, height, err := emptiest(page, i == len(pages)-1)
		switch {
		case err != nil:
			return nil, err
		case 3*run > height:
			list = append(list, Fault{"blank", fmt.Sprintf("%d %% of page %d of %d of %s are empty", 100*run/height, i+1, len(pages), on.Name)})
		}
	}
	return list, nil
}

// PNG is the pages of a PDF as pictures, so many dots an inch.
func PNG(pdf []byte, dotsAnInch int) ([][]byte, error) { return drawn(pdf, dotsAnInch, "-png") }

// drawn is the pages of a PDF as pdftoppm draws them.
func drawn(pdf []byte, dotsAnInch int, form string) (pages [][]byte, err error) {
	dir, err := os.MkdirTemp("", "looked")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	command := exec.Command("pdftoppm", "-r", fmt.Sprint(dotsAnInch), form, "-", filepath.Join(dir, "p"))
	command.Stdin = bytes.NewReader(pdf)
	if out, err := command.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, out)
	}
	files, err := os.ReadDir(dir) // by name, whose numbers have as many digits
	for _, f := range files {
		data, failed := os.ReadFile(filepath.Join(dir, f.Name()))
		if failed != nil {
			return nil, failed
		}
		pages = append(pages, data)
	}
	return pages, err
}

// emptiest is the longest run of empty rows of a picture in PGM, and all its rows. Of the
// last page what is below all ink counts for nothing.
func emptiest(pgm []byte, last bool) (run, height int, err error) {
	var width, most int
	if _, err := fmt.Fscanf(bytes.NewReader(pgm), "P5\n%d %d\n%d\n", &width, &height, &most); err != nil {
		return 0, 0, fmt.Errorf("no PGM: %w", err)
	}
	if len(pgm) < width*height {
		return 0, 0, fmt.Errorf("a PGM of %d by %d in %d bytes", width, height, len(pgm))
	}
	const paper = 245 // and above: the faintest line of the pages is darker
	long := 0
	for row := range slices.Chunk(pgm[len(pgm)-width*height:], width) {
		long++
		if slices.Min(row) < paper {
			run, long = max(run, long-1), 0
		}
	}
	if !last {
		run = max(run, long)
	}
	return run, height, nil
}
