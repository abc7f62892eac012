package motion

import (
	"fmt"
	"slices"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// letter names an engine of several.
func (m Motion) letter(n int) string { return string(rune('A' + n)) }

// late writes an angle from TDC with its sign, as it was typed.
func late(u geometry.Angle) string {
	if u > 0 {
		return "+" + words.Plain(u.Degrees())
	}
	return words.Plain(u.Degrees())
}

func (e engine) downstroke() geometry.Angle { return e.BDC() - e.TDC() }

// motionTable is one engine by crank angle.
func (m Motion) motionTable() doc.Table {
	e := m.engines[0]
	unit := m.bench().Unit()
	t := doc.Table{Header: []string{"Angle, deg", "drop, " + unit, unit + "/deg"}}
	if m.rpm > 0 {
		t.Header = append(t.Header, m.speedUnit())
	}
	switch {
	case e.cylinder != nil:
		t.Header = append(t.Header, "volume, "+m.volumeUnit())
	case e.bore > 0:
		t.Header = append(t.Header, "swept, "+m.volumeUnit())
	}
	t.Header = append(t.Header, "cosine, "+unit, "off BDC, "+unit)
	for _, u := range m.angles {
		r := m.row(e, u)
		row := []string{late(u), m.length(e, r.drop), m.slope(e, r.slope)}
		if r.speed != nil {
			row = append(row, m.speed(*r.speed))
		}
		switch {
		case r.volume != nil:
			row = append(row, m.volume(e, *r.volume))
		case r.swept != nil:
			row = append(row, m.volume(e, *r.swept))
		}
		t.Rows = append(t.Rows, append(row, m.length(e, r.cosine), m.length(e, r.riseAtBDC)))
	}
	return t
}

// engineTable is what the engines are.
func (m Motion) engineTable() doc.Table {
	bench := m.bench()
	in := ", " + bench.Unit()
	named, offset := m.offsets()
	t := doc.Table{Header: []string{"Engine", "stroke" + in, "rod" + in, named + in, "travel" + in, "TDC, deg", "down, deg"}}
	for n, e := range m.engines {
		t.Rows = append(t.Rows, []string{
			m.letter(n), bench.Number(2 * e.Throw()), bench.Number(e.Rod()),
			bench.Number(offset(e)), words.Fixed(bench.In(e.Stroke()), 3), words.Signed(e.TDC().Degrees(), 2), words.Fixed(e.downstroke().Degrees(), 2),
		})
	}
	return t
}

// offsets is the offset that tells the engines apart, with the sign that it was typed with: the
// piston pin's or the bore's where no engine has the other, and else both together.
func (m Motion) offsets() (named string, of func(engine) geometry.Length) {
	has := func(of func(engine) geometry.Length) bool {
		return slices.ContainsFunc(m.engines, func(e engine) bool { return of(e) != 0 })
	}
	pin := func(e engine) geometry.Length { return e.pinOffset }
	bore := func(e engine) geometry.Length { return e.boreOffset }
	switch {
	case has(pin) && !has(bore):
		return "pin offset", pin
	case has(bore) && !has(pin):
		return "bore offset", bore
	}
	return "offset", engine.Offset
}

// sideBySide is one quantity of every engine by crank angle.
func (m Motion) sideBySide(what string, of func(motionRow, engine) string) doc.Table {
	t := doc.Table{Header: []string{what + " at deg"}}
	for n := range m.engines {
		t.Header = append(t.Header, m.letter(n))
	}
	for _, u := range m.angles {
		row := []string{late(u)}
		for _, e := range m.engines {
			row = append(row, of(m.row(e, u), e))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// dwellTable is how long the pistons stay near the ends of their strokes.
func (m Motion) dwellTable() (doc.Table, error) {
	t := doc.Table{Header: []string{"Dwell within", "from, deg", "to, deg", "whole, deg", "cosine, deg", "at BDC, deg"}}
	for _, within := range m.within {
		for n, e := range m.engines {
			d, err := e.dwell(within)
			if err != nil {
				return t, err
			}
			name := words.Plain(m.bench().In(within)) + " " + m.bench().Unit() // as it was typed
			if len(m.engines) > 1 {
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

// bench is how a person reads lengths: in millimetres or inches. JSON and CSV are in
// millimetres whatever it is.
func (m Motion) bench() words.Bench { return words.Bench{Inches: m.inches} }

// length writes a drop with the decimals that suit the engine's size: a hundred
// thousandth of its stroke.
func (m Motion) length(e engine, l geometry.Length) string {
	return words.Fixed(m.bench().In(l), m.places(e))
}

// slope is written to the same place as a drop.
func (m Motion) slope(e engine, s geometry.Slope) string {
	return words.Fixed(m.bench().PerDegree(s), m.places(e))
}

func (m Motion) places(e engine) int { return words.Decimals(m.bench().In(e.Throw()) / 5e4) }

// speedUnit is that of a piston's speed: feet a minute where lengths are inches
// (common practice, no source).
func (m Motion) speedUnit() string {
	if m.inches {
		return "ft/min"
	}
	return "m/s"
}

// speed writes a speed of so many metres a second in its unit.
func (m Motion) speed(metresPerSecond float64) string {
	if m.inches {
		return words.Fixed(metresPerSecond*60*1000/(12*geometry.Inch).Millimetres(), 0)
	}
	return words.Fixed(metresPerSecond, 2)
}

func (m Motion) volumeUnit() string {
	if m.inches {
		return "in3"
	}
	return "cm3"
}

// volume writes cubic centimetres in the unit of volume, to about a ten thousandth of
// what the engine sweeps.
func (m Motion) volume(e engine, cm3 float64) string {
	swept := e.area() * e.Stroke().Millimetres() / 1000
	if m.inches {
		inch := geometry.Inch.Millimetres() / 10
		cm3, swept = cm3/(inch*inch*inch), swept/(inch*inch*inch)
	}
	return words.Fixed(cm3, words.Decimals(swept/1e4))
}
