// Command sentences prints every sentence that evendrop can say, and where it is said, for
// somebody to read in one sitting:
//
//	go run ./cmd/sentences                 all of them, a package after the other
//	go run ./cmd/sentences -in words       those of packages whose path holds this
//	go run ./cmd/sentences -longer 25      those of more than 25 words
//
// They are read off the source, so that none is left out for want of an example. What is
// put in while the program runs stands in square brackets, by the name that the source has
// for it: [angle], or the few words that it can be: [late / early]. Left out is what nobody
// reads: keys and kinds of JSON, styles, paths of pictures, and what is said to who builds
// evendrop.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

type options struct {
	in     string
	longer int
}

func main() {
	var o options
	flag.StringVar(&o.in, "in", "", "those of packages whose path holds this `text`")
	flag.IntVar(&o.longer, "longer", 0, "those of more than so `many` words")
	flag.Parse()
	if err := run(o, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "sentences:", err)
		os.Exit(1)
	}
}

// run prints what the flags ask for.
func run(o options, out io.Writer) error {
	root, err := rootFolder()
	if err != nil {
		return err
	}
	all, err := Everything(root)
	if err != nil {
		return err
	}
	print(out, chosen(all, o))
	return nil
}

// rootFolder is where go.mod is.
func rootFolder() (string, error) {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return "", err
	}
	return filepath.Dir(strings.TrimSpace(string(out))), nil
}

func chosen(all []Sentence, o options) (some []Sentence) {
	for _, s := range all {
		if strings.Contains(s.Package, o.in) && s.Words() > o.longer {
			some = append(some, s)
		}
	}
	return some
}

// print writes sentences under their packages, and how many there are.
func print(out io.Writer, list []Sentence) {
	packages := 0
	for i, s := range list {
		if i == 0 || s.Package != list[i-1].Package {
			packages++
			fmt.Fprintf(out, "\n%s\n", s.Package)
		}
		fmt.Fprintf(out, "  %s:%d %s\n      %s\n", s.File, s.Line, s.In, s)
	}
	words := 0
	for _, s := range list {
		words += s.Words()
	}
	fmt.Fprintf(out, "\n%d sentences in %d packages, %d words\n", len(list), packages, words)
}
