package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"evendrop/cmd/internal/flags"
	"evendrop/tdc/job/jobtest"
	"evendrop/tdc/job/knowngood"
)

// planned runs plan.
func (s *benched) planned() {
	args := []string{"plan", s.path(jobtest.JobFile), "--as", "json"}
	if s.everyNth(2) {
		args = append(args, "--one-way")
	}
	code, out, errs := s.ev(args...)
	if code != answered {
		wrong := slices.ContainsFunc(s.Lobes, func(l jobtest.Lobe) bool { return l.Wrong == "wrong lift" })
		if !wrong || !strings.Contains(errs, "check lift, top and ratio") { // a checking lift above all that the lobe lifts
			s.find("plan: %s", errs)
		}
		return
	}
	s.valid("plan", out, &struct{}{})
	if s.everyNth(5) {
		s.ev("plan", s.path(jobtest.JobFile), "--target", "0.2", "--as", flags.Formats[s.seed%len(flags.Formats)])
	}
}

var halfWay = regexp.MustCompile(`TDC is at ` + shownAngle + ` ± ([\d.]+) deg on the protractor`)

// halved runs halve on the stops of the first cylinder that has some.
func (s *benched) halved() {
	for _, c := range s.Cylinders {
		if len(c.Pairs) == 0 {
			continue
		}
		args := append([]string{"halve"}, c.Pairs...)
		if s.Has("against") {
			args = append(args, "--counts", "against")
		}
		for _, wraps := range []string{"720", "180", "90"} {
			if s.Has("wraps " + wraps) {
				args = append(args, "--wraps", wraps)
			}
		}
		code, out, errs := s.ev(append(args, "--as", "json")...)
		var half struct {
			TDC      float64    `json:"tdc_deg"`
			Interval [2]float64 `json:"interval95_deg"`
		}
		if code != answered {
			if !s.Has("pair mistyped") || !strings.Contains(errs, "the pairs do not belong together") {
				s.find("%v: %s", args, errs)
			}
			return
		}
		s.valid("halve", out, &half)
		_, text, _ := s.ev(args...)
		m := halfWay.FindStringSubmatch(unwrapped(text))
		if m == nil {
			s.find("%v: no TDC in %q", args, text)
			return
		}
		s.agrees("halve: TDC", sidedNumber(m[1], m[2]), half.TDC, true)
		s.agrees("halve: ±", m[3], (half.Interval[1]-half.Interval[0])/2, false)
		s.ev(append(args, "--as", flags.Formats[s.seed%len(flags.Formats)])...)
		return
	}
}

// reckoned runs convert and motion.
func (s *benched) reckoned() {
	for _, shift := range s.Shifts {
		args := append([]string{"convert"}, strings.Split(shift, ";")...)
		if code, out, errs := s.ev(append(args, "--as", "json")...); code != answered {
			s.find("%v: %s", args, errs)
		} else {
			s.valid("convert", out, &struct{}{})
		}
		s.ev(append(args, "--as", flags.Formats[s.seed%len(flags.Formats)])...)
	}
	if s.Motion == nil || !s.everyNth(2) {
		return
	}
	picture := s.path("m.svg")
	args := append([]string{"motion"}, s.Motion...)
	if code, out, errs := s.ev(append(args, "--as", "json", "--picture", picture)...); code != answered {
		s.find("%v: %s", args, errs)
		return
	} else {
		s.valid("motion", out, &struct{}{})
	}
	svg, err := os.ReadFile(picture)
	if err != nil {
		s.find("%v", err)
	}
	s.wellFormedPicture("motion", string(svg))
	s.ev(append(args, "--as", flags.Formats[s.seed%len(flags.Formats)])...)
}

// held runs the commands that hold jobs against others: a job against itself has not
// changed.
func (s *benched) held() {
	file, known := s.path(jobtest.JobFile), s.path("known.toml")
	code, out, _ := s.ev("recheck", file, file, "--as", "json")
	if code == answered {
		var same struct {
			TDC struct {
				Change float64 `json:"change_deg"`
			}
			Marks []struct {
				Name   string
				Change float64 `json:"change_deg"`
			}
		}
		s.valid("recheck", out, &same)
		for _, m := range same.Marks {
			if m.Change != 0 {
				s.find("recheck: %s has changed by %v against itself", m.Name, m.Change)
			}
		}
		if same.TDC.Change != 0 {
			s.find("recheck: TDC has changed by %v against itself", same.TDC.Change)
		}
		s.ev("recheck", file, file, "--as", flags.Formats[s.seed%len(flags.Formats)])
	}
	if code, out, errs := s.ev("keep", file, known, "--as", "json"); code == answered {
		s.valid("keep", out, &struct{}{})
		if _, err := knowngood.Open(known); err != nil {
			s.find("what keep wrote does not open: %v", err)
		}
		s.against(known)
	} else if s.Marks > 0 {
		s.seen.add("not kept: " + kindOf(errs))
	}
	if s.Healthy {
		s.against(s.path(jobtest.HealthyFile))
	}
}

// against runs find against a known-good file.
func (s *benched) against(known string) {
	args := []string{"find", s.path(jobtest.JobFile), "--against", known}
	code, out, errs := s.ev(append(args, "--as", "json")...)
	var t answerTold
	if code != answered {
		s.find("against %s: %s", filepath.Base(known), errs)
	} else if s.valid("find", out, &t) {
		s.formsAs(t, []string{"text"}, args...)
	}
}
