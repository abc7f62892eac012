// Command breaks breaks evendrop on purpose, one place at a time, and sees whether a
// test fails:
//
//	go run ./cmd/breaks                  every break of testdata/breaks
//	go run ./cmd/breaks -new             those without a result that holds, or that escaped
//	go run ./cmd/breaks -only 'caution'  those whose words match
//	go run ./cmd/breaks -table           the table for DEVELOPERS.md, from the results kept
//
// A break is an old text that stands once in the program, or in the script of the page that it
// names, and a new text in its place. Nothing is written but the results: the compiler is handed
// the broken file as an overlay. Tests of scripts need a Chromium. Exit 1 when a break escapes and the list gives no reason for it.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
)

type options struct {
	only  string
	at    int
	fresh bool
	table bool
}

func main() {
	var o options
	flag.StringVar(&o.only, "only", "", "try the breaks whose words, package or file of the list match this `pattern`")
	flag.IntVar(&o.at, "j", runtime.NumCPU(), "try so `many` at a time")
	flag.BoolVar(&o.fresh, "new", false, "try those without a result that still holds, and those that escaped without a reason")
	flag.BoolVar(&o.table, "table", false, "try nothing, and print the table for DEVELOPERS.md")
	flag.Parse()
	fine, err := run(o, os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, "breaks:", err)
	}
	if err != nil || !fine {
		os.Exit(1)
	}
}

// run does what the flags say; fine is false when a break escapes without a reason,
// or cannot be tried.
func run(o options, out io.Writer) (fine bool, err error) {
	root, err := rootFolder()
	if err != nil {
		return false, err
	}
	list, err := readLists(root)
	if err != nil {
		return false, err
	}
	source, err := readProgram(root)
	if err != nil {
		return false, err
	}
	kept, err := readResults(root)
	if err != nil {
		return false, err
	}
	if o.table {
		text, err := table(source, list, kept)
		fmt.Fprint(out, text)
		return true, err
	}
	chosen, err := choose(list, kept, o)
	if err != nil {
		return false, err
	}
	if err := passUnbroken(root, chosen); err != nil {
		return false, err
	}
	scratch, err := os.MkdirTemp("", "breaks")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(scratch)
	keep := func() error { return kept.write(root, list) }
	return tryAll(attempt{root, source, scratch, slow}, chosen, kept, keep, o.at, out), keep()
}

// rootFolder is where go.mod is.
func rootFolder() (string, error) {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return "", err
	}
	return filepath.Dir(strings.TrimSpace(string(out))), nil
}

func choose(list []Break, kept results, o options) (chosen []Break, err error) {
	only, err := regexp.Compile(o.only)
	if err != nil {
		return nil, err
	}
	for _, b := range list {
		result, known := kept.of(b)
		held := known && (result.Verdict != Escaped || b.Escapes != "")
		if !(o.fresh && held) && only.MatchString(b.Why+"\n"+b.Package+"\n"+b.listed) {
			chosen = append(chosen, b)
		}
	}
	return chosen, nil
}

// slow is tests that start processes or simulate for long, and look at other things
// than most breaks break. A break whose run names one has it run.
const slow = "TestNoiseIsNoAnswer|TestPageInABrowser|TestClosedPipe|TestWriters|Killed|TestFullDisk|TestReadOnly|TestVanishingCapture|TestTwoJots"

// passUnbroken makes sure that a test which fails fails for the break.
func passUnbroken(root string, chosen []Break) error {
	scripts, programs := apart(chosen)
	args := []string{"test", "-short", "-skip", slow}
	for _, p := range packages(programs) {
		args = append(args, "./"+p)
	}
	if err := passes(root, args); len(programs) > 0 && err != nil {
		return err
	}
	for _, p := range packages(scripts) {
		if err := passes(root, []string{"test", "-run", runsOf(scripts, p), "./" + p}); err != nil {
			return err
		}
	}
	return nil
}

// apart parts breaks of the page's scripts, whose tests drive a browser and are none of the
// short ones, from the others.
func apart(list []Break) (scripts, programs []Break) {
	for _, b := range list {
		if isScript(b.File) {
			scripts = append(scripts, b)
		} else {
			programs = append(programs, b)
		}
	}
	return scripts, programs
}

// runsOf is the pattern of all tests that are to catch breaks in a package.
func runsOf(list []Break, folder string) string {
	var runs []string
	for _, b := range list {
		if b.Package == folder && !slices.Contains(runs, b.Run) {
			runs = append(runs, b.Run)
		}
	}
	return strings.Join(runs, "|")
}

func passes(root string, args []string) error {
	tests := exec.Command("go", args...)
	tests.Dir = root
	if out, err := tests.CombinedOutput(); err != nil {
		return fmt.Errorf("the tests fail unbroken:\n%s", out)
	}
	return nil
}
