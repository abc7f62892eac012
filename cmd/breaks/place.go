package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// A program is its Go files that are not tests, by their paths from the root.
type program map[string]string

// readProgram reads what lies under the root, this command left out.
func readProgram(root string) (program, error) {
	p := program{}
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && (entry.Name() == "testdata" || entry.Name() == "breaks"):
			if path != root {
				return filepath.SkipDir
			}
		case filepath.Ext(path) == ".go" && !strings.HasSuffix(path, "_test.go"):
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			name, err := filepath.Rel(root, path)
			p[filepath.ToSlash(name)] = string(text)
			return err
		}
		return nil
	})
	return p, err
}

// place is the one file in which the old text stands, once.
func (p program) place(b Break) (file string, err error) {
	times := 0
	for name, text := range p {
		if b.File == "" || b.File == name {
			if n := strings.Count(text, b.Old); n > 0 {
				times += n
				file = name
			}
		}
	}
	switch {
	case times == 0:
		return "", fmt.Errorf("%s: %q: its old text is gone: %s", b.listed, b.Why, b.Old)
	case times > 1:
		return "", fmt.Errorf("%s: %q: its old text stands %d times: make it longer, or name the file: %s", b.listed, b.Why, times, b.Old)
	}
	return file, nil
}

// broken is the file with the break in it.
func (p program) broken(file string, b Break) string {
	return strings.Replace(p[file], b.Old, b.New, 1)
}
