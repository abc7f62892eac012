package planning

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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

// plan is where to read, and what that will reach.
type Plan struct {
	job     job.Job
	ground  plan.Ground
	plan    plan.Plan
	target  *geometry.Angle  // standard uncertainty asked for; nil when none was
	reached bool             // the target
	other   *adjust.Foreseen // of as many readings turned one way; nil where the plan is that
	both    *adjust.Foreseen // of as many turned both ways; nil where the plan is that, or none may be
	looks   *looksPlan       // what to look for in place of the readings; nil where it is no borescope
	tdc     *geometry.Angle  // on the protractor, by the readings so far; nil where they do not tell it
	lobes   []lobePlan
}

// Document is the answer in words.
func (p Plan) Document() doc.Document {
	var d doc.Document
	d.Section(p.job.Title)
	if p.looks != nil {
		p.sayLooks(&d)
	} else {
		p.readings(&d)
	}
	p.sayLobes(&d)
	for _, text := range slices.Backward(p.cautions()) {
		d.Say(text)
	}
	return d
}

// readings adds where to read.
func (p Plan) readings(d *doc.Document) {
	d.Say(p.sentence())
	d.Say(p.turning())
	d.Table(p.table())
	d.List(p.how())
	r := tdc.Result{TDC: p.plan.Foreseen.TDC, Budget: p.plan.Foreseen.Budget}
	d.Table(budget.Table(r))
	if p.plan.TurnsBack() {
		d.Say(budget.InWords(r))
	} else {
		d.Say(budget.OneWay(r))
	}
	d.Say(p.gain())
}

// turnsBack tells whether the crank is turned back for anything that is asked for.
func (p Plan) turnsBack() bool {
	if p.looks != nil {
		return p.looks.TurnsBack()
	}
	return p.plan.TurnsBack()
}

// turning is what turning back gains; where it is not asked for, what one way cannot show.
func (p Plan) turning() string {
	within := func(f adjust.Foreseen) string { return words.WithinDegrees(f.TDC.Expanded) }
	switch {
	case p.plan.TurnsBack() && p.other != nil:
		return fmt.Sprintf("Turning back and reading both ways: ± %s deg instead of %s, with as many readings.", within(p.plan.Foreseen), within(*p.other))
	case p.plan.TurnsBack():
		return ""
	case p.both != nil:
		text := fmt.Sprintf("Turning back is not asked for: as many readings both ways leave ± %s deg instead of %s. ", within(*p.both), within(p.plan.Foreseen))
		return text + words.OneWayHides
	}
	return words.OneWayHides
}

// cautions is what can hurt somebody who reads so.
func (p Plan) cautions() (list []string) {
	var also []string
	if len(p.lobes) > 0 {
		also = append(also, caution.Lobe)
		if !p.turnsBack() {
			also = append(also, caution.Back)
		}
	}
	list = append(list, caution.With(also...))
	if p.turnsBack() {
		list = append(list, caution.TurnBack)
	}
	return list
}

// sentence is how many readings, and how sure they make TDC.
func (p Plan) sentence() string {
	n, f := len(p.plan.Points), p.plan.Foreseen
	places := words.Decimals(f.AgreeTo.Uncertainty.Degrees())
	turns := "all turning forward"
	if p.plan.TurnsBack() {
		turns = fmt.Sprintf("%d turning forward and then %d turning backward", p.turned(evidence.Forward), p.turned(evidence.Backward))
	}
	reach := fmt.Sprintf("%d readings, %s, will agree on TDC to about ± %s deg (95 %%)", n, turns, words.WithinDegrees(f.AgreeTo.Expanded))
	if p.target != nil { // which is one
		reach += fmt.Sprintf(", a standard uncertainty of %s deg", words.Fixed(f.AgreeTo.Uncertainty.Degrees(), places))
	}
	reach += "."
	if own := p.job.Setup.Protractor.Error; own > 0 {
		reach += fmt.Sprintf(" With the protractor's own error of %s deg TDC is known to ± %s deg. More readings do not shrink that error, a finer protractor does. %s",
			words.Plain(own.Degrees()), words.WithinDegrees(f.TDC.Expanded), words.MoveWheel(2))
	}
	switch {
	case p.target == nil:
		return reach
	case p.reached:
		return fmt.Sprintf("A standard uncertainty of %s deg is within reach. %s", words.Plain(p.target.Degrees()), reach)
	}
	return fmt.Sprintf("A standard uncertainty of %s deg is out of reach of these instruments with up to %d readings. %s",
		words.Plain(p.target.Degrees()), plan.Most, reach)
}

