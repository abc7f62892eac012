package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// answerTold is what an answer of find says in JSON of what every other form says too.
type answerTold struct {
	Cylinders []cylinderTold
	Throws    []struct {
		Set          int
		Off          float64 `json:"off_deg"`
		Expanded     float64 `json:"expanded_uncertainty_deg"`
		Verdict      *string
		CrownVerdict *string `json:"crown_verdict"`
	}
	Marks    []markTold
	Lobes    []lobeTold
	Findings []findingTold
}

type findingTold struct{ Kind string }

type cylinderTold struct {
	Number int
	TDC    foundTold
	Sets   []struct {
		Set        int
		TDC        foundTold
		CannotTell *string `json:"cannot_tell"`
	}
	CannotTell *string `json:"cannot_tell"`
	Readings   []any
}

type foundTold struct {
	Protractor float64    `json:"protractor_deg"`
	Interval   [2]float64 `json:"interval95_deg"`
}

// in is TDC of a set.
func (c cylinderTold) in(set int) float64 {
	for _, s := range c.Sets {
		if s.Set == set {
			return s.TDC.Protractor
		}
	}
	return math.NaN()
}

type markTold struct {
	Name     string
	Off      *float64 `json:"off_deg"`
	Expanded float64  `json:"expanded_uncertainty_deg"`
	Limit    *float64 `json:"limit_deg"`
	Verdict  *string
}

// half is a cylinder's ± in degrees.
func (t answerTold) half(i int) float64 {
	c := t.Cylinders[i].TDC
	return (c.Interval[1] - c.Interval[0]) / 2
}

// judged is the marks that are held against something.
func (t answerTold) judged() (list []markTold) {
	for _, m := range t.Marks {
		if m.Off != nil {
			list = append(list, m)
		}
	}
	return list
}

// said is a mark's verdict in the words of the text.
func (m markTold) said() string {
	if m.Verdict == nil {
		return "no limit given"
	}
	return *m.Verdict
}

// strict tells whether --strict has something to object to.
func (t answerTold) strict() bool {
	bad := func(v *string) bool { return v != nil && *v != "within" }
	for _, c := range t.Cylinders {
		for _, s := range c.Sets {
			if s.CannotTell != nil {
				return true
			}
		}
	}
	for _, h := range t.Throws {
		if bad(h.Verdict) || bad(h.CrownVerdict) {
			return true
		}
	}
	for _, m := range t.Marks {
		if bad(m.Verdict) {
			return true
		}
	}
	for _, f := range t.Findings {
		if f.Kind == "mark read before the move" {
			return true
		}
	}
	return false
}

// valid decodes JSON, and finds what its schema does not allow.
func (s *benched) valid(schema, out string, into any) bool {
	var v any
	if err := json.Unmarshal([]byte(out), &v); err != nil {
		s.find("%s: %v", schema, err)
		return false
	}
	for _, wrong := range s.schemas[schema].check(schema, v) {
		s.find("%s", wrong)
	}
	if err := json.Unmarshal([]byte(out), into); err != nil {
		s.find("%s: %v", schema, err)
		return false
	}
	return true
}

// agrees finds a printed number that is not the whole one rounded; whole turns apart
// are the same place.
func (s *benched) agrees(what, printed string, whole float64, round bool) {
	value, err := strconv.ParseFloat(printed, 64)
	if err != nil {
		s.find("%s: %q is no number", what, printed)
		return
	}
	off := value - whole
	if round {
		off = math.Remainder(off, 360)
	}
	const digits = 1e-9 // what the way through radians and back leaves
	if math.Abs(off) > math.Pow10(-places(printed))/2+digits*math.Max(1, math.Abs(whole)) {
		s.find("%s says %s where JSON says %v", what, printed, whole)
	}
}

// shownAngle is an angle as text shows it, with its side.
const shownAngle = `(-?[\d.]+)( [AB][TB]DC)?`

// sided is an angle of text as a number.
func sidedNumber(number, side string) string {
	x, err := strconv.ParseFloat(number, 64)
	switch side {
	case " BTDC":
		return "-" + number
	case " BBDC":
		x = 180 - x
	case " ABDC":
		x -= 180
	}
	if err != nil || side == " ATDC" || side == "" {
		return number
	}
	return strconv.FormatFloat(x, 'f', places(number), 64)
}

var (
	where = regexp.MustCompile(`at ` + shownAngle + ` ± ([\d.]+) deg on the protractor`)
	// of readings that contradict the turn that they state
	whereNear = regexp.MustCompile(`Until then (?:cylinder (\d+)(?:'|&#39;)s )?TDC is only known to be near ` + shownAngle + ` deg on the protractor`)
)

// sameWhere finds a sentence of a text form that puts TDC elsewhere than JSON.
func (s *benched) sameWhere(form, out string, t answerTold) {
	out = unwrapped(out)
	near, m := whereNear.FindAllStringSubmatch(out, -1), where.FindStringSubmatch(out)
	if len(near) == 0 && m == nil {
		s.find("%s does not say where TDC is", form)
		return
	}
	first := false // of the cylinders, whose own sentence comes before the others'
	for _, n := range near {
		i := slices.IndexFunc(t.Cylinders, func(c cylinderTold) bool { return n[1] == "" || n[1] == strconv.Itoa(c.Number) })
		first = first || i == 0
		s.agrees(form+": TDC", sidedNumber(n[2], n[3]), t.Cylinders[i].TDC.Protractor, true)
	}
	if m != nil && !first {
		s.agrees(form+": TDC", sidedNumber(m[1], m[2]), t.Cylinders[0].TDC.Protractor, true)
		s.agrees(form+": ± of TDC", m[3], t.half(0), false)
	}
	cannot := strings.Contains(out, "cannot be determined from these readings") || whereNear.MatchString(out)
	some := false
	for _, c := range t.Cylinders {
		some = some || c.CannotTell != nil
	}
	if cannot != some {
		s.find("%s says %v of whether TDC cannot be determined, JSON %v", form, cannot, some)
	}
}

// sameCSV finds what CSV says otherwise than JSON, digit for digit but for the last.
func (s *benched) sameCSV(out string, t answerTold) {
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll() // as many cells in every row
	if err != nil {
		s.find("csv: %v", err)
		return
	}
	cylinder, marks := 0, t.judged()
	for _, row := range rows {
		switch row[0] {
		case "tdc":
			s.close("csv: TDC", row[3], t.Cylinders[cylinder].TDC.Protractor)
			s.close("csv: ± of TDC", row[5], t.half(cylinder))
			cylinder++
		case "mark":
			if len(marks) == 0 {
				s.find("csv has more marks than JSON")
				return
			}
			s.close("csv: "+marks[0].Name, row[3], *marks[0].Off)
			s.close("csv: ± of "+marks[0].Name, row[5], marks[0].Expanded)
			if row[7] != marks[0].said() {
				s.find("csv: %s is %q, and in JSON %q", row[2], row[7], marks[0].said())
			}
			marks = marks[1:]
		}
	}
	if cylinder != len(t.Cylinders) || len(marks) > 0 {
		s.find("csv has %d cylinders, and %d marks are missing", cylinder, len(marks))
	}
}

// close finds two numbers that are not the same but for their last digits.
func (s *benched) close(what, printed string, whole float64) {
	if value, err := strconv.ParseFloat(printed, 64); err != nil || math.Abs(value-whole) > 1e-9*math.Max(1, math.Abs(whole)) {
		s.find("%s says %s where JSON says %v", what, printed, whole)
	}
}
