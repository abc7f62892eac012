package timing

import (
	"fmt"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/pattern"
	"evendrop/tdc/wheel/signal"
)

func (r *Result) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// fineStep is a sample step that times an edge well enough.
const fineStep = 0.2 * geometry.Degree

// addNotes says what a reader should know.
func (r *Result) addNotes(t signals, told wheel.Wheel) {
	r.wheelNotes(t, told)
	if r.CrankKind == signal.Inductive && r.CrankEdge == signal.Rising {
		r.note("The crank signal rises through nought where a tooth passes, and a sensor is commonly wired to fall there: its leads, or the scope's, " +
			"may be reversed. A control unit that counts the other crossing reads half a pitch off and sees no proper gap. " +
			"The angles here count from the teeth all the same.")
	}
	for _, tooth := range r.Rough {
		r.note("Tooth %d stands %.1f deg %s of where its neighbours put it, and was not used: look for damage or dirt. (The first tooth after the gap "+
			"of an inductive sensor can read off by up to 1 deg without damage.)", tooth.Tooth+1, math.Abs(tooth.Off.Degrees()), LateOrEarly(tooth.Off))
	}
	if r.TurnsLeftOut > r.TurnsUsed/2 {
		r.note("Many turns were left out since their teeth are not those of %s: look at the crank signal.", r.Wheel.Name)
	}
	switch {
	case r.Step > fineStep && r.Changes:
		r.note("Times are written to %.2f deg of crank: export more digits to time single edges better than that.", r.Step.Degrees())
	case r.Step > fineStep:
		r.note("A sample lasts %.2f deg of crank: sample faster to time single edges better than that.", r.Step.Degrees())
	}
	if len(r.Edges) > 0 && r.Period == geometry.Turn { // parts of a turn: wheelNotes
		r.note("The cam signals do not tell one turn of the crank from the next, or no two turns on end could be used: angles are within one turn, 0 to 360 deg.")
	}
	for i := 1; i < len(t.Channels); i++ {
		column := t.Column(i) + 1
		if !slices.ContainsFunc(r.Edges, func(e Edge) bool { return e.Channel == column }) {
			r.note("Column %d has no edge that comes back turn by turn: look at the signal, or at --cam.", column)
		}
	}
	for _, e := range r.Edges {
		if e.Deviation > 2*geometry.Degree {
			r.note("The %s edge of column %d at %.1f deg wanders (standard deviation %.1f deg): a loose drive, a phaser at work, or a poor signal.",
				e.Kind, e.Channel, e.Angle.Degrees(), e.Deviation.Degrees())
		}
	}
}

func LateOrEarly(a geometry.Angle) string {
	if a < 0 {
		return "early"
	}
	return "late"
}

// wheelNotes says what the capture told of the wheel beside its teeth.
func (r *Result) wheelNotes(t signals, told wheel.Wheel) {
	w := r.Wheel
	if r.Bounce > 0 {
		r.note("Ignored as bounce or a disturbance, since they came within microseconds of others: %d changes of level.", r.Bounce)
	}
	switch {
	case told.Name == "":
		r.note("No --wheel was told: %s is what comes again in the crank signal. Hold it against the wheel itself.", w.Name)
	case len(told.Intervals) > 0 && !told.Alike(w):
		r.note("%s commonly has its gaps at %s, and the signal at %s, which was taken: be sure that it is the wheel.", told.Name, told.List(), w.List())
	case told.Missing() != nil && !told.Alike(w):
		r.note("%s does not tell where its gaps are: they were taken where the signal has them, %s.", w.Name, w.List())
	}
	switch {
	case w.Parts() > 1 && r.PartsTold:
		r.note("The crank wheel has %d equal parts, which look alike: the cams tell which is which.", w.Parts())
	case w.Parts() > 1:
		r.note("The crank wheel has %d equal parts, which look alike, and nothing here tells which is which: tooth 1 is the first after any of the gaps "+
			"that look so, and angles count from 0 to %.0f deg. %s", w.Parts(), r.Period.Degrees(), moreCams(t))
	case w.Pitches() < leastPitches && len(t.Edges) == 1:
		p := shown{Pattern: pattern.Of(t.Edges[0].Way(r.CrankEdge))}
		if p.Pattern != nil && p.Pitches() == w.Pitches() {
			r.note("The crank signal alone does not tell %s from %s in three equal parts of a turn, at a third of the speed: be sure of the wheel, or add the cams' columns with --cam.",
				w.Name, p.Name(3))
		}
	}
	if w.Parts() > 1 && 3*r.Period == 2*geometry.Turn {
		r.note("The cams come again after two thirds of a turn, as three equal cam teeth do: else --wheel %s is not the wheel.", w.Name)
	}
}

// moreCams asks for cams that tell parts of a turn apart.
func moreCams(t signals) string {
	if len(t.Edges) == 1 {
		return "Add the cams' columns with --cam."
	}
	return "Add another cam's column with --cam."
}
