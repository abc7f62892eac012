package planning

import (
	"cmp"
	"fmt"
	"strconv"

	"evendrop/cmd/internal/answer/find/budget"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

// Plan is where to read, and what that will reach.
type Plan struct {
	Job     job.Job
	Ground  plan.Ground
	Plan    plan.Plan
	Target  *geometry.Angle  // standard uncertainty asked for; nil when none was
	Reached bool             // the target
	Other   *adjust.Foreseen // of as many readings turned one way; nil where the plan is that
}

// Document is the answer in words.
func (p Plan) Document() doc.Document {
	var d doc.Document
	d.Section(p.Job.Title)
	d.Say(p.sentence())
	d.Table(p.table())
	d.List(p.how())
	r := tdc.Result{TDC: p.Plan.Foreseen.TDC, Budget: p.Plan.Foreseen.Budget}
	d.Table(budget.Table(r))
	d.Say(budget.InWords(r))
	d.Say(p.gain())
	if p.Plan.TurnsBack() {
		d.Say(caution.TurnBack)
	}
	d.Say(caution.Line)
	return d
}

// sentence is how many readings, and how sure they make TDC.
func (p Plan) sentence() string {
	n, f := len(p.Plan.Points), p.Plan.Foreseen
	places := words.Decimals(f.AgreeTo.Uncertainty.Degrees())
	turns := "all turning forward"
	if p.Plan.TurnsBack() {
		turns = fmt.Sprintf("%d turning forward and then %d turning backward", p.turning(evidence.Forward), p.turning(evidence.Backward))
	}
	reach := fmt.Sprintf("%d readings, %s, will agree on TDC to about ± %[4]s deg (95 %%), a standard uncertainty of %[3]s deg.",
		n, turns, words.Fixed(f.AgreeTo.Uncertainty.Degrees(), places), words.WithinDegrees(f.AgreeTo.Expanded))
	if own := p.Job.Setup.Protractor.Error; own > 0 {
		reach += fmt.Sprintf(" With the protractor's own error of %s deg TDC is known to ± %s deg: more readings do not shrink that error, a finer protractor does. %s",
			words.Plain(own.Degrees()), words.WithinDegrees(f.TDC.Expanded), words.MoveWheel(2))
	}
	switch {
	case p.Target == nil:
		return reach
	case p.Reached:
		return fmt.Sprintf("A standard uncertainty of %s deg is within reach. %s", words.Plain(p.Target.Degrees()), reach)
	}
	return fmt.Sprintf("A standard uncertainty of %s deg is out of reach of these instruments with up to %d readings. %s",
		words.Plain(p.Target.Degrees()), plan.Most, reach)
}

// turning is how many readings are taken turning one way.
func (p Plan) turning(turn evidence.TurnDirection) int {
	n := 0
	for _, point := range p.Plan.Points {
		if point.Turn == turn {
			n++
		}
	}
	return n
}

// flankOf names the side of TDC that a place lies on.
func flankOf(place adjust.Place) string {
	if place.Angle > 0 {
		return "falling"
	}
	return "rising"
}

// table is the places in the order the crank comes to them.
func (p Plan) table() doc.Table {
	bench := words.NewBench(p.Job.Setup, p.Job.Unit)
	t := doc.Table{Header: []string{"No.", "turn", "flank", "drop, " + bench.Unit(), "from TDC, deg", bench.Unit() + " per deg", "u(angle), deg"}}
	for i, point := range p.Plan.Points {
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(i + 1), point.Turn.String(), flankOf(point.Place), bench.DropNumber(point.Drop),
			words.Signed(point.Angle.Degrees(), 1), bench.Slope(point.Slope), words.Fixed(point.Uncertainty.Degrees(), 2),
		})
	}
	return t
}

