package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
)

// Verdict is what became of a break.
type Verdict string

const (
	Caught   Verdict = "caught"
	TimedOut Verdict = "timed-out" // the tests did not end: caught
	Escaped  Verdict = "escaped"
)

// patience is how long the tests of a package may take; unbroken the slowest take a
// tenth of it.
const patience = 2 * time.Minute

type attempt struct {
	root    string
	program program
	scratch string // a folder for overlays and test programs
	skip    string // pattern of tests that are run when they are asked for only
}

// try breaks the program and runs the tests. first names the test that caught the
// break before, which is asked first; test is the one that caught it now.
func (a attempt) try(n int, b Break, first string) (v Verdict, test string, err error) {
	file, err := a.program.place(b)
	if err != nil {
		return "", "", err
	}
	binary, err := a.build(n, file, b)
	if err != nil {
		return "", "", err
	}
	defer os.Remove(binary)
	if first != "" {
		if v, test = a.run(binary, b, "^"+first+"$"); v != Escaped {
			return v, test, nil
		}
	}
	v, test = a.run(binary, b, b.Run)
	return v, test, nil
}

// quickly compiles without care what only writes and draws: it is compiled anew for
// each break, and runs for a moment.
const quickly = "-gcflags=evendrop/cmd/...=-N -l"

// build makes the test program of the broken package.
func (a attempt) build(n int, file string, b Break) (binary string, err error) {
	at := func(what string) string { return filepath.Join(a.scratch, fmt.Sprintf("%d.%s", n, what)) }
	if err := os.WriteFile(at("go"), []byte(a.program.broken(file, b)), 0o600); err != nil {
		return "", err
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{filepath.Join(a.root, filepath.FromSlash(file)): at("go")}})
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(at("json"), overlay, 0o600); err != nil {
		return "", err
	}
	build := exec.Command("go", "test", "-c", "-vet=off", "-ldflags=-s -w", quickly, "-overlay", at("json"), "-o", at("test.exe"), "./"+b.Package)
	build.Dir = a.root
	if out, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%s: %q does not compile:\n%s", b.listed, b.Why, out)
	}
	return at("test.exe"), nil
}

// failing is the first test that a run names as failed.
var failing = regexp.MustCompile(`(?m)^--- FAIL: (\w+)|^panic: test timed out|\trunning tests:\n\t+(\w+)`)

// run runs a test program where go test would.
func (a attempt) run(binary string, b Break, pattern string) (v Verdict, test string) {
	ctx, stop := context.WithTimeout(context.Background(), patience+10*time.Second)
	defer stop()
	skip := a.skip
	if pattern != "" {
		skip = ""
	}
	folder := filepath.Join(a.root, filepath.FromSlash(b.Package))
	args := []string{fmt.Sprintf("-test.short=%t", !isScript(b.File)), "-test.failfast", "-test.timeout=" + patience.String(), "-test.run=" + pattern, "-test.skip=" + skip}
	if drawsByRapid(folder) {
		args = append(args, "-rapid.nofailfile") // what a broken program fails at is not kept
	}
	tests := exec.CommandContext(ctx, binary, args...)
	tests.Dir = folder
	out, err := tests.CombinedOutput()
	if err == nil {
		return Escaped, ""
	}
	if found := failing.FindSubmatch(out); found != nil {
		test = string(found[1])
	}
	if ctx.Err() != nil || strings.Contains(string(out), "panic: test timed out") {
		return TimedOut, test
	}
	return Caught, test
}

// drawsByRapid is whether tests of a folder use rapid, and so know its flags.
func drawsByRapid(folder string) bool {
	files, err := filepath.Glob(filepath.Join(folder, "*_test.go"))
	if err != nil {
		return false
	}
	return slices.ContainsFunc(files, func(file string) bool {
		text, err := os.ReadFile(file)
		return err == nil && strings.Contains(string(text), `"pgregory.net/rapid"`)
	})
}

// tryAll tries the breaks, so many at a time, says what became of each and keeps it.
func tryAll(a attempt, list []Break, kept results, keep func() error, at int, out io.Writer) (fine bool) {
	fine = true
	var telling sync.Mutex
	var all sync.WaitGroup
	next := make(chan int)
	for range max(1, at) {
		all.Go(func() {
			for n := range next {
				b := list[n]
				telling.Lock()
				first := kept[b.Why].Test
				telling.Unlock()
				v, test, err := a.try(n, b, first)
				telling.Lock()
				if err == nil {
					kept[b.Why] = Result{Date: time.Now().Format(time.DateOnly), Verdict: v, Mark: b.mark(), Test: test}
					err = keep()
				}
				fine = tell(out, b, v, test, err) && fine
				telling.Unlock()
			}
		})
	}
	for n := range list {
		next <- n
	}
	close(next)
	all.Wait()
	return fine
}

// tell is false when somebody has to look at the break.
func tell(out io.Writer, b Break, v Verdict, test string, err error) bool {
	switch {
	case err != nil:
		fmt.Fprintf(out, "%-9s %v\n", "error", err)
		return false
	case v != Escaped && b.Escapes != "":
		fmt.Fprintf(out, "%-9s %s, by %s, though the list says that it escapes: strike its reason\n", v, b.Why, test)
	case v != Escaped:
		fmt.Fprintf(out, "%-9s %s, by %s\n", v, b.Why, test)
	case b.Escapes == "":
		fmt.Fprintf(out, "%-9s %s: %s\n", v, b.listed, b.Why)
		return false
	default:
		fmt.Fprintf(out, "%-9s %s: %s\n", v, b.Why, b.Escapes)
	}
	return true
}
