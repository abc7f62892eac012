package benchtest_test

import (
	"fmt"
	"strings"
	"testing"

	"evendrop/tdc/benchtest"
)

const alarmRow = "%-58s %7s %7s %7s   %7s %7s %s\n"

// TestFalseAlarms counts healthy jobs of which it is told that something slipped, pooled
// over lash to 0.4 mm, offsets to 12 mm and protractors of every kind (design.md 8).
func TestFalseAlarms(t *testing.T) {
	slow(t)
	const pooled, anyOne = 0.01, 0.025
	const enough = 100 // of a point's jobs: of a few one alone is too many
	n := run.Count(3, 600)
	var table strings.Builder
	table.WriteString(run.Head("Healthy jobs, in %. Aims: a slip told of in 1 at most, pooled; 2.5 at any one point.", n))
	fmt.Fprintf(&table, alarmRow, "point", "alarm", "aim", "untold", "TDC", "U/deg", "")
	var all outcomes
	row := func(name string, these outcomes, most float64) {
		told, remark := these.share(func(o outcome) bool { return o.slip }), ""
		if told > most+benchtest.Chance(most, len(these)) && len(these) >= enough {
			remark = "alarm"
		}
		fmt.Fprintf(&table, alarmRow, name, fmt.Sprintf("%.2f", 100*told), percent(most),
			percent(these.share(func(o outcome) bool { return o.untold })), percent(these.share(held)), degrees(these.mean(half)), remark)
		if remark != "" && tellsSlips {
			t.Errorf("%s: a slip is told of in %.2f %%", name, 100*told)
		}
	}
	for i, p := range healthyEverywhere() {
		these := p.outcomes(10000+i, n)
		row(p.name, these, anyOne)
		all = append(all, these...)
	}
	if len(all) > 0 {
		row("pooled", all, pooled)
	}
	t.Log("\n" + table.String())
}

// healthyEverywhere is every plan with lash and offset fixed on protractors of any kind, the
// offset unstated, and with all drawn on protractors of each kind.
func healthyEverywhere() (points []point) {
	for _, plan := range plans()[:5] {
		for _, wheel := range protractors {
			add := func(kind benchtest.CurveKind, f fixed, name string) {
				p := point{name: fmt.Sprintf("%s %s %s%s", plan.name, wheel.name, kind.Name, name),
					setup: petrol(wheel.step, wheel.bound), layout: plan.Layout, kind: kind, fixed: f}
				if f.offset != nil {
					p.setup.Engine = benchtest.Unstated(p.setup.Engine)
				}
				points = append(points, p)
			}
			for _, lash := range []float64{0, 0.15, 0.25, 0.4} {
				for _, offset := range []float64{0, 8, 12} {
					add(anyKind, fixed{lash: &lash, offset: &offset}, fmt.Sprintf(", lash %.2f offset %2.0f", lash, offset))
				}
			}
			for _, kind := range append([]benchtest.CurveKind{benchtest.FreshErrors}, benchtest.CurveKinds()...) {
				add(kind, fixed{}, "")
			}
		}
	}
	return chosen(points)
}