// turned is how many readings are taken turning one way.
func (p Plan) turned(turn evidence.TurnDirection) int {
	n := 0
	for _, point := range p.plan.Points {
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
	bench := words.NewBench(p.job.Setup, p.job.Unit)
	t := doc.Table{Header: []string{"No.", "turn", "flank", "drop, " + bench.Unit(), "from TDC, deg", bench.Unit() + " per deg", "one angle, deg"}}
	for i, point := range p.plan.Points {
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(i + 1), point.Turn.String(), flankOf(point.Place), bench.DropNumber(point.Drop),
			words.Signed(point.Angle.Degrees(), 1), bench.Slope(point.Slope), words.Fixed(point.Uncertainty.Degrees(), 2),
		})
		if p.tdc != nil {
			t.Rows[i][6] = bench.Reads(p.stand(point.Place), 0)
		}
	}
	if p.tdc != nil {
		t.Header[6] = "protractor" // in place of what has no room beside it
	}
	return t
}

// stand is where to stop for a place: at a whole degree of the protractor, or a whole step
// of a coarser one.
func (p Plan) stand(place adjust.Place) geometry.Angle {
	step := float64(max(geometry.Degree, p.job.Setup.Protractor.Step))
	return geometry.Angle(math.Round(float64(*p.tdc+place.Angle)/step) * step)
}

// how is what to do with the table.
func (p Plan) how() []string {
	list := []string{
		"Find the highest point with the gauge, then work down the table in its order. For each row turn until the gauge shows about that drop below what it showed at the top. " +
			"Stop, and write down what gauge and protractor really show. Hitting the drop exactly does not matter.",
		p.lastColumn(),
		overshot(p.plan.TurnsBack()),
		"Except the last two, no place is read twice turning the same way. At one place a protractor is wrong by the same amount each time.",
		p.closing(),
	}
	if p.plan.TurnsBack() {
		list = append(list, "Between the two ways go on past the last place by some 30 deg before turning back.")
	}
	return list
}

// lastColumn is what the table's last column is.
func (p Plan) lastColumn() string {
	if p.tdc != nil {
		return "The column protractor says where that is, to a whole degree, by the readings so far."
	}
	return "The last column is how far off one angle read there may be (a standard uncertainty)."
}

// closing is what to read again at the end.
func (p Plan) closing() string {
	return fmt.Sprintf("Last read Nos. %s again, turning %s: only that shows a pointer or a gauge that moved at the last readings.",
		words.And(p.closingNumbers()), p.plan.Closing()[0].Turn)
}

// closingNumbers is the numbers in the table of the places to read again.
func (p Plan) closingNumbers() (list []string) {
	for i := range p.plan.Closing() {
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

// gain compares the plan with evenly spread readings.
func (p Plan) gain() string {
	f := p.plan.Foreseen.AgreeTo.Uncertainty.Degrees()
	places := words.Decimals(f) + 1
	even := p.plan.Even.AgreeTo.Uncertainty.Degrees()
	text := fmt.Sprintf("The same number of readings spread evenly over the same flanks would leave %s deg where this plan leaves %s", words.Fixed(even, places), words.Fixed(f, places))
	if more := (even/f)*(even/f) - 1; more > 0.02 {
		text += fmt.Sprintf(": that is worth as much as %.0f %% more readings", 100*more)
	}
	return text + "."
}

// Question is how a job is to be planned for.
type Question struct {
	Ground   plan.Ground
	Readings int             // how many, where no target says it
	Target   *geometry.Angle // standard uncertainty of TDC to reach; nil: none
}

// ground is where a job's gauge can read; deepest 0 is as far as its kind usually
// reaches.
func Ground(j job.Job, oneWay bool, deepest geometry.Length) plan.Ground {
	g := plan.Ground{Deepest: cmp.Or(deepest, plan.Deepest(j.Setup.Gauge.Kind)), OneWay: oneWay}
	if words.NewBench(j.Setup, j.Unit).Inches {
		g.Round = 0.02 * geometry.Inch
	}
	return g
}

// Of is the plan that a question asks for; an error says in words why there is none.
func Of(j job.Job, q Question) (Plan, error) {
	answer := Plan{job: j, ground: q.Ground, target: q.Target}
	var err error
	if q.Target != nil {
		answer.plan, answer.reached, err = plan.Reach(j.Setup, q.Ground, *q.Target)
	} else {
		if least := q.Ground.Fewest(); q.Readings < least || q.Readings%2 != 0 {
			return answer, usage.Errorf("--readings %d: expected an even number from %d up, for pairs of equal drop each way", q.Readings, least)
		}
		answer.plan, err = plan.Advise(j.Setup, q.Ground, q.Readings)
	}
	if err != nil {
		return answer, fmt.Errorf("%s: %s", j.File, words.NewBench(j.Setup, j.Unit).Planning(err))
	}
	if other := plan.Otherwise(j.Setup, q.Ground, answer.plan); answer.plan.TurnsBack() {
		answer.other = other
	} else {
		answer.both = other
	}
	answer.looks = looksOf(j.Setup, q.Ground)
	if result := readSoFar(j); result != nil && result.CannotTell == nil {
		answer.tdc = &result.TDC.Angle
	}
	answer.lobes, err = lobesOf(j, answer.plan)
	if err != nil {
		return answer, fmt.Errorf("%s: %w", j.File, err)
	}
	return answer, nil
}
