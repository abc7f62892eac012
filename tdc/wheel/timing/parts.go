package timing

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
)

// mostRepeat is more parts than cams need to come again: two turns of six parts.
const mostRepeat = 12

// enoughParts is how many are enough to see what comes again in the cams.
const enoughParts = 8 * mostRepeat

// camsRepeat is after how many parts the cams come again; 0 when they do not tell.
func (t signals) camsRepeat(part wheel.Wheel, way signal.Way) int {
	found := findTurns(t.Edges[0].Way(way), part)
	if len(t.Edges) == 1 || found.used == 0 {
		return 0
	}
	longest := slices.MaxFunc(found.runs, func(a, b run) int { return a.turns - b.turns })
	if longest.turns > enoughParts {
		longest = run{longest.times[:enoughParts*part.Teeth()+1], enoughParts}
	}
	all := sightings(t.camEdges(), []curve{newCurve(longest, part, nil)})
	for n := 1; n <= mostRepeat && 2*n <= longest.turns; n++ {
		if comeAgain(all, n, longest.turns) {
			return n
		}
	}
	return 0
}

// The part of the passings that have to come again, and the part of the times that
// one should that it has to: more than every other time.
const (
	mostlyComing = 0.9
	everyTime    = 0.7
)

// comeAgain says whether cams come again after n of so many parts.
func comeAgain(all []sighting, n, parts int) bool {
	least, most := everyTime*float64(parts/n), float64((parts+n-1)/n)/everyTime
	agree := 0
	for _, g := range groups(all, geometry.Angle(n)*geometry.Turn) {
		if c := float64(len(g.angles)); c >= least && c <= most {
			agree += len(g.angles)
		}
	}
	return agree > 0 && float64(agree) >= mostlyComing*float64(len(all))
}

// otherTurn refuses a wheel whose turn is none by the cams: a cam comes again after
// two turns of the crank.
func (t signals) otherTurn(w wheel.Wheel, way signal.Way) error {
	repeat := t.camsRepeat(w.OnePart(), way)
	if repeat == 0 || 2*w.Parts()%repeat == 0 {
		return nil
	}
	parts := repeat
	if repeat%2 == 0 {
		parts = repeat / 2
	}
	other := wheel.Wheel{}
	for _, a := range slices.Repeat(w.Intervals[:w.PartTeeth()], parts) {
		other.Intervals = append(other.Intervals, a*geometry.Angle(w.Parts())/geometry.Angle(parts))
	}
	return fault.Errorf("the wheel cannot be %s: the cams repeat after %d times %d teeth, and a cam repeats after two turns",
		w.Name, repeat, w.PartTeeth()).OrWheel(other.List())
}

// aligned is the turns of a wheel of equal parts, each begun at the same part by
// the cams, and false where the cams do not tell the parts apart.
func (t signals) aligned(found turns, w wheel.Wheel, way signal.Way) (turns, bool) {
	byPart := findTurns(t.Edges[0].Way(way), w.OnePart())
	var curves []curve
	for i := range byPart.runs {
		curves = append(curves, newCurve(byPart.runs[i], w, nil))
		byPart.runs[i].turns /= w.Parts()
	}
	p := phase(sightings(t.camEdges(), curves), byPart.runs, w.Part())
	if p.period < geometry.Turn {
		return found, false
	}
	out := turns{leftOut: (byPart.leftOut + w.Parts() - 1) / w.Parts()}
	for i, r := range byPart.runs {
		begins, placed := p.begins[i]
		if !placed {
			out.leftOut += r.turns
			continue
		}
		if whole := r.from(begins, w); whole.turns > 0 {
			out.runs = append(out.runs, whole)
			out.used += whole.turns
		}
	}
	return out, out.used > 0
}

// from is the whole turns of a run of parts that begins at a part's angle.
func (r run) from(begins geometry.Angle, w wheel.Wheel) run {
	n := w.Teeth()
	into := int(math.Round(float64(begins/w.Part()))) % w.Parts()
	times := r.times[min(len(r.times), (w.Parts()-into)%w.Parts()*w.PartTeeth()):]
	if len(times) <= n {
		return run{}
	}
	whole := (len(times) - 1) / n
	return run{times: times[:whole*n+1], turns: whole}
}
