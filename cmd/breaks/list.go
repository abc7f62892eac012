package main

import (
	"fmt"
	"hash/fnv"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A Break is one place broken on purpose.
type Break struct {
	Why     string // what is wrong then; unlike that of any other break
	Said    bool   // it is in what is said to the user
	Package string // whose tests must catch it, a folder from the root
	Run     string // pattern of the tests to run; "": all of them
	File    string // where Old stands, from the root; "": wherever it is in Go
	Old     string // stands once there
	New     string
	Escapes string // why no test catches it; "": one must

	listed string // file and line of the list
}

// folder holds the lists and their results, from the root.
const folder = "testdata/breaks"

// readLists is every break of the lists, by file and line.
func readLists(root string) ([]Break, error) {
	paths, err := filepath.Glob(filepath.Join(root, folder, "*.txt"))
	if err != nil {
		return nil, err
	}
	var all []Break
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		list, err := parse(filepath.Base(path), string(text))
		if err != nil {
			return nil, err
		}
		all = append(all, list...)
	}
	return all, unlike(all)
}

// parse reads a list: paragraphs of "key: value" lines. A paragraph that begins with
// break or said is a break; any other gives the package and run of those below it.
// old and new may stand on several lines, each with its key. A line that begins with
// # is a remark.
func parse(name, text string) (list []Break, err error) {
	var defaults, b Break
	end := func() {
		if b.Why != "" {
			list = append(list, b)
		} else if b.listed != "" {
			defaults = Break{Package: b.Package, Run: b.Run}
		}
		b = Break{}
	}
	for i, line := range strings.Split(text, "\n") {
		at := fmt.Sprintf("%s:%d", name, i+1)
		switch {
		case strings.TrimSpace(line) == "":
			end()
			continue
		case line[0] == '#':
			continue
		case b.listed == "":
			b.listed = at
		}
		key, value, ok := strings.Cut(line, ":")
		if !ok {
			return nil, fmt.Errorf("%s: expected a key and a colon", at)
		}
		if err := b.set(key, strings.TrimPrefix(value, " "), defaults); err != nil {
			return nil, fmt.Errorf("%s: %w", at, err)
		}
	}
	end()
	for _, b := range list {
		if err := b.check(); err != nil {
			return nil, fmt.Errorf("%s: %w", b.listed, err)
		}
	}
	return list, nil
}

func (b *Break) set(key, value string, defaults Break) error {
	switch key {
	case "break", "said":
		b.Why, b.Said, b.Package, b.Run = value, key == "said", defaults.Package, defaults.Run
	case "package":
		b.Package = value
	case "run":
		b.Run = value
	case "file":
		b.File = value
	case "old":
		b.Old = below(b.Old, value)
	case "new":
		b.New = below(b.New, value)
	case "escapes":
		b.Escapes = value
	default:
		return fmt.Errorf("%q is not a key: expected break, said, package, run, file, old, new or escapes", key)
	}
	return nil
}

func below(text, line string) string {
	if text == "" {
		return line
	}
	return text + "\n" + line
}

func (b Break) check() error {
	switch {
	case b.Package == "":
		return fmt.Errorf("%q names no package", b.Why)
	case b.Old == "":
		return fmt.Errorf("%q has no old text", b.Why)
	case isScript(b.File) && b.Run == "":
		return fmt.Errorf("%q names no tests: those of a browser take seconds each", b.Why)
	case b.Old == b.New:
		return fmt.Errorf("%q changes nothing", b.Why)
	}
	return nil
}

// unlike sees to it that results can be kept by the breaks' words.
func unlike(list []Break) error {
	seen := map[string]string{}
	for _, b := range list {
		if first, again := seen[b.Why]; again {
			return fmt.Errorf("%s: %q is listed at %s too: say what is different", b.listed, b.Why, first)
		}
		seen[b.Why] = b.listed
	}
	return nil
}

// mark tells a break from what it was before it was edited.
func (b Break) mark() string {
	h := fnv.New32a()
	for _, part := range []string{b.Package, b.Run, b.Old, b.New} {
		h.Write([]byte(part + "\x00"))
	}
	return fmt.Sprintf("%08x", h.Sum32())
}

func packages(list []Break) (out []string) {
	for _, b := range list {
		out = append(out, b.Package)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// A program is its Go files that are not tests, and the scripts of its page, by their paths from
// the root.
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
		case isScript(path), filepath.Ext(path) == ".go" && !strings.HasSuffix(path, "_test.go"):
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

// isScript tells whether a file is one of the page's scripts: a break of one names it.
func isScript(path string) bool { return filepath.Ext(path) == ".js" }

// place is the one file in which the old text stands, once.
func (p program) place(b Break) (file string, err error) {
	times := 0
	for name, text := range p {
		if b.File == name || b.File == "" && !isScript(name) {
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

func (p program) broken(file string, b Break) string {
	return strings.Replace(p[file], b.Old, b.New, 1)
}
