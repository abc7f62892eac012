package benchtest_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// happening is something that goes wrong while a job is read.
type happening struct {
	name        string
	slips       func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip
	spoil       func(rng *rand.Rand, r []evidence.Reading) []evidence.Reading
	lash, start *float64
	// aims, in %: found by 24, 12 and 8 readings with either protractor, and TDC held at the
	// end; 0: none.
	found, foundFine [3]float64
	held             float64
}

// turned is a protractor, or its pointer, that slips once; bumped a gauge.
func turned(m benchtest.Moment, degrees float64) happening {
	return happening{name: fmt.Sprintf("%.1f deg %s", degrees, m.Name), slips: func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip {
		return []benchtest.Slip{benchtest.AnglesSlip(rng, l, m, degrees)}
	}}
}

func bumped(m benchtest.Moment, mm float64) happening {
	return happening{name: fmt.Sprintf("%.2f mm %s", mm, m.Name), slips: func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip {
		return []benchtest.Slip{benchtest.DepthsSlip(rng, l, m, mm)}
	}}
}

// aiming is a happening with its aims.
func (h happening) aiming(found, fine [3]float64, held float64) happening {
	h.found, h.foundFine, h.held = found, fine, held
	return h
}

// named is a happening by another name, on an engine with so much lash.
func (h happening) named(name string, lash *float64) happening {
	h.name, h.lash = name, lash
	return h
}

// happenings is what is tried both ways, with the aims of design.md 8 (real-bench.md F has
// the prototype's figures).
func happenings() []happening {
	back, any := benchtest.AtTurnBack, benchtest.Anywhere
	none := [3]float64{}
	worn, zero := 0.25, 2.0
	twice := turned(any, 1)
	twice.slips = func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip {
		return []benchtest.Slip{benchtest.AnglesSlip(rng, l, any, 1), benchtest.AnglesSlip(rng, l, any, 1)}
	}
	typed := turned(any, 1).aiming(none, none, 90)
	typed.spoil = mistyped(1)
	return []happening{
		turned(back, 0.3).aiming(none, none, 90), turned(back, 0.5).aiming(none, none, 90),
		turned(back, 1).aiming([3]float64{98, 94, 70}, [3]float64{99, 99, 90}, 90), turned(back, 5).aiming([3]float64{95, 95, 95}, [3]float64{95, 95, 95}, 90),
		bumped(back, 0.05).aiming(none, none, 90), bumped(back, 0.1).aiming([3]float64{95, 95, 90}, [3]float64{95, 95, 90}, 90),
		turned(benchtest.BetweenFlanks, 1).aiming(none, none, 90), bumped(benchtest.BetweenFlanks, 0.1),
		turned(any, 0.3).aiming(none, none, 80), turned(any, 0.5).aiming(none, none, 80), turned(any, 1).aiming(none, none, 90),
		turned(any, 5).aiming([3]float64{95, 95, 95}, [3]float64{95, 95, 95}, 90),
		bumped(any, 0.1), turned(benchtest.AtAnEnd, 1),
		typed.named("1.0 deg anywhere and a typing error", nil),
		turned(back, 1).aiming(none, none, 85).named("1.0 deg at the turn-back, lash 0.25", &worn),
		turned(any, 1).aiming(none, none, 85).named("1.0 deg anywhere, lash 0.25", &worn),
		twice.named("1.0 deg twice anywhere", nil),
		{name: "one sweep's turn swapped", slips: swapped(1)}, {name: "both sweeps' turns swapped", slips: swapped(2)},
		{name: "two typing errors", spoil: mistyped(2), held: 90},
		{name: "a sign lost", spoil: mirrored, start: &zero, held: 90},
	}
}

// swapped is the turns of so many sweeps written down the other way round.
func swapped(n int) func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip {
	return func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip {
		return []benchtest.Slip{{Sweeps: rng.Perm(l.Sweeps)[:min(n, l.Sweeps)]}}
	}
}

// mistyped spoils so many readings.
func mistyped(n int) func(rng *rand.Rand, r []evidence.Reading) []evidence.Reading {
	return func(rng *rand.Rand, r []evidence.Reading) []evidence.Reading {
		spoilt, _ := benchtest.Mistype(rng, r, n)
		return spoilt
	}
}

// mirrored takes the sign from one.
func mirrored(rng *rand.Rand, r []evidence.Reading) []evidence.Reading {
	spoilt, _ := benchtest.Mirrored(rng, r)
	return spoilt
}

// slipPoint is a happening at a place in the table.
func slipPoint(h happening, plan planned, wheel int, kind benchtest.CurveKind) point {
	p := protractors[wheel]
	return point{
		name:  fmt.Sprintf("%s %s %s, %s", plan.name, p.name, kind.Name, h.name),
		setup: petrol(p.step, p.bound), layout: plan.Layout, kind: kind, slips: h.slips, spoil: h.spoil, fixed: fixed{lash: h.lash, start: h.start},
	}
}

const slipRow = "%-66s %7s %7s   %7s %7s   %7s %7s %7s %7s %7s %s\n"

func slipHead() string {
	return fmt.Sprintf(slipRow, "point", "found", "aim", "held", "aim", "before", "wrong", "silent", "untold", "U/deg", "")
}

