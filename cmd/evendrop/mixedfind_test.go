package main

import (
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/tdc/job"
	"evendrop/tdc/job/jobtest"
)

// found runs find in every form. A job may have no answer; then no form has.
func (s *benched) found() (t answerTold, ok bool) {
	file := s.path(jobtest.JobFile)
	if _, err := job.Open(file); err != nil {
		s.find("does not open: %v", err)
		return t, false
	}
	code, out, errs := s.ev("find", file, "--as", "json", "--strict")
	if code != answered && code != notFine {
		s.seen.add("refused: " + kindOf(errs))
		if other, _, _ := s.ev("find", file); other != code {
			s.find("find ends with %d as JSON and %d as text", code, other)
		}
		return t, false
	}
	if !s.valid("find", out, &t) {
		return t, false
	}
	if want := map[bool]int{true: notFine, false: answered}[t.strict()]; code != want {
		s.find("--strict ends with %d, and %d by JSON", code, want)
	}
	s.nearTruth(t)
	s.lobesNearTruth(t)
	if s.everyNth(64) {
		code, out, errs := s.ev("find", file, "--as", "json", "--trials", "1000", "--seed", strconv.Itoa(s.seed))
		if code != answered {
			s.find("trials: %s", errs)
		} else {
			s.valid("find", out, &answerTold{})
		}
	}
	return t, true
}

// kindOf is a refusal without its file, its cylinder and its numbers.
func kindOf(errs string) string {
	says := regexp.MustCompile(`^.*?(job\.toml|\.csv)`).ReplaceAllString(errs, "")
	return regexp.MustCompile(`-?\d[\d.]*`).ReplaceAllString(strings.TrimSpace(says), "N")
}

// sided tells whether angles are answered with their side, positive after the zero: on
// quadrants, and where readings were typed so.
func (s *benched) sided() bool {
	return s.Has("wraps 90") || s.Has("wraps 180") && s.Has("sides") && slices.ContainsFunc(s.Cylinders, func(c jobtest.Cylinder) bool { return len(c.Typed) > 0 })
}

// nearTruth finds an answer on the other side of the engine that does not say that
// TDC cannot be determined.
func (s *benched) nearTruth(t answerTold) {
	for i, c := range t.Cylinders {
		truth := s.Cylinders[i].TDC
		if s.Has("against") && !s.sided() {
			truth = -truth
		}
		if c.CannotTell != nil {
			s.seen.add("cylinders whose TDC cannot be determined")
		} else if off := math.Remainder(c.TDC.Protractor-truth, 360); math.Abs(off) > 90 {
			s.find("cylinder %d: TDC is %.1f deg off the truth, %.2f", c.Number, off, truth)
		}
		s.seen.add("cylinders")
	}
}

// forms finds a form of an answer of find that says otherwise than JSON.
func (s *benched) forms(t answerTold, args ...string) {
	s.formsAs(t, []string{"text", "markdown", "csv"}, args...)
}

func (s *benched) formsAs(t answerTold, forms []string, args ...string) {
	for _, as := range forms {
		more := []string{"--as", as}
		if as != "csv" && s.everyNth(2) {
			more = append(more, "--every-reading")
		}
		code, out, errs := s.ev(append(args, more...)...)
		switch {
		case code != answered:
			s.find("%v is an answer as JSON and none as %s: %s", args, as, errs)
		case as == "csv":
			s.sameCSV(out, t)
		case as == "text":
			s.sameWhere(as, out, t)
			s.sameMarks(as, textMarks(out), t)
			s.sameThrows(as, textThrows(out), t)
		default:
			s.sameWhere(as, out, t)
			s.sameMarks(as, markdownMarks(out), t)
		}
	}
}

// nothingToDraw is said of a picture that would be empty.
var nothingToDraw = regexp.MustCompile(`no (marks|readings|midpoints of equal drop|cam lobe|stops, dwells or equal views) to draw|` +
	`none to draw beside it|crowns are not compared|too few lifts that were read on both sides to draw`)

// drawn runs the page and a picture.
func (s *benched) drawn(t answerTold) {
	page, drawing := s.path("p.html"), s.path("p.svg")
	args := []string{"find", s.path(jobtest.JobFile), "--page", page, "--as", "csv"}
	code, _, errs := s.ev(args...)
	out, err := os.ReadFile(page)
	if code != answered || err != nil {
		s.find("no page: %s", errs)
		return
	}
	s.wellFormedPage(string(out))
	said := strings.NewReplacer("\u2068", "", "\u2069", "").Replace(string(out))
	s.sameWhere("page", said, t)
	s.sameMarks("page", pageMarks(said), t)
	s.sameThrows("page", pageThrows(said), t)
	name := picture.Names[s.seed%len(picture.Names)]
	number := strconv.Itoa(t.Cylinders[s.seed%len(t.Cylinders)].Number)
	code, _, errs = s.ev("find", s.path(jobtest.JobFile), "--picture", drawing, "--of", name, "--cylinder", number, "--as", "csv")
	if code != answered {
		if !nothingToDraw.MatchString(errs) {
			s.find("no picture of %s: %s", name, errs)
		}
		return
	}
	if out, err = os.ReadFile(drawing); err != nil {
		s.find("%v", err)
	}
	s.wellFormedPicture(name, string(out))
}
