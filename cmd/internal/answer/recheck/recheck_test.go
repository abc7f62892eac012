package recheck

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// answerAt is an answer with TDC at a crank angle, deg, and a mark on the crank so many
// degrees late for each of late.
func answerAt(t *testing.T, p evidence.Protractor, at float64, late ...float64) find.Answer {
	t.Helper()
	setup := answertest.Setup()
	setup.Protractor = p
	f := find.Answer{All: found.All{Job: job.Job{Setup: setup}}}
	result := answertest.Result(t, setup, at)
	f.Results = append(f.Results, result)
	f.Job.Cylinders = []evidence.Cylinder{{Number: 1, Readings: []evidence.Reading{{Angle: geometry.Angle(at) * geometry.Degree, File: "r.csv"}}}}
	var marks []mark.Mark
	for i, off := range late {
		marks = append(marks, mark.Mark{
			Name: fmt.Sprintf("m%d", i+1), On: "crank", Read: []geometry.Angle{geometry.Angle(at+off) * geometry.Degree}, Limit: 2 * geometry.Degree, HasLimit: true,
		})
	}
	var err error
	f.Marks, err = mark.Judge(setup, result, mark.Drive{}, marks)
	require.NoError(t, err)
	f.Diagnosis, err = joint.Explain(setup, mark.Drive{}, f.Marks, nil)
	require.NoError(t, err)
	return f
}

// rechecked is two answers side by side.
func rechecked(t *testing.T, before, after find.Answer) Recheck {
	t.Helper()
	changes, err := mark.Changes(before.AllMarks(), after.AllMarks())
	require.NoError(t, err)
	return Recheck{Before: before, After: after, Marks: changes, TDC: mark.ChangeOfTDC(before.Results[0], after.Results[0])}
}

