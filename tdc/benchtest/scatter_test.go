package benchtest_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"evendrop/tdc/benchtest"
)

const healthyRow = "%-34s %9s %9s %9s %9s %s\n"

// TestScatterSaid counts healthy jobs of which it is said that the readings scatter more
// than the instruments explain: asked for from 1 chance in 100 on, and not more than that.
func TestScatterSaid(t *testing.T) {
	slow(t)
	const most = 0.01
	n := run.Count(40, 10000)
	var table strings.Builder
	table.WriteString(run.Head("Healthy jobs, in %. Aim: scatter is said on 0.3-0.6, at most 1 (its own limit is 1 chance in 100).", n))
	fmt.Fprintf(&table, healthyRow, "point", "scatter", "aim", "warned", "untold", "")
	row := func(name string, all outcomes) {
		said, remark := all.share(func(o outcome) bool { return o.scatter }), ""
		if said > most+benchtest.Chance(most, len(all)) {
			remark = "scatter"
		}
		fmt.Fprintf(&table, healthyRow, name, fmt.Sprintf("%.2f", 100*said), "0.3-0.6", percent(all.share(func(o outcome) bool { return o.warned })),
			percent(all.share(func(o outcome) bool { return o.untold })), remark)
		if remark != "" {
			t.Errorf("%s: scatter is said of %.1f %%", name, 100*said)
		}
	}
	pooled := map[string]outcomes{}
	for i, p := range healthyPoints() {
		all := p.outcomes(7000+i, n)
		row(p.name, all)
		pooled[p.kind.Name] = append(pooled[p.kind.Name], all...)
	}
	for _, kind := range slices.Sorted(maps.Keys(pooled)) {
		row("pooled, "+kind, pooled[kind])
	}
	t.Log("\n" + table.String())
}

// healthyPoints is jobs as stated, on fresh errors and on protractors of any kind.
func healthyPoints() (points []point) {
	for _, plan := range plans()[:5] {
		for _, wheel := range protractors {
			for _, kind := range []benchtest.CurveKind{benchtest.FreshErrors, anyKind} {
				points = append(points, point{name: plan.name + " " + wheel.name + " " + kind.Name,
					setup: petrol(wheel.step, wheel.bound), layout: plan.Layout, kind: kind})
			}
		}
	}
	return chosen(points)
}
