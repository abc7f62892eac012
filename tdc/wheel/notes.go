package wheel

import "evendrop/geometry"

// wheelNotes says what the capture told of the wheel beside its teeth.
func (r *Result) wheelNotes(t Trace, told Wheel) {
	w := r.Wheel
	if r.Bounce > 0 {
		r.note("Ignored as bounce or a disturbance, since they came within microseconds of others: %d changes of level.", r.Bounce)
	}
	switch {
	case told.Name == "":
		r.note("No --wheel was told: %s is what comes again in the crank signal. Hold it against the wheel itself.", w.Name)
	case len(told.Intervals) > 0 && !told.Alike(w):
		r.note("%s commonly has its gaps at %s, and the signal at %s, which was taken: be sure that it is the wheel.", told.Name, told.List(), w.List())
	case told.gaps != nil && !told.Alike(w):
		r.note("%s does not tell where its gaps are: they were taken where the signal has them, %s.", w.Name, w.List())
	}
	switch {
	case w.Parts() > 1 && r.PartsTold:
		r.note("The crank wheel has %d equal parts, which look alike: the cams tell which is which.", w.Parts())
	case w.Parts() > 1:
		r.note("The crank wheel has %d equal parts, which look alike, and nothing here tells which is which: tooth 1 is the first after any of the gaps "+
			"that look so, and angles count within one part, 0 to %.0f deg. Add the cams' columns with --cam.", w.Parts(), w.Part().Degrees())
	case w.Pitches() < leastPitches && len(t.edges) == 1:
		p := shown{pattern: patternOf(t.edges[0].way(r.CrankEdge))}
		if p.pattern != nil && p.pitches() == w.Pitches() {
			r.note("The crank signal alone does not tell %s from %s in three equal parts of a turn, at a third of the speed: be sure of the wheel, or add the cams' columns with --cam.",
				w.Name, p.name(3))
		}
	}
	if w.Parts() > 1 && 3*r.Period == 2*geometry.Turn {
		r.note("The cams come again after two thirds of a turn, as three equal cam teeth do: else --wheel %s is not the wheel.", w.Name)
	}
}
