package recheck

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/sheet"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// Recheck is two jobs on one engine side by side.
type Recheck struct {
	Before, After find.Answer
	TDC           mark.Change
	Marks         []mark.Change
}

// Document is the answer in words.
func (r Recheck) Document() doc.Document {
	var d doc.Document
	d.Section(r.title())
	d.Add(r.said(true)...)
	d.Say(caution.Line)
	return d
}

// said is what changed, and what weakens that; with where TDC stands on the protractor or
// without.
func (r Recheck) said(tdc bool) doc.Document {
	var d doc.Document
	d.Say(r.sentence())
	d.Table(r.table(tdc))
	d.Say("Marks: crank deg off, late positive, or after TDC where should_be is unknown. TDC: what the protractor shows, which changes with every setting of it. " +
		"The ± assumes that the two jobs share no error, the cautious choice.")
	for _, only := range []struct {
		which string
		names []string
	}{{"before", missing(r.Before.AllMarks(), r.After.AllMarks())}, {"after", missing(r.After.AllMarks(), r.Before.AllMarks())}} {
		if len(only.names) > 0 {
			d.Say(fmt.Sprintf("Measured only %s, and not compared: %s.", only.which, strings.Join(only.names, ", ")))
		}
	}
	d.List(r.warnings())
	return d
}

// warnings is what weakens the comparison, of either job.
func (r Recheck) warnings() (warnings []string) {
	if job.SameReadings(r.Before.Job, r.After.Job) {
		warnings = append(warnings, "Both jobs have the same readings, to the last digit: this compares an engine with itself. Read it again after the repair, and name that job last.")
	}
	if before, after := r.Before.Job.Setup.Engine.Name, r.After.Job.Setup.Engine.Name; OtherNames(before, after) {
		warnings = append(warnings, fmt.Sprintf("The engine is called %s before and %s after: make sure that it is one engine.", before, after))
	}
	for _, side := range []struct {
		when string
		find find.Answer
	}{{"Before", r.Before}, {"After", r.After}} {
		for _, result := range side.find.Results {
			for _, w := range side.find.Warnings(result) {
				warnings = append(warnings, side.when+": "+w)
			}
		}
	}
	return warnings
}

// OtherNames tells whether two things are named, and not alike.
func OtherNames(a, b string) bool { return a != "" && b != "" && !strings.EqualFold(a, b) }

func (r Recheck) title() string {
	before, after := r.Before.Job.Title, r.After.Job.Title
	if before == "" || after == "" || before == after {
		return before + strings.TrimPrefix(after, before)
	}
	return before + " / " + after
}

// sentence is whether what the marks pointed to is back, what changed, and what
// the marks come to now.
func (r Recheck) sentence() string {
	parts := r.bench().Findings(r.back())
	if len(parts) == 0 && len(r.Before.Marks) > 0 && r.Before.Diagnosis.Tried == 0 {
		parts = append(parts, "Before, no joint had to have moved to explain the marks.")
	}
	parts = append(parts, r.changed()...)
	if text := r.After.Headline(); text != "" {
		parts = append(parts, "Now: "+lower(text))
	}
	parts = append(parts, r.After.MarkSentences()...)
	if left := sheet.NotAgain(r.Before.All, r.After.All); len(left) > 0 {
		parts = append(parts, "Outside before, and not measured again: "+words.And(left)+".")
	}
	return strings.Join(parts, " ")
}

// back is whether what the marks pointed to is back.
func (r Recheck) back() []finding.Finding {
	return joint.Back(r.Before.Diagnosis, r.After.Diagnosis)
}

// bench is how the job after shows things.
func (r Recheck) bench() words.Bench { return words.NewBench(r.After.Job.Setup, r.After.Job.Unit) }

// changed lists the marks by what may be said of their change.
func (r Recheck) changed() []string {
	var parts []string
	for _, verdict := range []mark.ChangeVerdict{mark.Changed, mark.Unchanged, mark.ChangeUncertain} {
		var names []string
		for _, c := range r.Marks {
			if c.Verdict == verdict {
				names = append(names, c.After.Name)
			}
		}
		if len(names) > 0 {
			parts = append(parts, words.Capital(string(verdict))+": "+words.And(names)+".")
		}
	}
	if len(r.Marks) == 0 {
		parts = append(parts, "The two jobs have no mark in common: give the marks the same names in both.")
	}
	return parts
}

// lower is a sentence that goes on after a colon.
func lower(text string) string { return strings.ToLower(text[:1]) + text[1:] }

// missing is the names of the marks that others lack.
func missing(marks, others []mark.Judged) []string {
	var names []string
	for _, m := range marks {
		if !slices.ContainsFunc(others, func(o mark.Judged) bool { return o.Name == m.Name }) {
			names = append(names, m.Name)
		}
	}
	return names
}

// shift is how TDC changed as the protractor shows it.
func (r Recheck) shift() geometry.Angle { return r.After.Job.Setup.Protractor.Grows(r.TDC.Angle) }

func (r Recheck) table(tdc bool) doc.Table {
	t := doc.Table{Caption: "Before and after", Header: []string{"Mark", "before", "after", "change", "± (95 %)", "verdict"}}
	places := words.Decimals(r.TDC.Expanded.Degrees())
	reads := func(f find.Answer) string {
		return words.NewBench(f.Job.Setup, f.Job.Unit).Reads(f.Results[0].TDC.Angle, places)
	}
	if tdc {
		t.Rows = append(t.Rows, []string{
			"true TDC", reads(r.Before), reads(r.After),
			words.Signed(r.shift().Degrees(), places), words.Fixed(r.TDC.Expanded.Degrees(), places), string(r.TDC.Verdict),
		})
	}
	for _, c := range r.Marks {
		places := words.Decimals(c.Expanded.Degrees())
		t.Rows = append(t.Rows, []string{
			c.After.Name, words.Signed(c.Before.Angle.Degrees(), places), words.Signed(c.After.Angle.Degrees(), places),
			words.Signed(c.Angle.Degrees(), places), words.Fixed(c.Expanded.Degrees(), places), string(c.Verdict),
		})
	}
	return t
}

// Strict tells whether a mark is now outside or too close to call, or its change
// is too close to call.
func (r Recheck) Strict() bool {
	return r.After.Strict() || slices.ContainsFunc(r.Marks, func(c mark.Change) bool { return c.Verdict == mark.ChangeUncertain })
}

// Of finds two jobs on one engine and compares them; an error where either has no answer, or
// their first cylinders are not the same.
func Of(before, after job.Job) (Recheck, error) {
	var answer Recheck
	for _, side := range []struct {
		job  job.Job
		into *find.Answer
	}{{before, &answer.Before}, {after, &answer.After}} {
		found, err := find.Of(side.job)
		if err != nil {
			return answer, err
		}
		if why := found.NotJudged(); why != "" {
			return answer, fmt.Errorf("%s: TDC cannot be determined from its readings, so there is nothing to compare: %s", side.job.File, why)
		}
		*side.into = found
	}
	was, is := answer.Before.Results[0], answer.After.Results[0]
	if was.Number != is.Number {
		return answer, fmt.Errorf("%s: its first cylinder is %d, and that of %s is %d: read the same cylinder in both",
			after.File, is.Number, before.File, was.Number)
	}
	answer.TDC = mark.ChangeOfTDC(was, is)
	var err error
	if answer.Marks, err = mark.Changes(answer.Before.AllMarks(), answer.After.AllMarks()); err != nil {
		return answer, answer.After.Job.Locate(err)
	}
	return answer, nil
}
