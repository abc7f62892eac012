package main

import (
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"time"
)

// numbers is what is held to published figures.
func numbers(_ scratch, tell say) error {
	nist, err := goTest("./fit", "NIST")
	if err != nil {
		return err
	}
	tell(leastOf("NIST StRD: digits of the parameters, both starts, at worst", nist, `digits: parameters ([\d.]+)`, atLeast(6)))
	text, err := goTest("./...", "Published|NIST|AgainstScipy|York|JCGM|Supplement|WelchSatterthwaite")
	passed, failed := passes(text)
	tell(figure{what: "tests against published figures that fail", aim: atMost(0), value: float64(failed), shown: fmt.Sprintf("%d of %d", failed, passed+failed)})
	return err
}

// leastOf is the least of the numbers that a pattern finds.
func leastOf(what, text, pattern string, a aim) figure {
	f := figure{what: what, aim: a}
	for i, m := range regexp.MustCompile(pattern).FindAllString(text, -1) {
		if x := found(m, pattern); i == 0 || x[0] < f.value {
			f.value = x[0]
		}
	}
	f.shown = digits(f.value)
	return f
}

var (
	pass = regexp.MustCompile(`(?m)^ *--- PASS: `)
	fail = regexp.MustCompile(`(?m)^ *--- FAIL: `)
)

// passes is how many tests and parts of tests passed and failed.
func passes(text string) (passed, failed int) {
	return len(pass.FindAllString(text, -1)), len(fail.FindAllString(text, -1))
}

// files is bad input: hostile and malformed files, and writers killed.
func files(_ scratch, tell say) error {
	const hostile = "Refuse|Hostile|Damaged|TooMany|TooLong|BadInput|BadPairs|NoZips|UnpackToMore|ParseLimits"
	text, err := goTest("./...", hostile, "-short")
	passed, failed := passes(text)
	tell(figure{what: "malformed files and lines not refused as they should be", aim: atMost(0), value: float64(failed), shown: fmt.Sprintf("%d of %d", failed, passed+failed)})
	if err != nil {
		return err
	}
	text, err = goTest("./cmd/evendrop", "Killed|EditorSaves|Swapped")
	passed, failed = passes(text)
	tell(figure{what: "tests that kill writers, save from an editor and swap links: failed", aim: atMost(0), value: float64(failed), shown: fmt.Sprintf("%d of %d", failed, passed+failed)})
	return err
}

// tests is how long the tests take.
func tests(_ scratch, tell say) error {
	for _, how := range []struct {
		what string
		args []string
	}{{"go test -short ./...", []string{"test", "-count", "1", "-short", "./..."}}} {
		cmd := exec.Command("go", how.args...)
		began := time.Now()
		out, err := cmd.CombinedOutput()
		took := time.Since(began)
		if err != nil {
			return fmt.Errorf("%w\n%s", err, out)
		}
		processor := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
		tell(figure{what: how.what, shown: fmt.Sprintf("%.0f s (%.0f of the processors)", took.Seconds(), processor.Seconds())})
	}
	return nil
}

// sizes is how large what is handed out is.
func sizes(s scratch, tell say) error {
	lean, page := s.path("lean"), s.path("page.html")
	if out, err := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", lean, "./cmd/evendrop").CombinedOutput(); err != nil {
		return fmt.Errorf("%w\n%s", err, out)
	}
	if _, err := s.time(1, "find", "examples/diagnostician", "--page", page); err != nil {
		return err
	}
	for _, of := range []struct {
		what, file string
		aim        aim
	}{{"evendrop as released", lean, aim{}}, {"a customer's page, the diagnostician's example", page, atMost(mostCustomers)}} {
		info, err := os.Stat(of.file)
		if err != nil {
			return err
		}
		tell(figure{what: of.what, aim: of.aim, value: float64(info.Size()), shown: fmt.Sprintf("%d bytes", info.Size())})
	}
	return nil
}

// mostCustomers is the largest page for a customer without photos, bytes.
const mostCustomers = 80 << 10
