package motion

import (
	"fmt"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// letter names an engine of several.
func (m Motion) letter(n int) string { return string(rune('A' + n)) }

// late writes an angle from TDC with its sign, as it was typed.
func late(u geometry.Angle) string {
	if text := words.Plain(u.Degrees()); u > 0 {
		return "+" + text
	} else {
		return text
	}
}

func (e MotionEngine) downstroke() geometry.Angle { return e.BDC() - e.TDC() }

// mm writes a drop with the decimals that suit the engine's size: a hundred
// thousandth of its stroke.
func (e MotionEngine) mm(l geometry.Length) string {
	return words.Fixed(l.Millimetres(), words.Decimals(e.Throw().Millimetres()/5e4))
}

func (e MotionEngine) slope(r motionRow) string {
	return words.Fixed(r.slope.MillimetresPerDegree(), words.Decimals(e.Throw().Millimetres()/5e4))
}

// cm3 writes a volume to about a ten thousandth of what is swept.
func (e MotionEngine) cm3(v *float64) string {
	return words.Fixed(*v, words.Decimals(e.area()*e.Stroke().Millimetres()/1e7))
}

// motionTable is one engine by crank angle.
func (m Motion) motionTable() doc.Table {
	e := m.Engines[0]
	t := doc.Table{Header: []string{"Angle, deg", "drop, mm", "mm/deg"}}
	if m.RPM > 0 {
		t.Header = append(t.Header, "m/s")
	}
	switch {
	case e.Cylinder != nil:
		t.Header = append(t.Header, "volume, cm3")
	case e.Bore > 0:
		t.Header = append(t.Header, "swept, cm3")
	}
	t.Header = append(t.Header, "cosine, mm", "off BDC, mm")
	for _, u := range m.Angles {
		r := m.row(e, u)
		row := []string{late(u), e.mm(r.drop), e.slope(r)}
		if r.speed != nil {
			row = append(row, words.Fixed(*r.speed, 2))
		}
		switch {
		case r.volume != nil:
			row = append(row, e.cm3(r.volume))
		case r.swept != nil:
			row = append(row, e.cm3(r.swept))
		}
		t.Rows = append(t.Rows, append(row, e.mm(r.cosine), e.mm(r.riseAtBDC)))
	}
	return t
}

// engineTable is what the engines are.
func (m Motion) engineTable() doc.Table {
	t := doc.Table{Header: []string{"Engine", "stroke, mm", "rod, mm", "offset, mm", "travel, mm", "TDC, deg", "down, deg"}}
	for n, e := range m.Engines {
		t.Rows = append(t.Rows, []string{
			m.letter(n), words.Plain(2 * e.Throw().Millimetres()), words.Plain(e.Rod().Millimetres()),
			words.Plain(e.Offset().Millimetres()), words.Fixed(e.Stroke().Millimetres(), 3), words.Signed(e.TDC().Degrees(), 2), words.Fixed(e.downstroke().Degrees(), 2),
		})
	}
	return t
}

// sideBySide is one quantity of every engine by crank angle.
func (m Motion) sideBySide(what string, of func(motionRow, MotionEngine) string) doc.Table {
	t := doc.Table{Header: []string{what + " at deg"}}
	for n := range m.Engines {
		t.Header = append(t.Header, m.letter(n))
	}
	for _, u := range m.Angles {
		row := []string{late(u)}
		for _, e := range m.Engines {
			row = append(row, of(m.row(e, u), e))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// dwellTable is how long the pistons stay near the ends of their strokes.
func (m Motion) dwellTable() (doc.Table, error) {
	t := doc.Table{Header: []string{"Dwell within", "from, deg", "to, deg", "whole, deg", "cosine, deg", "at BDC, deg"}}
	for _, within := range m.Within {
		for n, e := range m.Engines {
			d, err := e.dwell(within)
			if err != nil {
				return t, err
			}
			name := words.Plain(within.Millimetres()) + " mm"
			if len(m.Engines) > 1 {
				name = fmt.Sprintf("%s, %s", name, m.letter(n))
			}
			t.Rows = append(t.Rows, []string{
				name, words.Fixed(d.before.Degrees(), 2), words.Signed(d.after.Degrees(), 2), words.Fixed(d.total().Degrees(), 2),
				words.Fixed(d.cosine.Degrees(), 2), words.Fixed(d.atBDC.Degrees(), 2),
			})
		}
	}
	return t, nil
}
