// Package found asks a job's question of the core: TDC of every cylinder, the marks and
// lobes by it, what they point to, and the cylinders against one another. It has words only
// for what cannot be asked, determined or judged.
package found

import (
	"slices"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// All is what was found of a job.
type All struct {
	Job      job.Job
	Results  []tdc.Result       // one a cylinder
	Trials   []adjust.Trials    // one a cylinder, or none
	Throws   []mark.JudgedThrow // one a cylinder, when there are several
	Index    tdc.Index          // of the wheel, by the throws
	Marks    []mark.Judged      // against cylinder 1
	Measured []mark.Judged      // marks that nobody said what they should be
	// Again is about the marks that have to be read again, for the protractor moved.
	Again []finding.Finding
	Lobes []lobe.Measured // each a mark as well, where it says where its cam stands
	// LobePairs are the lobes of each cylinder, an exhaust with an inlet.
	LobePairs []LobePair
	// Diagnosis is what the marks point to.
	Diagnosis joint.Diagnosis
	Against   *knowngood.File // what the marks are compared with; nil without
	healthy   []healthy.Kept  // that lobes are compared with; none without Against
}

// AllMarks is the marks that are judged and those that are only measured.
func (f All) AllMarks() []mark.Judged { return slices.Concat(f.Marks, f.Measured) }

// Bench is how the job shows angles and lengths.
func (f All) Bench() words.Bench { return words.NewBench(f.Job.Setup, f.Job.Unit) }

// Shown is a crank angle as the job's protractor shows it.
func (f All) Shown(a geometry.Angle) geometry.Angle { return f.Job.Setup.Protractor.Shows(a) }

// Untold is why a cylinder's TDC is no answer to go by; "" when it is one.
func (f All) Untold(r tdc.Result) string { return f.Bench().Untold(r.CannotTell) }

// Findings is what was found of the lobes, of the marks and of what they point to.
func (f All) Findings() []finding.Finding {
	list := slices.Concat(f.Again, f.OfLobes())
	for _, m := range f.AllMarks() {
		list = append(list, m.Findings()...)
	}
	for _, e := range f.Diagnosis.Explanations {
		for _, s := range e.Slips {
			list = append(list, s.Notes...)
		}
	}
	return append(list, f.Diagnosis.Notes...)
}

// Located tells whether a mark has a place to show, rather than a shift alone: a lobe's
// place is several, weighed, and nobody's centre.
func Located(m mark.Judged) bool {
	return m.Lobe == nil && (m.Off == nil || m.Healthy != nil || m.Unknown || m.ShouldBe != 0)
}

// ThrowSet is the set that the cylinders are compared in.
func (f All) ThrowSet() int {
	results, _ := tdc.OnOneSet(f.Results)
	return evidence.SetOf(results[0].Set)
}
