package timing

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/teeth"
)

// mostRepeat is more parts than cams need to come again: two turns of six parts.
const mostRepeat = 12

// enoughParts is how many are enough to see what comes again in the cams.
const enoughParts = 8 * mostRepeat

// camsRepeat is after how many parts the cams come again; 0 when they do not tell.
func (t signals) camsRepeat(part wheel.Wheel, way signal.Way) int {
	found := teeth.Find(t.Edges[0].Way(way), part)
	if len(t.Edges) == 1 || found.Used == 0 {
		return 0
	}
	longest := slices.MaxFunc(found.Runs, func(a, b teeth.Run) int { return a.Turns - b.Turns })
	if longest.Turns > enoughParts {
		longest = teeth.Run{Times: longest.Times[:enoughParts*part.Teeth()+1], Turns: enoughParts}
	}
	all := sightings(t.camEdges(), []teeth.Curve{teeth.NewCurve(longest, part, nil)})
	for n := 1; n <= mostRepeat && 2*n <= longest.Turns; n++ {
		if comeAgain(all, n, longest.Turns) {
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
func (t signals) aligned(found teeth.Turns, w wheel.Wheel, way signal.Way) (teeth.Turns, bool) {
	byPart := teeth.Find(t.Edges[0].Way(way), w.OnePart())
	var curves []teeth.Curve
	for i := range byPart.Runs {
		curves = append(curves, teeth.NewCurve(byPart.Runs[i], w, nil))
		byPart.Runs[i].Turns /= w.Parts()
	}
	p := phase(sightings(t.camEdges(), curves), byPart.Runs, w.Part())
	if p.period < geometry.Turn {
		return found, false
	}
	out := teeth.Turns{LeftOut: (byPart.LeftOut + w.Parts() - 1) / w.Parts()}
	for i, r := range byPart.Runs {
		begins, placed := p.begins[i]
		if !placed {
			out.LeftOut += r.Turns
			continue
		}
		if whole := r.From(begins, w); whole.Turns > 0 {
			out.Runs = append(out.Runs, whole)
			out.Used += whole.Turns
		}
	}
	return out, out.Used > 0
}
