package slip

import (
	"cmp"
	"slices"

	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/refit"
)

// tried is every hypothesis that is worth a refit and settles, nothing having happened
// first, which has what chance moves leave; worn bearings and wheels off their centre have
// theirs beside it, as a state of the engine that moves nothing.
type tried struct {
	*refit.Solver
	list []weighed
}

// try refits what may have happened in a session; false where not even nothing settles.
func (s session) try(r *refit.Solver) ([]weighed, bool) {
	t := tried{Solver: r}
	if t.add(hypothesis{chance: 1}); len(t.list) == 0 {
		return nil, false
	}
	t.add(s.turns()...)
	worn := t.addBest(s.worn(t.list[0].Refit))
	atTurn, elsewhere := s.places()
	for _, part := range []curve.Part{curve.Protractor, curve.GaugeZero} {
		t.add(t.worth(s.moves(part, atTurn, s.chances.atTurn, hypothesis{}))...)
		t.add(t.worth(s.moves(part, elsewhere, s.chances.elsewhere, hypothesis{}))...)
		t.add(t.worth(s.moves(part, atTurn, s.chances.wornMoved, worn.hypothesis))...)
		if t.gains(worn) > wornGain {
			t.add(t.foremost(s.moves(part, elsewhere, s.chances.wornElsewhere, worn.hypothesis))...)
		}
	}
	wide := s.wide()
	wide.LashFrom = worn.LashFrom
	t.add(wide)
	return t.list, true
}

// add refits hypotheses.
func (t *tried) add(hs ...hypothesis) {
	for _, h := range hs {
		t.keep(weighed{hypothesis: h, Refit: t.refit(h.Assumption)})
	}
}

// refit is a hypothesis refitted, to first order where that is as good.
func (t *tried) refit(as refit.Assumption) refit.Refit {
	if as.Part != curve.NoPart {
		if found, ok := t.FirstOrder(as, t.list[0].Refit); ok {
			return found
		}
	}
	return t.Solve(as)
}

// addBest refits one hypothesis from several starts, keeps where it fits best, and is
// that with the lash found as its start.
func (t *tried) addBest(starts []hypothesis) weighed {
	var best weighed
	for _, h := range starts {
		if w := (weighed{hypothesis: h, Refit: t.Solve(h.Assumption)}); w.Settled && (!best.Settled || w.Cost < best.Cost) {
			best = w
		}
	}
	t.keep(best)
	best.LashFrom = max(0, best.FoundLash)
	return best
}

// gains is how much better a hypothesis fits than nothing.
func (t *tried) gains(w weighed) float64 { return t.list[0].Cost - w.Cost }

// keep takes a hypothesis up that settled, but no bearing with less than no lash.
func (t *tried) keep(w weighed) {
	if !w.Settled || w.Lash > 0 && w.FoundLash < leastLash {
		return
	}
	if len(t.list) > 0 && w.moved() && w.Lash == 0 {
		t.list[0].chance -= w.chance
	}
	t.list = append(t.list, w)
}

// worth is the hypotheses of a step that are worth a refit: all where they are few,
// else those that gain most to first order on either screen.
func (t *tried) worth(all []hypothesis) (list []hypothesis) {
	if len(all) <= tryAll {
		return all
	}
	return t.foremost(all)
}

// foremost is the hypotheses of a step that gain most to first order on either screen.
func (t *tried) foremost(all []hypothesis) (list []hypothesis) {
	for _, screen := range t.Screens {
		gain := func(h hypothesis) float64 { return screen.Gain(h.Part, h.After) }
		slices.SortFunc(all, func(a, b hypothesis) int { return cmp.Compare(gain(b), gain(a)) })
		for _, h := range all[:min(mostTried, len(all))] {
			if !slices.Contains(list, h) {
				list = append(list, h)
			}
		}
	}
	return list
}
