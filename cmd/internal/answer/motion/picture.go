package motion

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// PlotRows is how high a plot on a terminal is.
const PlotRows = 19

// Picture is drop against crank angle as SVG. An error is the chart's.
func (m Motion) Picture() ([]byte, error) {
	c := m.drops()
	first := m.engines[0]
	if len(c.Series) < draw.SeriesStyles && m.sameStroke() {
		c.Series = append(c.Series, m.curve("pure cosine", first.cosineDrop))
	}
	if len(m.engines) == 1 {
		c.Series = append(c.Series, m.curve("BDC, turned over", func(u geometry.Angle) geometry.Length {
			return m.row(first, u).riseAtBDC
		}))
	}
	if err := m.dwellBand(&c); err != nil {
		return nil, err
	}
	return c.SVG()
}

// drops is a chart of every engine's drop, growing downward as the piston does.
func (m Motion) drops() chart.Chart {
	var names []string
	var curves []chart.Series
	for n, e := range m.engines {
		names = append(names, m.name(n))
		curves = append(curves, m.curve(names[n], func(u geometry.Angle) geometry.Length { return e.Drop(u) }))
	}
	return chart.Chart{
		Series: curves,
		Title:  "How far the piston is below its highest point",
		Description: fmt.Sprintf("Drop in %s, growing downward, against crank degrees from TDC, from %s to %s. %s.",
			m.lengths(), words.Plain(m.from.Degrees()), words.Plain(m.to.Degrees()), strings.Join(names, "; ")),
		X: chart.Axis{Label: "crank degrees from TDC, late positive", From: m.from.Degrees(), To: m.to.Degrees(), Angle: true},
		Y: chart.Axis{Label: "drop, " + m.bench().Unit(), Down: true},
	}
}

// lengths names the unit in full, for somebody to whom the description is read.
func (m Motion) lengths() string {
	if m.inches {
		return "inches"
	}
	return "millimetres"
}

// curve is a series in steps too short to be seen.
func (m Motion) curve(name string, of func(geometry.Angle) geometry.Length) chart.Series {
	const steps = 160
	s := chart.Series{Name: name, Line: true}
	for i := range steps + 1 {
		u := m.from + (m.to-m.from)*geometry.Angle(i)/steps
		s.Points = append(s.Points, chart.Point{X: u.Degrees(), Y: m.bench().In(of(u))})
	}
	return s
}

// dwellBand shades the widest dwell asked for, of a single engine.
func (m Motion) dwellBand(c *chart.Chart) error {
	if len(m.engines) > 1 || len(m.within) == 0 {
		return nil
	}
	within := slices.Max(m.within)
	d, err := m.engines[0].dwell(within)
	if err == nil && d.before > m.from && d.after < m.to {
		c.Upright = []chart.Band{{From: d.before.Degrees(), To: d.after.Degrees(),
			Label: fmt.Sprintf("within %s: %s deg", m.bench().Stated(within), words.Fixed(d.total().Degrees(), 1))}}
	}
	return err
}

func (m Motion) sameStroke() bool {
	return !slices.ContainsFunc(m.engines, func(e engine) bool { return e.Throw() != m.engines[0].Throw() })
}

// name says what tells an engine from the others.
func (m Motion) name(n int) string {
	var parts []string
	for _, p := range []struct {
		what string
		of   func(engine) geometry.Length
	}{
		{"stroke", func(e engine) geometry.Length { return 2 * e.Throw() }},
		{"rod", func(e engine) geometry.Length { return e.Rod() }},
		{"pin offset", func(e engine) geometry.Length { return e.pinOffset }},
		{"bore offset", func(e engine) geometry.Length { return e.boreOffset }},
		{"bore", func(e engine) geometry.Length { return e.bore }},
	} {
		if slices.ContainsFunc(m.engines, func(other engine) bool { return p.of(other) != p.of(m.engines[0]) }) {
			parts = append(parts, fmt.Sprintf("%s %s", p.what, m.bench().Number(p.of(m.engines[n]))))
		}
	}
	switch {
	case len(m.engines) == 1:
		return "drop"
	case len(parts) == 0:
		return "engine " + m.letter(n)
	}
	return strings.Join(parts, ", ") + " " + m.bench().Unit()
}
