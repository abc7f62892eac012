package find

import (
	"fmt"
	"path/filepath"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// lobeWarnings is what of that has to be seen to, each with its lobe.
func (f Answer) lobeWarnings() (list []string) {
	for _, n := range f.OfLobes() {
		if n.Cure() != finding.None {
			list = append(list, f.Bench().Named(n))
		}
	}
	return list
}

// lobes adds what the lobes do: events, lean and missing lift, and pairs.
func (f Answer) lobes(d *doc.Document, draw drawing) {
	if len(f.Lobes) == 0 {
		return
	}
	d.Section("The cam lobes")
	draw.lobes(d, f)
	d.Table(f.eventTable())
	d.Table(f.liftTable())
	d.Table(f.pairTable())
	for _, n := range f.OfLobes() {
		if n.Cure() == finding.None {
			d.Say(f.Bench().Named(n))
		}
	}
	d.SayAs(doc.Quiet, "Crank degrees at the checking lift, from the TDC between the exhaust's closing and the inlet's opening; ± (95 %). "+
		"Lean: how many degrees the middle moves for each 100 deg of duration. How late a lobe is allows for lift that is missing all over it, by lash, wear or the gauge's zero. Missing lift moves opening and closing apart; a moved cam moves them together.")
}

// within is an angle of a lobe with its uncertainty; angles by at.
func within(e gum.Estimate, at func(geometry.Angle, int) string) string {
	places := words.Decimals(e.Expanded.Degrees())
	return at(e.Angle, places) + " ± " + words.Fixed(e.Expanded.Degrees(), places)
}

// degrees is an angle in degrees.
func degrees(a geometry.Angle, places int) string { return words.Fixed(a.Degrees(), places) }

// eventTable is when the lobes open and close.
func (f Answer) eventTable() doc.Table {
	t := doc.Table{Caption: "Lobes: events", Header: []string{"Lobe, crank deg", "at a lift of", "opens", "closes", "duration", "centre"}}
	for _, m := range f.Lobes {
		if e := m.Events; e != nil {
			t.Rows = append(t.Rows, []string{f.LobeName(m), f.Bench().Depth(e.Lift), words.EventWithin(e.Opens.Estimate), words.EventWithin(e.Closes.Estimate),
				within(e.Duration.Estimate, degrees), words.CentreWithin(e.Centre.Estimate)})
		} else {
			t.Rows = append(t.Rows, []string{f.LobeName(m), f.Bench().Depth(m.Checking()), "", "", "", "not determined"})
		}
	}
	return t
}

// liftTable is how late the lobes are, and what their lifts say.
func (f Answer) liftTable() doc.Table {
	t := doc.Table{Caption: "Lobes: shift and lift", Header: []string{"Lobe", "late by, deg", "lift missing", "top", "lean"}}
	for _, m := range f.Lobes {
		shift, missing, lean := "", "", ""
		if m.Shift != nil {
			shift = within(m.Shift.Estimate, func(a geometry.Angle, places int) string { return words.Signed(a.Degrees(), places) })
			if m.Shift.Offset != nil {
				missing = f.Bench().SignedDepth(geometry.Length(m.Shift.Offset.Value)) + " ± " + f.Bench().Depth(geometry.Length(2*m.Shift.Offset.Uncertainty))
			}
		}
		if m.Lean != nil {
			lean = words.Signed(100*m.Lean.Lambda.Value, 1) + " ± " + words.Fixed(200*m.Lean.Lambda.Uncertainty, 1)
		}
		if m.Events != nil {
			t.Rows = append(t.Rows, []string{f.LobeName(m), shift, missing, f.topOf(m), lean})
		}
	}
	return t
}

// topOf is a lobe's greatest lift; where the top was not read, over what was.
func (f Answer) topOf(m lobe.Measured) string {
	top := f.Bench().Depth(m.Top)
	if !m.TopRead() {
		return "over " + top
	}
	return top
}

// pairTable is separation and overlap of the lobes of each cylinder.
func (f Answer) pairTable() doc.Table {
	t := doc.Table{Caption: "Lobes of one cylinder", Header: []string{"Exhaust and inlet", "separation, cam deg", "overlap, crank deg"}}
	for _, p := range f.LobePairs {
		t.Rows = append(t.Rows, []string{p.Exhaust + " and " + p.Inlet, within(p.Separation, degrees), within(p.Overlap, degrees)})
	}
	return t
}

// lobeText is what a lobe's answer rests on.
func (f Answer) lobeText(m lobe.Measured) string {
	b := f.Bench()
	text := words.Count(len(m.Readings), "reading")
	if len(m.Readings) > 0 {
		text += " in " + legible.Undirected(filepath.Base(m.Readings[0].File))
	}
	text += fmt.Sprintf("; %s valve of cylinder %d, checking lift %s", m.Valve, m.Cylinder, b.Stated(m.Card.Lift))
	switch c := m.Card; {
	case m.Shift != nil && m.Shift.Healthy && m.Shift.Engines > 1:
		text += fmt.Sprintf(", compared with the mean of %d healthy engines'", m.Shift.Engines)
	case m.Shift != nil && m.Shift.Healthy:
		text += ", compared with a healthy engine's"
	case c.HasEvents:
		t := lobe.Timed(c.Opens, c.Closes)
		text += fmt.Sprintf(", card: opens %s, closes %s", words.Event(t.Opens), words.Event(t.Closes))
	case c.HasCentre:
		text += ", card: centre " + words.Centre(c.Centre.Signed())
	default:
		text += ", no card"
	}
	if m.Ratio != 0 {
		text += ", ratio " + words.Plain(m.Ratio)
	}
	if m.Lash != 0 {
		text += ", lash " + b.Stated(m.Lash)
	}
	if m.Slack != 0 {
		text += ", slack of the drive " + words.Plain(m.Slack.Degrees()) + " deg"
	}
	g := m.Gauge
	return text + fmt.Sprintf("; gauge read to %s, its own error up to %s, run-out %s, scale known to ± %s %%",
		b.Stated(g.Step), b.Stated(g.Error), b.Stated(g.RunOut), words.Plain(100*g.ScaleKnownTo))
}