// how is what to do with the table.
func (p Plan) how() []string {
	list := []string{
		"Find the highest point with the gauge, then work down the table in its order: turn until the gauge shows about that drop below what it shows at the top, " +
			"stop, and write down what gauge and protractor really show. Hitting the drop exactly does not matter.",
		"u(angle) is the standard uncertainty of one angle on that flank, at that drop, by one reading.",
		overshot(p.Plan.TurnsBack()),
		"But for the last two no place is read twice turning the same way: at one place a protractor is wrong by the same amount each time.",
		p.closing(),
	}
	if p.Plan.TurnsBack() {
		list = append(list, "Between the two ways go on past the last place by some 30 deg before turning back.")
	}
	return list
}

// closing is what to read again at the end.
func (p Plan) closing() string {
	return fmt.Sprintf("Last read Nos. %s again, turning %s: a pointer or a gauge that moved at the last readings shows only so.",
		words.And(p.closingNumbers()), p.Plan.Closing()[0].Turn)
}

// closingNumbers is the numbers in the table of the places to read again.
func (p Plan) closingNumbers() (list []string) {
	for i := range p.Plan.Closing() {
		list = append(list, strconv.Itoa(i+1))
	}
	return list
}

// overshot is what to do past a place.
func overshot(turnsBack bool) string {
	if turnsBack {
		return "Overshot? Go back some 30 deg and come up to it again the same way, where the maker allows turning back."
	}
	return "Overshot? Read where you stand, or go on forward once round and come up to it again: never back."
}

// gain compares the plan with evenly spread readings, and with turning one way.
func (p Plan) gain() string {
	f := p.Plan.Foreseen.AgreeTo.Uncertainty.Degrees()
	places := words.Decimals(f) + 1
	even := p.Plan.Even.AgreeTo.Uncertainty.Degrees()
	text := fmt.Sprintf("The same number of readings spread evenly over the same flanks would leave %s deg where this plan leaves %s", words.Fixed(even, places), words.Fixed(f, places))
	if more := (even/f)*(even/f) - 1; more > 0.02 {
		text += fmt.Sprintf(": the plan is worth %.0f %% more readings", 100*more)
	}
	text += "."
	if p.Other != nil {
		text += fmt.Sprintf(" The same number turning forward only (--one-way) would leave %s deg.", words.Fixed(p.Other.AgreeTo.Uncertainty.Degrees(), places))
	}
	return text
}

// Question is how a job is to be planned for.
type Question struct {
	Ground   plan.Ground
	Readings int             // how many, where no target says it
	Target   *geometry.Angle // standard uncertainty of TDC to reach; nil: none
}

// Ground is where a job's gauge can read; deepest 0 is as far as its kind usually
// reaches.
func Ground(j job.Job, oneWay bool, deepest geometry.Length) plan.Ground {
	return plan.Ground{Deepest: cmp.Or(deepest, plan.Deepest(j.Setup.Gauge.Kind)), OneWay: oneWay}
}

// Of is the plan that a question asks for.
func Of(j job.Job, q Question) (Plan, error) {
	answer := Plan{Job: j, Ground: q.Ground, Target: q.Target}
	var err error
	if q.Target != nil {
		answer.Plan, answer.Reached, err = plan.Reach(j.Setup, q.Ground, *q.Target)
	} else {
		if least := q.Ground.Fewest(); q.Readings < least || q.Readings%2 != 0 {
			return answer, usage.Errorf("--readings %d: expected an even number from %d up, for pairs of equal drop each way", q.Readings, least)
		}
		answer.Plan, err = plan.Best(j.Setup, q.Ground, q.Readings)
	}
	if err != nil {
		return answer, fmt.Errorf("%s: %s", j.File, words.NewBench(j.Setup, j.Unit).Planning(err))
	}
	answer.Other = otherWay(j, answer)
	return answer, nil
}

// otherWay is what as many readings would reach turned one way, of a plan that
// turns back; nil where they are too many for one way.
func otherWay(j job.Job, answer Plan) *adjust.Foreseen {
	if !answer.Plan.TurnsBack() {
		return nil
	}
	p, err := plan.Best(j.Setup, plan.Ground{Deepest: answer.Ground.Deepest, OneWay: true}, len(answer.Plan.Points))
	if err != nil {
		return nil
	}
	return &p.Foreseen
}
