package tdc_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evendrop/tdc/benchtest"
)

// TestHonestyFixedTruth turns both ways with lash, offset and tilt held at values
// that the setup does not know of, some outside the ranges it states.
func TestHonestyFixedTruth(t *testing.T) {
	slow(t)
	unstated := at(0, 0, 2, benchtest.Balanced(2, 12))
	unstated.name += ", offset unstated"
	unstated.setup.Engine = benchtest.Unstated(unstated.setup.Engine)
	points := []point{unstated, at(0, 0, 1, benchtest.Balanced(2, 24)), at(2, 0, 2, benchtest.Balanced(2, 24)), at(1, 1, 2, benchtest.Balanced(2, 12))}
	n := run.Count(200, 20000)
	if !run.Full {
		points = points[:2]
	}
	var table strings.Builder
	fmt.Fprintf(&table, "seed %d, %d jobs a point, aim 93-98 %%\n%s", run.Seed, n, head())
	for i, base := range points {
		for _, lash := range []float64{0, 0.05, 0.15} {
			for _, offset := range []float64{0, 1} {
				for _, tilt := range []float64{0, 20} {
					p := base
					p.fix = func(b *benchtest.Bench) { b.Lash, b.Across, b.Gauge = lash, offset, 1/math.Cos(tilt*degree) }
					name := fmt.Sprintf("%s, lash %.2f offset %.0f tilt %2.0f", p.name, lash, offset, tilt)
					p.check(t, &table, 1000+i, n, strings.Join(strings.Fields(name), " "), 0.93, 0.98, mayMove)
				}
			}
		}
	}
	t.Log("\n" + table.String())
}

// TestHonestyTwiceTheScatter reads with normal errors of twice the standard
// uncertainty that the instruments state.
func TestHonestyTwiceTheScatter(t *testing.T) {
	slow(t)
	points := slices.Clone(chosen())
	for _, readings := range []int{8, 12, 24} {
		points = append(points, at(0, 0, 2, benchtest.Balanced(2, readings)), at(0, 0, 2, benchtest.Balanced(1, readings)))
	}
	n := run.Count(100, 20000)
	var table strings.Builder
	fmt.Fprintf(&table, "seed %d, %d jobs a point, aim 93 %% at least\n%s", run.Seed, n, head())
	for i, p := range points {
		p.noise.Normal = 2
		p.check(t, &table, 2000+i, n, strings.Join(strings.Fields(p.name), " "), 0.93, 1, mayMoveByScatter)
	}
	t.Log("\n" + table.String())
}

// check runs a point, writes its row, and fails when its coverage is not from low
// to high but for chance.
func (p point) check(t *testing.T, table *strings.Builder, stream, n int, name string, low, high, mayMove float64) {
	c := p.run(stream, n)
	remark := ""
	if !c.holds(low, high) {
		remark = " coverage"
	}
	if c.movedTooOften(mayMove) {
		remark += fmt.Sprintf(" %d moved", c.moved)
	}
	if c.failed > 0 {
		remark += fmt.Sprintf(" %d failed: %v", c.failed, c.firstErr)
	}
	table.WriteString(c.row(name, p.bound(), remark))
	if remark != "" {
		t.Errorf("%s:%s", name, remark)
	}
}
