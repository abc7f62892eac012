package find

import (
	"fmt"
	"path/filepath"
	"slices"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
)

// LobePair is an exhaust and an inlet lobe of one cylinder.
type LobePair struct {
	Cylinder       int
	Exhaust, Inlet string // their names
	lobe.Pair
}

// measureLobes is what the job's lobes say by cylinder 1's TDC, and by the throw of their
// own cylinder: so they share that TDC with every other mark.
func (f *Answer) measureLobes(result tdc.Result) error {
	for _, l := range f.Job.Lobes {
		r, read := result.OfSet(l.Set)
		if !read {
			return f.Job.Locate(mark.NotInSet(l.Mark(), result.Number))
		}
		m, err := healthy.Hold(lobe.Measure(f.Job.Setup.Protractor, lobe.From{Result: r, Throw: f.throw(l.Cylinder)}, l), f.healthy)
		if err != nil {
			return f.Job.Locate(mark.OfLobe(l.Mark(), err))
		}
		f.Lobes = append(f.Lobes, m)
	}
	for _, exhaust := range f.Lobes {
		for _, inlet := range f.Lobes {
			if pair, ok := lobe.Paired(exhaust, inlet); ok {
				f.LobePairs = append(f.LobePairs, LobePair{exhaust.Cylinder, exhaust.Name, inlet.Name, pair})
			}
		}
	}
	return nil
}

// throw is how far after cylinder 1's the TDC of another comes, by its nominal throw.
func (f Answer) throw(number int) geometry.Angle {
	for _, c := range f.Job.Cylinders {
		if c.Number == number {
			return c.Throw
		}
	}
	return 0
}

// allMarks is the job's marks, and its lobes that say where their cams stand.
func (f Answer) allMarks() []mark.Mark {
	list := slices.Clone(f.Job.Marks)
	for _, m := range f.Lobes {
		if k, says := m.Mark(); says {
			list = append(list, k)
		}
	}
	return list
}

// checkLobes is what is wrong with the members that lobes are on, measured or not.
func (f Answer) checkLobes() error {
	list := slices.Clone(f.Job.Marks)
	for _, l := range f.Job.Lobes {
		list = append(list, l.Mark())
	}
	return mark.Check(f.Job.Drive, list)
}

// lobeFindings is what was found of the lobes.
func (f Answer) lobeFindings() (list []finding.Finding) {
	for _, m := range f.Lobes {
		list = append(list, m.Findings...)
	}
	return list
}

// lobeWarnings is what of that has to be seen to, each with its lobe.
func (f Answer) lobeWarnings() (list []string) {
	for _, n := range f.lobeFindings() {
		if n.Cure() != finding.None {
			list = append(list, f.bench().Named(n))
		}
	}
	return list
}

// lobes adds what the lobes do: events, lean and missing lift, and pairs.
func (f Answer) lobes(d *doc.Document) {
	if len(f.Lobes) == 0 {
		return
	}
	d.Section("The cam lobes")
	d.Table(f.eventTable())
	d.Table(f.liftTable())
	d.Table(f.pairTable())
	for _, n := range f.lobeFindings() {
		if n.Cure() == finding.None {
			d.Say(f.bench().Named(n))
		}
	}
	d.SayAs(doc.Quiet, "Crank degrees at the checking lift, from the TDC between the exhaust's closing and the inlet's opening; ± (95 %). "+
		"Lean is by how many degrees the middle moves in 100 of duration. How late a lobe is allows for lift that is missing all over the lobe, by lash, wear or the gauge's zero, which moves opening and closing apart; a moved cam moves them together.")
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
			t.Rows = append(t.Rows, []string{m.Name, f.bench().Depth(e.Lift), words.EventWithin(e.Opens.Estimate), words.EventWithin(e.Closes.Estimate),
				within(e.Duration.Estimate, degrees), words.CentreWithin(e.Centre.Estimate)})
		} else {
			t.Rows = append(t.Rows, []string{m.Name, f.bench().Depth(m.Checking()), "", "", "", "not determined"})
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
				missing = f.bench().SignedDepth(geometry.Length(m.Shift.Offset.Value)) + " ± " + f.bench().Depth(geometry.Length(2*m.Shift.Offset.Uncertainty))
			}
		}
		if m.Lean != nil {
			lean = words.Signed(100*m.Lean.Lambda.Value, 1) + " ± " + words.Fixed(200*m.Lean.Lambda.Uncertainty, 1)
		}
		if m.Events != nil {
			t.Rows = append(t.Rows, []string{m.Name, shift, missing, f.bench().Depth(m.Top), lean})
		}
	}
	return t
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
	b := f.bench()
	text := words.Count(len(m.Readings), "reading")
	if len(m.Readings) > 0 {
		text += " in " + legible.Undirected(filepath.Base(m.Readings[0].File))
	}
	text += fmt.Sprintf("; %s valve of cylinder %d, checking lift %s", m.Valve, m.Cylinder, b.Stated(m.Card.Lift))
	switch c := m.Card; {
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
