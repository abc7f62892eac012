package planning

import (
	"fmt"
	"slices"
	"strconv"

	"evendrop/cmd/internal/answer/find/budget"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// looksPlan is what to look for through a borescope, and what other instruments would reach in
// its place.
type looksPlan struct {
	plan.Looks
	Dial gum.Estimate // by as many readings of a dial gauge as are usual
	Stop gum.Estimate // by a positive stop
}

// looksOf is the looks of a job read with a borescope; nil with another gauge, and on an
// engine whose crown hardly moves, which the depths are planned for alone.
func looksOf(setup evidence.Setup, ground plan.Ground) *looksPlan {
	if setup.Gauge.Kind != evidence.Borescope {
		return nil
	}
	seen, err := plan.Look(setup, ground)
	if err != nil {
		return nil
	}
	looks := looksPlan{Looks: seen}
	if looks.Stop, err = plan.Stop(setup); err != nil {
		return nil
	}
	dial := evidence.DefaultGauge(evidence.Dial)
	dial.Lash, dial.LashKnownTo = setup.Gauge.Lash, setup.Gauge.LashKnownTo
	setup.Gauge = dial
	byDial, err := plan.Advise(setup, plan.Ground{Deepest: plan.Deepest(evidence.Dial), OneWay: ground.OneWay}, plan.Usual)
	if err != nil {
		return nil
	}
	looks.Dial = byDial.Foreseen.TDC
	return &looks
}

// looks adds what to look for, in place of depths.
func (p Plan) sayLooks(d *doc.Document) {
	l := p.looks
	d.Say(l.sentence(p.job.Setup.Protractor.Error))
	d.Table(l.table())
	d.List(l.how())
	r := tdc.Result{TDC: l.Foreseen.TDC, Budget: l.Foreseen.Budget}
	d.Table(budget.Table(r))
	d.Say(l.besides(p.plan))
	if budget.ScaleLimits(r) {
		d.Say(budget.OwnError)
	}
	if p.target != nil {
		d.Say("By depths judged by eye: " + p.sentence())
	}
}

// sentence is how much to look for, and how sure it makes TDC.
func (l looksPlan) sentence(own geometry.Angle) string {
	text := fmt.Sprintf("Through a borescope judge no depth: look for what needs none. %s and %s together tell TDC to about ± %s deg (95 %%)",
		words.Capital(words.Count(len(l.Dwell), "dwell")), words.Count(len(l.Views), "pair")+" of equal views", words.WithinDegrees(l.Foreseen.TDC.Expanded))
	if own > 0 {
		text += fmt.Sprintf(", the protractor's own error of %s deg in it", words.Plain(own.Degrees()))
	}
	text += fmt.Sprintf("; the dwells alone to ± %s, the views alone to ± %s.", words.WithinDegrees(l.ByDwell.Expanded), words.WithinDegrees(l.ByViews.Expanded))
	if one := l.DwellOneWay; one != nil {
		return text + fmt.Sprintf(" Turning back and looking both ways is what makes a dwell good: ± %s instead of %s.",
			words.WithinDegrees(l.ByDwell.Expanded), words.WithinDegrees(one.Expanded))
	}
	return text + " All turning forward, lash and the eye's lag make a dwell late: rely on the views."
}

// table is the looks, those turned forward first.
func (l looksPlan) table() doc.Table {
	t := doc.Table{Header: []string{"No.", "turn", "look for", "first, deg from TDC", "then, about"}}
	row := func(what string, turn evidence.TurnDirection, first, then geometry.Angle) {
		t.Rows = append(t.Rows, []string{strconv.Itoa(len(t.Rows) + 1), turn.String(), what, words.Signed(first.Degrees(), 0), words.Signed(then.Degrees(), 0)})
	}
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		for _, v := range l.Views {
			if v.Turn == turn {
				row("the same picture", turn, v.Before, v.After)
			}
		}
		if i := slices.IndexFunc(l.Dwell, func(d evidence.DwellPair) bool { return d.Turn == turn }); i >= 0 {
			n := 0
			for _, d := range l.Dwell[i:] {
				if d.Turn == turn {
					n++
				}
			}
			row(fmt.Sprintf("still, moves again, %d times", n), turn, l.Dwell[i].Still, l.Dwell[i].Moves)
		}
	}
	return t
}

// how is what to do with the table.
func (l looksPlan) how() []string {
	list := []string{
		"Clamp the borescope clear of the crown at its highest and of the valves. Check that by one slow turn by hand, and stop where either comes near. From the first angle of a pair to the second it must not move.",
		"Equal views: stop at about the first angle. Pick a sharp edge of the crown against something that stands still, such as a mark on the bore or the seat of a plug. " +
			"Write down the protractor, turn on over the top until that edge stands at the same place again, and write it down again. Hitting the first angle exactly does not matter.",
		"Dwell: near the top turn slowly and evenly. Write down where the crown stops moving, and where it begins to move again, watching the same edge in the same light.",
		overshot(l.TurnsBack()),
	}
	if l.TurnsBack() {
		list = append(list, "Between the two ways go on past the last place by some 30 deg before turning back.")
	}
	return list
}

// besides is what other ways of reading this engine would reach.
func (l looksPlan) besides(depths plan.Plan) string {
	return fmt.Sprintf("On this engine a dial gauge on the crown reaches %s, with %d readings. A positive stop, set to two lengths and touched three times from either side, reaches %s; "+
		"%s judged by eye, %s.", l.beside(l.Dial), plan.Usual, l.beside(l.Stop), words.Count(len(depths.Points), "depth"), l.beside(depths.Foreseen.TDC))
}

// beside is what an instrument reaches beside the looks: a tenth more or less is as much.
func (l looksPlan) beside(e gum.Estimate) string {
	much := "about as much"
	switch ratio := e.Expanded / l.Foreseen.TDC.Expanded; {
	case ratio < 0.9:
		much = "more"
	case ratio > 1.1:
		much = "less"
	}
	return fmt.Sprintf("%s, ± %s deg", much, words.WithinDegrees(e.Expanded))
}
