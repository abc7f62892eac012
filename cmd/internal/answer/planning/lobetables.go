package planning

import (
	"slices"
	"strconv"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/plan/lobes"
)

// hundredths is a half-width to where two of them can be told apart.
func hundredths(a geometry.Angle) string { return words.Fixed(a.Degrees(), 2) }

// table is the lifts in the order that the crank comes to them.
func (l lobePlan) table(bench words.Bench) doc.Table {
	t := doc.Table{Header: []string{"No.", "side", "lift, " + bench.Unit(), "for"}}
	if l.placed() {
		t.Header = append(t.Header, "crank, about")
		if l.TDC != nil {
			t.Header = append(t.Header, "protractor")
		}
	}
	for i, point := range l.Points {
		use := string(point.Use)
		if point.Read {
			use += ", was read"
		}
		row := []string{strconv.Itoa(i + 1), string(point.Flank), bench.LiftNumber(point.Lift), use}
		t.Rows = append(t.Rows, append(row, l.where(point, bench)...)[:len(t.Header)])
	}
	return t
}

// placed tells whether the place of any lift is known beforehand.
func (l lobePlan) placed() bool {
	return slices.ContainsFunc(l.Points, func(p lobes.Point) bool { return p.Angle != nil })
}

// where is where a lift is expected, from TDC and on the protractor; blanks where nobody
// knows.
func (l lobePlan) where(point lobes.Point, bench words.Bench) []string {
	cells := []string{"", ""}
	if point.Angle == nil {
		return cells
	}
	cells[0] = words.EventAbout(*point.Angle)
	if point.Use == lobes.ForTop {
		cells[0] = words.CentreAbout(*point.Angle)
	}
	if l.TDC != nil {
		cells[1] = bench.Reads(*l.TDC+*point.Angle, 0)
	}
	return cells
}

// reachTable is what the readings will reach, with the protractor's own error and without.
func (l lobePlan) reachTable() doc.Table {
	t := doc.Table{Header: []string{"± 95 %, deg", "readings agree to", "with the protractor's own error"}}
	row := func(name string, b lobes.Bound) {
		t.Rows = append(t.Rows, []string{name, hundredths(b.AgreeTo), hundredths(b.Known)})
	}
	row("opening", l.Reach.Opens)
	row("closing", l.Reach.Closes)
	row("duration", l.Reach.Duration)
	row("centre", l.Reach.Centre)
	if l.Reach.Shift != nil {
		row("late by", *l.Reach.Shift)
	}
	return t
}
