package main

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"evendrop/cmd/evendrop/internal/report"
	"evendrop/tdc/job"
	"evendrop/tdc/job/jobtest"
)

// found runs find in every form. A job may have no answer; then no form has.
func (s *sitting) found() (t answerTold, ok bool) {
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

// nearTruth finds an answer on the other side of the engine that does not say that
// TDC cannot be told.
func (s *sitting) nearTruth(t answerTold) {
	for i, c := range t.Cylinders {
		truth := s.Cylinders[i].TDC
		if s.Has("against") && !s.Has("wraps 90") {
			truth = -truth
		}
		if c.CannotTell != nil {
			s.seen.add("cylinders whose TDC cannot be told")
		} else if off := math.Remainder(c.TDC.Protractor-truth, 360); math.Abs(off) > 90 {
			s.find("cylinder %d: TDC is %.1f deg off the truth, %.2f", c.Number, off, truth)
		}
		s.seen.add("cylinders")
	}
}

// forms finds a form of an answer of find that says otherwise than JSON.
func (s *sitting) forms(t answerTold, args ...string) {
	s.formsAs(t, []string{"text", "markdown", "csv"}, args...)
}

func (s *sitting) formsAs(t answerTold, forms []string, args ...string) {
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

var textThrow = regexp.MustCompile(`(?m)^ (\d+) +` + shownAngle + ` +([+-]?[\d.]+|-)(?: +([\d.]+))?`)

// textThrows is the rows of the text's cylinders: number, TDC, throw off, its ±.
func textThrows(out string) (rows [][4]string) {
	for _, m := range textThrow.FindAllStringSubmatch(section(out, "Cylinder  "), -1) {
		rows = append(rows, [4]string{m[1], sidedNumber(m[2], m[3]), m[4], m[5]})
	}
	return rows
}

var (
	pageRows  = regexp.MustCompile(`(?s)<tr><th scope="row"[^>]*>(\d+)</th>(.*?)</tr>`)
	pageCells = regexp.MustCompile(`<td>([^<]*)</td>`)
	onePlace  = regexp.MustCompile(`^` + shownAngle + `$`)
)

// pageThrows is textThrows of the page.
func pageThrows(out string) (rows [][4]string) {
	_, section, _ := strings.Cut(out, `<h2 id="throws">`)
	section, _, _ = strings.Cut(section, "</section>")
	for _, row := range pageRows.FindAllStringSubmatch(section, -1) {
		cells := pageCells.FindAllStringSubmatch(row[2], -1)
		if at := onePlace.FindStringSubmatch(cells[0][1]); at != nil {
			rows = append(rows, [4]string{row[1], sidedNumber(at[1], at[2]), html.UnescapeString(cells[1][1]), cells[2][1]})
		}
	}
	return rows
}

// sameThrows finds a cylinder that the text has elsewhere than JSON.
func (s *sitting) sameThrows(form string, rows [][4]string, t answerTold) {
	if len(rows) != len(t.Throws) {
		s.find("%s has %d throws and JSON %d", form, len(rows), len(t.Throws))
		return
	}
	for i, row := range rows {
		s.agrees(form+": TDC of cylinder "+row[0], row[1], t.Cylinders[i].TDC.Protractor, true)
		if i > 0 {
			s.agrees(form+": throw of cylinder "+row[0], row[2], t.Throws[i].Off, false)
			s.agrees(form+": ± of throw of cylinder "+row[0], row[3], t.Throws[i].Expanded, false)
		}
	}
}

// nothingToDraw is said of a picture that would be empty.
var nothingToDraw = regexp.MustCompile(`no (marks|readings|midpoints of equal drop) to draw`)

// drawn runs the page and a picture.
func (s *sitting) drawn(t answerTold) {
	page, picture := s.path("p.html"), s.path("p.svg")
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
	name := report.Pictures[s.seed%len(report.Pictures)]
	number := strconv.Itoa(t.Cylinders[s.seed%len(t.Cylinders)].Number)
	code, _, errs = s.ev("find", s.path(jobtest.JobFile), "--picture", picture, "--of", name, "--cylinder", number, "--as", "csv")
	if code != answered {
		if !nothingToDraw.MatchString(errs) {
			s.find("no picture of %s: %s", name, errs)
		}
		return
	}
	if out, err = os.ReadFile(picture); err != nil {
		s.find("%v", err)
	}
	s.wellFormedPicture(name, string(out))
}

// jotted types the readings of one cylinder and finds a last answer that is not
// find's.
func (s *sitting) jotted(t answerTold) {
	i := s.seed % len(t.Cylinders)
	c := s.Cylinders[i]
	const sitting = 60 // readings; more take long, each being answered
	if len(c.Typed) == 0 || len(c.Typed) > sitting && !s.everyNth(20) {
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
func (s *sitting) jot(flag, value, lines string) (out string, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = errors.New("panics: " + traced())
		}
	}()
	var stdout, stderr bytes.Buffer
	err = jot([]string{s.path(jobtest.JobFile), flag, value}, newConsole(strings.NewReader(lines), &stdout, &stderr, false))
	if bad := noNumber(stdout.String() + stderr.String()); bad != "" {
		s.find("jot says %q", bad)
	}
	return stdout.String(), err
}

var jotTDC = regexp.MustCompile(`TDC ` + shownAngle + ` ± ([\d.]+) deg \(95 %\)`)

// sameLast finds a last answer of jot that differs from find's.
func (s *sitting) sameLast(out string, t answerTold, i int) {
	_, last, ok := strings.Cut(out, fmt.Sprintf("%3d  ", len(s.Cylinders[i].Typed)))
	if !ok {
		s.find("jot has no answer to the last of %d readings: %s", len(s.Cylinders[i].Typed), out)
		return
	}
	m := jotTDC.FindStringSubmatch(unwrapped(last))
	cannot := strings.Contains(unwrapped(last), "cannot be told")
	if want := t.Cylinders[i].CannotTell != nil; cannot != want {
		s.find("jot says %v of whether TDC cannot be told, find %v:\n%s", cannot, want, last)
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

// held runs the commands that hold jobs against others: a job against itself has not
// changed.
func (s *sitting) held() {
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
		s.ev("recheck", file, file, "--as", formats[s.seed%len(formats)])
	}
	if code, out, errs := s.ev("keep", file, known, "--as", "json"); code == answered {
		s.valid("keep", out, &struct{}{})
		if _, err := job.OpenKnownGood(known); err != nil {
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
func (s *sitting) against(known string) {
	args := []string{"find", s.path(jobtest.JobFile), "--against", known}
	code, out, errs := s.ev(append(args, "--as", "json")...)
	var t answerTold
	if code != answered {
		s.find("against %s: %s", filepath.Base(known), errs)
	} else if s.valid("find", out, &t) {
		s.formsAs(t, []string{"text"}, args...)
	}
}

// planned runs plan.
func (s *sitting) planned() {
	args := []string{"plan", s.path(jobtest.JobFile), "--as", "json"}
	if s.everyNth(2) {
		args = append(args, "--one-way")
	}
	code, out, errs := s.ev(args...)
	if code != answered {
		s.find("plan: %s", errs)
		return
	}
	s.valid("plan", out, &struct{}{})
	if s.everyNth(5) {
		s.ev("plan", s.path(jobtest.JobFile), "--target", "0.2", "--as", formats[s.seed%len(formats)])
	}
}

var halfWay = regexp.MustCompile(`TDC is at ` + shownAngle + ` ± ([\d.]+) deg on the protractor`)

// halved runs halve on the stops of the first cylinder that has some.
func (s *sitting) halved() {
	for _, c := range s.Cylinders {
		if len(c.Pairs) == 0 {
			continue
		}
		args := append([]string{"halve"}, c.Pairs...)
		if s.Has("against") {
			args = append(args, "--counts", "against")
		}
		for _, wraps := range []string{"180", "90"} {
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
			s.find("%v: %s", args, errs)
			return
		}
		s.valid("halve", out, &half)
		_, text, _ := s.ev(args...)
		m := halfWay.FindStringSubmatch(unwrapped(text))
		if m == nil {
			s.find("%v: no TDC in %q", args, text)
			return
		}
		shown := sidedNumber(m[1], m[2])
		if m[2] != "" && s.Has("against") && !s.Has("wraps 90") {
			shown = sidedNumber(m[1], map[string]string{" ATDC": " BTDC"}[m[2]])
		}
		s.agrees("halve: TDC", shown, half.TDC, true)
		s.agrees("halve: ±", m[3], (half.Interval[1]-half.Interval[0])/2, false)
		s.ev(append(args, "--as", formats[s.seed%len(formats)])...)
		return
	}
}

// reckoned runs convert and motion.
func (s *sitting) reckoned() {
	for _, shift := range s.Shifts {
		args := append([]string{"convert"}, strings.Split(shift, ";")...)
		if code, out, errs := s.ev(append(args, "--as", "json")...); code != answered {
			s.find("%v: %s", args, errs)
		} else {
			s.valid("convert", out, &struct{}{})
		}
		s.ev(append(args, "--as", formats[s.seed%len(formats)])...)
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
	s.ev(append(args, "--as", formats[s.seed%len(formats)])...)
}
