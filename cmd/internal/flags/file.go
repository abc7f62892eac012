package flags

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// File is a kind of file that a command writes.
type File struct {
	plural, of string // such as "pictures are SVG"
	ends       []string
	instead    string // of what a name of another kind promised
}

// The files beside an answer.
var (
	Page    = File{"pages", "HTML", []string{".html", ".htm"}, ", and print it to PDF from a browser"}
	Picture = File{"pictures", "SVG", []string{".svg"}, ""}
)

// File adds a flag that names a file to write.
func (s *Set) File(name string, kind File, help string) *string {
	file := new(string)
	Var(s, file, name, "FILE"+kind.ends[0], help, func(text string) (string, error) { return text, kind.Check(text) })
	return file
}

// Check refuses a name that ends as one of another kind does.
func (k File) Check(file string) error {
	end := filepath.Ext(file)
	if !known(end) || slices.Contains(k.ends, strings.ToLower(end)) {
		return nil
	}
	return fmt.Errorf("%s are %s: name it %s%s%s", k.plural, k.of, strings.TrimSuffix(file, end), k.ends[0], k.instead)
}

// known tells whether a name's end promises a kind of file.
func known(end string) bool {
	return slices.Contains([]string{".png", ".jpg", ".jpeg", ".gif", ".pdf", ".txt", ".csv", ".toml", ".json", ".md", ".svg", ".html", ".htm"}, strings.ToLower(end))
}
