package data

import (
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
)

// CSV is the answer as one table: TDC, the methods, the marks and the lobes.
func CSV(f found.All) ([]byte, error) {
	t := table{{
		"kind", "cylinder", "name", "value_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg", "limit_deg", "verdict", "readings",
	}}
	for _, r := range f.Results {
		t.addCylinder(r, f.Shown)
	}
	t.addMarks(f)
	t.addLobes(f)
	return form.CSV(t)
}

// table is the rows so far.
type table [][]string

// add adds a row of what has neither a limit nor a verdict.
func (t *table) add(kind, cylinder, name string, e gum.Estimate, readings string) {
	t.judged(kind, cylinder, name, e, "", "", readings)
}

func (t *table) judged(kind, cylinder, name string, e gum.Estimate, limit, verdict, readings string) {
	*t = append(*t, []string{
		kind, cylinder, name, form.Digits(e.Angle.Degrees()), form.Digits(e.Uncertainty.Degrees()), form.Digits(e.Expanded.Degrees()),
		limit, verdict, readings,
	})
}

// addCylinder adds its TDC of every set, the last first, and its methods, as shown.
func (t *table) addCylinder(r tdc.Result, shown func(geometry.Angle) geometry.Angle) {
	number := strconv.Itoa(r.Number)
	add := func(kind, name string, e gum.Estimate, readings int) {
		e.Angle = shown(e.Angle)
		t.add(kind, number, name, e, strconv.Itoa(readings))
	}
	add("tdc", "true TDC", r.TDC, len(r.Readings))
	for _, s := range r.Earlier {
		add("tdc of earlier set", "set "+strconv.Itoa(s.Set), s.TDC, len(s.Readings))
	}
	for _, m := range r.Methods {
		add("method", m.Name, m.Estimate, m.Readings)
	}
}

// addMarks adds the marks, and the slips of the likeliest explanation.
func (t *table) addMarks(f found.All) {
	for _, m := range f.AllMarks() {
		limit, kind := "", "mark"
		if m.HasLimit {
			limit = form.Digits(words.Stated(m.Limit))
		}
		if m.OnlyMeasured() {
			kind = "mark measured"
		}
		t.judged(kind, "", m.Name, m.Estimate, limit, string(m.Verdict), "")
	}
	for _, e := range f.Diagnosis.Explanations[:min(1, len(f.Diagnosis.Explanations))] {
		for _, s := range e.Slips {
			t.add("points to", "", strings.Join(s.Joints, " or "), s.Estimate, "")
		}
	}
}

// addLobes adds the lobes; how late each is is a mark's row.
func (t *table) addLobes(f found.All) {
	for _, m := range f.Lobes {
		if e := m.Events; e != nil {
			number, readings := strconv.Itoa(m.Cylinder), strconv.Itoa(len(m.Readings))
			t.add("lobe opens", number, m.Name, e.Opens.Estimate, readings)
			t.add("lobe closes", number, m.Name, e.Closes.Estimate, readings)
			t.add("lobe duration", number, m.Name, e.Duration.Estimate, readings)
			t.add("lobe centre", number, m.Name, e.Centre.Estimate, readings)
		}
	}
	for _, p := range f.LobePairs {
		number, names := strconv.Itoa(p.Cylinder), p.Exhaust+" and "+p.Inlet
		t.add("lobe separation in cam degrees", number, names, p.Separation, "")
		t.add("lobe overlap", number, names, p.Overlap, "")
	}
}
