package report

import (
	"fmt"

	"evendrop/geometry"
)

// letter names an engine of several.
func (m Motion) letter(n int) string { return string(rune('A' + n)) }

// late writes an angle from TDC with its sign, as it was typed.
func late(u geometry.Angle) string {
	if text := plain(u.Degrees()); u > 0 {
		return "+" + text
	} else {
		return text
	}
}

func (e MotionEngine) downstroke() geometry.Angle { return e.BDC() - e.TDC() }

// mm writes a drop with the decimals that suit the engine's size: a hundred
// thousandth of its stroke.
func (e MotionEngine) mm(l geometry.Length) string {
	return fixed(l.Millimetres(), decimals(e.Throw().Millimetres()/5e4))
}

func (e MotionEngine) slope(r motionRow) string {
	return fixed(r.slope.MillimetresPerDegree(), decimals(e.Throw().Millimetres()/5e4))
}

// cm3 writes a volume to about a ten thousandth of what is swept.
func (e MotionEngine) cm3(v *float64) string {
	return fixed(*v, decimals(e.area()*e.Stroke().Millimetres()/1e7))
}

// motionTable is one engine by crank angle.
func (m Motion) motionTable() table {
	e := m.Engines[0]
	t := table{header: []string{"Angle, deg", "drop, mm", "mm/deg"}}
	if m.RPM > 0 {
		t.header = append(t.header, "m/s")
	}
	switch {
	case e.Cylinder != nil:
		t.header = append(t.header, "volume, cm3")
	case e.Bore > 0:
		t.header = append(t.header, "swept, cm3")
	}
	t.header = append(t.header, "cosine, mm", "off BDC, mm")
	for _, u := range m.Angles {
		r := m.row(e, u)
		row := []string{late(u), e.mm(r.drop), e.slope(r)}
		if r.speed != nil {
			row = append(row, fixed(*r.speed, 2))
		}
		switch {
		case r.volume != nil:
			row = append(row, e.cm3(r.volume))
		case r.swept != nil:
			row = append(row, e.cm3(r.swept))
		}
		t.rows = append(t.rows, append(row, e.mm(r.cosine), e.mm(r.riseAtBDC)))
	}
	return t
}

// engineTable is what the engines are.
func (m Motion) engineTable() table {
	t := table{header: []string{"Engine", "stroke, mm", "rod, mm", "offset, mm", "travel, mm", "TDC, deg", "down, deg"}}
	for n, e := range m.Engines {
		t.rows = append(t.rows, []string{
			m.letter(n), plain(2 * e.Throw().Millimetres()), plain(e.Rod().Millimetres()),
			plain(e.Offset().Millimetres()), fixed(e.Stroke().Millimetres(), 3), signed(e.TDC().Degrees(), 2), fixed(e.downstroke().Degrees(), 2),
		})
	}
	return t
}

// sideBySide is one quantity of every engine by crank angle.
func (m Motion) sideBySide(what string, of func(motionRow, MotionEngine) string) table {
	t := table{header: []string{what + " at deg"}}
	for n := range m.Engines {
		t.header = append(t.header, m.letter(n))
	}
	for _, u := range m.Angles {
		row := []string{late(u)}
		for _, e := range m.Engines {
			row = append(row, of(m.row(e, u), e))
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// dwellTable is how long the pistons stay near the ends of their strokes.
func (m Motion) dwellTable() (table, error) {
	t := table{header: []string{"Dwell within", "from, deg", "to, deg", "whole, deg", "cosine, deg", "at BDC, deg"}}
	for _, within := range m.Within {
		for n, e := range m.Engines {
			d, err := e.dwell(within)
			if err != nil {
				return t, err
			}
			name := plain(within.Millimetres()) + " mm"
			if len(m.Engines) > 1 {
				name = fmt.Sprintf("%s, %s", name, m.letter(n))
			}
			t.rows = append(t.rows, []string{
				name, fixed(d.before.Degrees(), 2), signed(d.after.Degrees(), 2), fixed(d.total().Degrees(), 2),
				fixed(d.cosine.Degrees(), 2), fixed(d.atBDC.Degrees(), 2),
			})
		}
	}
	return t, nil
}
