package timing

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/pattern"
	"evendrop/tdc/wheel/signal"
)

func (r *Result) note(f finding.Finding) { r.Notes = append(r.Notes, f) }

// fineStep is a sample step that times an edge well enough.
const fineStep = 0.2 * geometry.Degree

// wanders is the standard deviation above which a cam edge is doubted.
const wanders = 2 * geometry.Degree

// addNotes notes what a reader should know.
func (r *Result) addNotes(t signals, told wheel.Wheel) {
	r.noteWheel(told)
	r.noteParts(t)
	if r.CrankKind == signal.Inductive && r.CrankEdge == signal.Rising {
		r.note(finding.LeadsReversed{})
	}
	for _, tooth := range r.Rough {
		r.note(finding.RoughTooth{Tooth: tooth.Tooth + 1, Off: tooth.Off})
	}
	if r.TurnsLeftOut > r.TurnsUsed/2 {
		r.note(finding.ManyTurnsLeftOut{Wheel: r.Wheel.Name, LeftOut: r.TurnsLeftOut, Used: r.TurnsUsed})
	}
	if r.Step > fineStep {
		r.note(finding.CoarseTimes{Step: r.Step, Digits: r.Changes})
	}
	r.noteCams(t)
}

// noteWheel notes what the capture told of the wheel beside its teeth.
func (r *Result) noteWheel(told wheel.Wheel) {
	w := r.Wheel
	if r.Bounce > 0 {
		r.note(finding.BounceIgnored{Changes: r.Bounce})
	}
	switch {
	case told.Name == "":
		r.note(finding.WheelFromSignal{Wheel: w.Name})
	case len(told.Intervals) > 0 && !told.Alike(w):
		r.note(finding.GapsElsewhere{Wheel: told.Name, Usual: told.List(), Seen: w.List()})
	case told.Missing() != nil && !told.Alike(w):
		r.note(finding.GapsFromSignal{Wheel: w.Name, Seen: w.List()})
	}
}

// noteParts notes what equal parts of a turn leave open.
func (r *Result) noteParts(t signals) {
	w := r.Wheel
	switch {
	case w.Parts() > 1 && r.PartsTold:
		r.note(finding.PartsByCams{Parts: w.Parts()})
	case w.Parts() > 1:
		r.note(finding.PartsUntold{Parts: w.Parts(), Period: r.Period, Cams: len(t.Edges) - 1})
	case w.Pitches() < leastPitches && len(t.Edges) == 1:
		if p := pattern.Of(t.Edges[0].Way(r.CrankEdge)); p != nil && p.Pitches() == w.Pitches() {
			r.note(finding.MaybeThirds{Wheel: w.Name, Thirds: p.Name(3)})
		}
	}
	if w.Parts() > 1 && 3*r.Period == 2*geometry.Turn {
		r.note(finding.CamsInThirds{Wheel: w.Name})
	}
}

func (r *Result) noteCams(t signals) {
	if len(r.Edges) > 0 && r.Period == geometry.Turn { // of parts of a turn: noteParts
		r.note(finding.OneTurnOnly{})
	}
	for i := 1; i < len(t.Channels); i++ {
		column := t.Column(i) + 1
		if !slices.ContainsFunc(r.Edges, func(e Edge) bool { return e.Channel == column }) {
			r.note(finding.NoCamEdge{Column: column})
		}
	}
	for _, e := range r.Edges {
		if e.Deviation > wanders {
			r.note(finding.EdgeWanders{Column: e.Channel, Edge: string(e.Kind), Angle: e.Angle, Deviation: e.Deviation})
		}
	}
}
