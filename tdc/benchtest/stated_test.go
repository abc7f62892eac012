package benchtest_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evendrop/tdc/benchtest"
)

// protractors is those of a coarse and of a fine step.
var protractors = []struct {
	name        string
	step, bound float64
}{{".5/.25", 0.5, 0.25}, {".1/.09", 0.1, 0.09}}

// planned is a layout by the name that the tables have for it.
type planned struct {
	name string
	benchtest.Layout
}

// plans is every way of reading. The same graduations forward and back, and few of them
// read again and again, are where a protractor's own error averages out least.
func plans() []planned {
	return []planned{
		{"24 both", benchtest.Balanced(2, 24)}, {"12 both", benchtest.Balanced(2, 12)}, {"8 both", benchtest.Balanced(2, 8)},
		{"24 one", benchtest.Balanced(1, 24)}, {"12 one", benchtest.Balanced(1, 12)},
		{"12 graduations x 2", benchtest.Balanced(2, 24).Aimed(benchtest.AtGraduation)},
		{"6 graduations x 4", benchtest.Balanced(4, 24).Aimed(benchtest.AtGraduation)},
		{"12 lines x 2", benchtest.Balanced(2, 24).Aimed(benchtest.OnGraduation)},
		{"6 lines x 4", benchtest.Balanced(4, 24).Aimed(benchtest.OnGraduation)},
	}
}

// widths is the most that U may be on average, where the design says (design.md 8).
var widths = map[string]float64{
	"24 both .5/.25": 0.28, "12 both .5/.25": 0.31, "8 both .5/.25": 0.34, "24 both .1/.09": 0.11,
}

// stated is every kind of protractor with every plan; a quick run leaves most plans out.
func stated() (points []point) {
	kinds := append([]benchtest.CurveKind{benchtest.FreshErrors}, benchtest.CurveKinds()...)
	for _, plan := range plans() {
		for _, wheel := range protractors {
			if !run.Full && !slices.Contains([]string{"24 both.5/.25", "8 both.5/.25", "6 graduations x 4.5/.25", "24 both.1/.09"}, plan.name+wheel.name) {
				continue
			}
			for _, kind := range kinds {
				if plan.Aim == benchtest.OnGraduation && (wheel.step < 2*wheel.bound || kind.Name == benchtest.FreshErrors.Name) {
					continue // a line that is not where it is looked for
				}
				points = append(points, point{
					name:  fmt.Sprintf("%-18s %s %s", plan.name, wheel.name, kind.Name),
					setup: petrol(wheel.step, wheel.bound), layout: plan.Layout, kind: kind,
				})
			}
		}
	}
	return chosen(points)
}

const statedRow = "%-38s %7s %7s %7s %7s %7s   %7s %7s   %7s %7s %7s %7s   %7s %7s %s\n"

// TestStated draws everything that a job leaves open from the ranges that it states, on
// protractors of every kind: TDC as an error-free scale shows it, and marks by the same
// protractor.
func TestStated(t *testing.T) {
	slow(t)
	n := run.Count(25, 2000)
	var table strings.Builder
	table.WriteString(run.Head(`Aims: TDC held in 93 % at least, on every protractor; by the readings alone, errors fresh, in 94-96 %;
marks 4 and 20 deg away held in 93 % (90 deg: no aim); U as the design has it. "shows" is what this
protractor itself shows at TDC, rms the error of TDC, warned the jobs with any warning, untold those without an answer.`, n))
	fmt.Fprintf(&table, statedRow, "point", "TDC", "U/deg", "aim", "rms/deg", "shows", "alone", "U alone", "mark 4", "U 4", "mark 20", "mark 90", "warned", "untold", "")
	row := func(p point, all outcomes) {
		remark := p.statedRemark(all)
		table.WriteString(p.statedRow(all, remark))
		if remark != "" {
			t.Errorf("%s: %s", p.name, remark)
		}
	}
	var every outcomes
	byPlan := map[string]outcomes{} // U's aim is of a plan on protractors of all kinds together
	for i, p := range stated() {
		all := p.outcomes(5000+i, n)
		row(p, all)
		every = append(every, all...)
		byPlan[p.plan()] = append(byPlan[p.plan()], all...)
	}
	for plan, all := range byPlan {
		if most, is := widths[plan]; is && all.mean(half) > most+all.strays(half) {
			t.Errorf("%s: U is %s", plan, degrees(all.mean(half)))
		}
	}
	if len(every) > 0 {
		row(point{name: "pooled"}, every)
	}
	t.Log("\n" + table.String())
}

// statedRow is a row of the table.
func (p point) statedRow(all outcomes, remark string) string {
	aim := "-"
	if most, is := widths[p.plan()]; is {
		aim = degrees(most)
	}
	mark := func(i int) string { return percent(all.share(func(o outcome) bool { return o.marks[i].held })) }
	return fmt.Sprintf(statedRow, p.name, percent(all.share(held)), degrees(all.mean(half)), aim,
		degrees(math.Sqrt(all.mean(func(o outcome) float64 { return o.off * o.off }))),
		percent(all.share(func(o outcome) bool { return !o.untold && math.Abs(o.shows) <= o.half })),
		percent(all.still().share(alone)), degrees(all.mean(func(o outcome) float64 { return o.readings })),
		mark(0), degrees(all.mean(func(o outcome) float64 { return o.marks[0].half })), mark(1), mark(2),
		percent(all.share(func(o outcome) bool { return o.warned })), percent(all.share(func(o outcome) bool { return o.untold })), remark)
}

// plan is the plan and the protractor of a point's name, without its kind.
func (p point) plan() string {
	return strings.TrimSuffix(strings.Join(strings.Fields(p.name), " "), " "+p.kind.Name)
}

// statedRemark is which aims a point misses, but for chance.
func (p point) statedRemark(all outcomes) string {
	var missed []string
	below := func(what string, share, aim float64) {
		if share < aim-benchtest.Chance(aim, len(all)) {
			missed = append(missed, what)
		}
	}
	below("TDC", all.share(held), 0.93)
	if p.kind.Name == benchtest.FreshErrors.Name {
		below("alone", all.still().share(alone), 0.94)
		if all.still().share(alone) > 0.96+benchtest.Chance(0.96, len(all)) {
			missed = append(missed, "alone")
		}
	}
	for i, at := range markedAt[:2] {
		below(fmt.Sprintf("mark %.0f", at), all.share(func(o outcome) bool { return o.marks[i].held }), 0.93)
	}
	return strings.Join(missed, ", ")
}

func half(o outcome) float64 { return o.half }

// alone tells whether the readings' own interval holds TDC.
func alone(o outcome) bool { return !o.untold && math.Abs(o.agrees) <= o.readings }

// still is those in which nothing is found to have moved, of which the single fit is told.
func (all outcomes) still() (list outcomes) {
	for _, o := range all {
		if !o.slip {
			list = append(list, o)
		}
	}
	return list
}

func percent(share float64) string { return fmt.Sprintf("%.1f", 100*share) }

// degrees writes them; of no job there is nothing to write.
func degrees(d float64) string {
	if math.IsNaN(d) {
		return "-"
	}
	return fmt.Sprintf("%.4f", d)
}