// said is the answer's text on one line.
func said(t *testing.T, r Recheck) string {
	t.Helper()
	text, err := form.Of(r).Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// TDC moves as the protractor shows it: the number before and the change make the
// number after.
func TestChangesGoAsTheNumbersDo(t *testing.T) {
	for _, p := range answertest.Scales() {
		name := fmt.Sprintf("wraps %d counts %d sides %v", p.Scale, p.Sense, p.Sides)
		r := rechecked(t, answerAt(t, p, -0.2), answerAt(t, p, 0.3))
		change, _ := r.changes()
		require.InDelta(t, 0, math.Remainder(change.Before+change.Change-change.After, 360), 1e-9, name)
		require.InDelta(t, change.Change, (change.Interval[0]+change.Interval[1])/2, 1e-9, name)
		sign := "+"
		if answertest.Falls(p) {
			sign = "-"
		}
		require.Regexp(t, `^\`+sign+`0\.50*$`, r.table(true).Rows[0][3], name)
	}
}

// Whatever a mark is called, all forms hold.
func TestNamesHarmNothing(t *testing.T) {
	for _, name := range answertest.Hostile {
		f := answerAt(t, evidence.DefaultProtractor(), 0, 3)
		f.Job.Title = name
		f.Marks[0].Name = name
		f.Marks[0].Notes = []finding.Finding{finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: name, Off: 3 * geometry.Degree}}, Offset: 8}, finding.OnItsLimit{Mark: finding.Mark{Name: name}}}
		answertest.Holds(t, name, form.Of(rechecked(t, f, f)))
	}
}

// What may be said of each mark is said of it, and what only one job has is named and
// not compared. A change is certain when it is more than its ±: of some 0.5 deg here.
func TestEachMarkIsInOneList(t *testing.T) {
	p := evidence.DefaultProtractor()
	before, after := answerAt(t, p, 0, 0, 0, 0, 0), answerAt(t, p, 0, 0, 5, 1.8)
	r := rechecked(t, before, after)
	half := r.Marks[0].Expanded.Degrees()
	require.Less(t, half, 1.8, "so that m3 is not too close to call")
	text := said(t, r)
	require.Contains(t, text, "Changed: m2 and m3. Unchanged: m1.")
	require.Contains(t, text, "Measured only before, and not compared: m4.")
	require.NotContains(t, text, "Measured only after")
	text = said(t, rechecked(t, after, before))
	require.Contains(t, text, "Measured only after, and not compared: m4.")
	after = answerAt(t, p, 0, 0.9*half, 0, 0, 0)
	r = rechecked(t, before, after)
	require.Equal(t, mark.Unchanged, r.Marks[0].Verdict, "zero is within its interval, which lies within 2 deg")
	before.Marks[0].Limit, after.Marks[0].Limit = geometry.Degree/10, geometry.Degree/10
	r = rechecked(t, before, after)
	require.Contains(t, said(t, r), "Too close to call: m1.")
	require.True(t, r.Strict())
	require.Contains(t, said(t, rechecked(t, before, answerAt(t, p, 0))), "The two jobs have no mark in common")
}

// One job named twice, or two engines, cannot pass for a repair without a word.
func TestWarnings(t *testing.T) {
	p := evidence.DefaultProtractor()
	f, other := answerAt(t, p, 0, 1), answerAt(t, p, 0.4, 1)
	require.Contains(t, said(t, rechecked(t, f, f)), "this compares an engine with itself")
	require.NotContains(t, said(t, rechecked(t, f, other)), "with itself")
	f.Job.Setup.Engine.Name, other.Job.Setup.Engine.Name = "left", "right"
	require.Contains(t, said(t, rechecked(t, f, other)), "The engine is called left before and right after")
	other.Job.Setup.Engine.Name = "LEFT"
	require.NotContains(t, said(t, rechecked(t, f, other)), "is called")
	f.Results[0].Findings, other.Results[0].Findings = []finding.Finding{finding.StrokeUnknown{}}, []finding.Finding{finding.MaybeBottom{}}
	text := said(t, rechecked(t, f, other))
	require.Contains(t, text, "Before: The stroke is unknown")
	require.Contains(t, text, "After: These readings are too coarse to tell TDC from BDC")
}

// Names are alike whatever their letters' size, and one that is missing contradicts
// nobody.
func TestOtherNames(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{{"", "", false}, {"a", "", false}, {"", "a", false}, {"a", "A", false}, {"a", "b", true}} {
		require.Equal(t, c.want, OtherNames(c.a, c.b), "%q %q", c.a, c.b)
	}
}

func TestTitle(t *testing.T) {
	for _, c := range []struct{ before, after, want string }{
		{"", "", ""}, {"a", "", "a"}, {"", "b", "b"}, {"a", "a", "a"}, {"a", "b", "a / b"}, {"a", "ab", "a / ab"},
	} {
		var r Recheck
		r.Before.Job.Title, r.After.Job.Title = c.before, c.after
		require.Equal(t, c.want, r.title(), "%q %q", c.before, c.after)
	}
}

// Every form has the same numbers: JSON all digits, CSV as JSON, text rounded.
func TestFormsAgree(t *testing.T) {
	p := evidence.DefaultProtractor()
	r := rechecked(t, answerAt(t, p, 0, 0, 1), answerAt(t, p, 10, 0, 5))
	data, err := r.JSON()
	require.NoError(t, err)
	var out recheckJSON
	require.NoError(t, json.Unmarshal(data, &out))
	require.InDelta(t, 10, out.TDC.Change, 0.001, "both jobs' lash is the same and cancels")
	require.InDelta(t, 4, out.Marks[1].Change, 1e-4) // the fit of each job stops at some 2e-5 deg
	require.Equal(t, []string{}, out.OnlyBefore)
	data, err = r.CSV()
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"tdc", "mark", "mark"}, []string{rows[1][0], rows[2][0], rows[3][0]})
	for i, c := range append([]changeJSON{out.TDC}, out.Marks...) {
		require.Equal(t, c.Name, rows[i+1][1])
		require.Equal(t, fmt.Sprint(c.Change), rows[i+1][4])
		require.Equal(t, c.Verdict, rows[i+1][7])
	}
	require.Regexp(t, `m2 \S+ \S+ \+4\.0`, said(t, r))
}

// An inch job compares angles alone: nothing in it is in millimetres.
func TestNoMillimetresInAnInchJob(t *testing.T) {
	p := evidence.DefaultProtractor()
	before, after := answerAt(t, p, 0, 3), answerAt(t, p, 1, 0)
	before.Job.Unit, after.Job.Unit = "in", "in"
	require.NotRegexp(t, `\bmm\b`, said(t, rechecked(t, before, after)))
}
