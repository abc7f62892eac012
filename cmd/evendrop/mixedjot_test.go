package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"

	"evendrop/tdc/job/jobtest"
)

// jotted types the readings of one cylinder and finds a last answer that is not
// find's.
func (s *benched) jotted(t answerTold) {
	i := s.seed % len(t.Cylinders)
	c := s.Cylinders[i]
	const longest = 60 // readings; more take long, each being answered
	if len(c.Typed) == 0 || len(c.Typed) > longest && !s.everyNth(20) {
		return
	}
	file := s.path(c.ReadingsFile)
	whole, err := os.ReadFile(file)
	if err == nil {
		err = os.Remove(file)
	}
	if err != nil {
		s.find("%v", err)
		return
	}
	defer os.WriteFile(file, whole, 0o666)
	out, err := s.jot("--cylinder", strconv.Itoa(c.Number), strings.Join(c.Typed, "\n")+"\nlist\nplot\nnext\n")
	if err != nil {
		s.find("jot: %v", err)
		return
	}
	s.sameLast(out, t, i)
	code, again, _ := s.ev("find", s.path(jobtest.JobFile), "--as", "json")
	var typed answerTold
	if code != answered || !s.valid("find", again, &typed) || typed.Cylinders[i].TDC != t.Cylinders[i].TDC {
		s.find("find says %v of what was typed from the readings, and %v of the readings", typed.Cylinders, t.Cylinders[i].TDC)
	}
}

// jot is the notebook with lines from a pipe.
func (s *benched) jot(flag, value, lines string) (out string, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = errors.New("panics: " + traced())
		}
	}()
	var stdout, stderr bytes.Buffer
	err = runJot([]string{s.path(jobtest.JobFile), flag, value}, newConsole(strings.NewReader(lines), &stdout, &stderr, false))
	if bad := noNumber(stdout.String() + stderr.String()); bad != "" {
		s.find("jot says %q", bad)
	}
	return stdout.String(), err
}

var jotTDC = regexp.MustCompile(`TDC ` + shownAngle + ` ± ([\d.]+) deg \(95 %\)`)

// sameLast finds a last answer of jot that differs from find's.
func (s *benched) sameLast(out string, t answerTold, i int) {
	_, last, ok := strings.Cut(out, fmt.Sprintf("%3d  ", len(s.Cylinders[i].Typed)))
	if !ok {
		s.find("jot has no answer to the last of %d readings: %s", len(s.Cylinders[i].Typed), out)
		return
	}
	last, _, _ = strings.Cut(last, "angle, deg") // the list; what stands below is of the whole job
	m := jotTDC.FindStringSubmatch(unwrapped(last))
	cannot := strings.Contains(unwrapped(last), "cannot be determined") || strings.Contains(unwrapped(last), "so no mark can be called late or early")
	if want := t.Cylinders[i].CannotTell != nil; cannot != want {
		s.find("jot says %v of whether TDC cannot be determined, find %v:\n%s", cannot, want, last)
	}
	if m == nil {
		if !cannot {
			s.find("jot does not end with TDC: %s", last)
		}
		return
	}
	s.agrees("jot: TDC", sidedNumber(m[1], m[2]), t.Cylinders[i].TDC.Protractor, true)
	s.agrees("jot: ±", m[3], t.half(i), false)
}