// slipRow is a row of what was found. Wrong is neither the TDC of the start nor that of the
// end in the interval, silent wrong without any warning.
func (all outcomes) slipRow(name string, found, holds float64, remark string) string {
	aim := func(x float64) string {
		if x == 0 {
			return "-"
		}
		return fmt.Sprintf("%.0f", x)
	}
	wrong := func(o outcome) bool { return !o.untold && math.Abs(o.off) > o.half && math.Abs(o.start) > o.half }
	return fmt.Sprintf(slipRow, name, percent(all.share(told)), aim(found), percent(all.share(heldOrUntold)), aim(holds),
		percent(all.share(func(o outcome) bool { return !o.untold && math.Abs(o.start) <= o.half })), percent(all.share(wrong)),
		percent(all.share(func(o outcome) bool { return wrong(o) && !o.warned })),
		percent(all.share(func(o outcome) bool { return o.untold })), degrees(all.mean(half)), remark)
}

// told tells whether a slip is told of, or TDC is not told.
func told(o outcome) bool { return o.slip || o.untold }

// heldOrUntold tells whether nobody is led astray.
func heldOrUntold(o outcome) bool { return o.untold || held(o) }

// TestSlips lets things slip while a job is read both ways.
func TestSlips(t *testing.T) {
	slow(t)
	n := run.Count(20, 400)
	var table strings.Builder
	table.WriteString(run.Head(`Something slips while both ways are read. Found is told, or TDC is not told; held is TDC as it is at the end, or not told;
before is TDC as it was at the start; wrong is neither, silent wrong with no warning at all. In %.`, n) + slipHead())
	for i, plan := range plans()[:3] {
		for wheel := range protractors {
			for _, kind := range slipKinds() {
				for j, h := range happenings() {
					p := slipPoint(h, plan, wheel, kind)
					if len(chosen([]point{p})) == 0 || !run.Full && (wheel > 0 || h.found[i] == 0) {
						continue
					}
					found := h.found[i]
					if wheel > 0 {
						found = h.foundFine[i]
					}
					all := p.outcomes(8000+100*i+j, n)
					remark := all.slipRemark(found, h.held)
					table.WriteString(all.slipRow(p.name, found, h.held, remark))
					if remark != "" && tellsSlips {
						t.Errorf("%s: %s", p.name, remark)
					}
				}
			}
		}
	}
	t.Log("\n" + table.String())
}

// slipKinds is protractors of any kind; in a full run also of fresh errors, as
// real-bench.md B has them.
func slipKinds() []benchtest.CurveKind {
	if run.Full {
		return []benchtest.CurveKind{anyKind, benchtest.FreshErrors}
	}
	return []benchtest.CurveKind{anyKind}
}

// slipRemark is which aims, in %, are missed but for chance.
func (all outcomes) slipRemark(found, holds float64) string {
	var missed []string
	below := func(what string, share, aim float64) {
		if share < aim/100-benchtest.Chance(aim/100, len(all)) {
			missed = append(missed, what)
		}
	}
	below("found", all.share(told), found)
	below("held", all.share(heldOrUntold), holds)
	return strings.Join(missed, ", ")
}

// TestSlipsElsewhere prints what slips turned one way and with a borescope do: no aims but
// that 5 deg are found with a borescope.
func TestSlipsElsewhere(t *testing.T) {
	slow(t)
	n := run.Count(20, 400)
	var table strings.Builder
	table.WriteString(run.Head("One way, and a borescope judged to 0.3 mm both ways.", n) + slipHead())
	for i, p := range elsewhere() {
		all, found := p.outcomes(9000+i, n), 0.0
		if strings.Contains(p.name, "borescope") && strings.Contains(p.name, "5.0 deg") {
			found = 90
		}
		remark := all.slipRemark(found, 0)
		table.WriteString(all.slipRow(p.name, found, 0, remark))
		if remark != "" && tellsSlips {
			t.Errorf("%s: %s", p.name, remark)
		}
	}
	t.Log("\n" + table.String())
}

// elsewhere is the points of TestSlipsElsewhere.
func elsewhere() (points []point) {
	worn := 0.25
	oneWay := []happening{turned(benchtest.BetweenFlanks, 0.5), turned(benchtest.BetweenFlanks, 1), bumped(benchtest.BetweenFlanks, 0.1),
		turned(benchtest.Anywhere, 1), turned(benchtest.Anywhere, 5), {name: "turn swapped", slips: swapped(1)}, {name: "lash 0.25", lash: &worn}}
	for _, plan := range plans()[3:5] {
		for _, h := range oneWay {
			points = append(points, slipPoint(h, plan, 0, anyKind))
		}
	}
	for _, plan := range plans()[:3] {
		for _, by := range []float64{1, 2, 5} {
			for _, m := range []benchtest.Moment{benchtest.AtTurnBack, benchtest.Anywhere} {
				p := slipPoint(turned(m, by), plan, 0, anyKind)
				p.setup.Gauge = benchtest.Gauge(evidence.Borescope, 0.5, 0.3)
				p.name = "borescope " + p.name
				points = append(points, p)
			}
		}
	}
	return chosen(points)
}
