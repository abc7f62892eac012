package edges

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/timing"
)

// Edges is the answer about a capture of crank and cam signals.
type Edges struct {
	file       string
	result     timing.Result
	against    string              // the earlier capture's file; "" without one
	comparison *compare.Comparison // with it; nil without one
	gap        *gap                // where the gap was read on a protractor; nil when it was not
	on         []string            // the members that carry the cam wheels; may be empty
}

// captureCaution stands under every answer about a capture.
const captureCaution = "Caution: never start or crank an engine for a capture where its drive may have slipped or liquid may be in it. " +
	"Keep clear of what turns; the maker's data come first. A capture shows cams against the crank wheel, not against the piston: " +
	"condemn nothing by it before TDC is found. All cautions: evendrop cautions"

// Document is the answer in words.
func (e Edges) Document() doc.Document {
	var d doc.Document
	d.Say(e.sentence())
	d.Say(e.gaps())
	if c := e.comparison; c != nil {
		d.Say(worded(c.Finding))
		d.Table(shiftTable(c.Shifts))
	}
	d.Table(edgeTable(e.result.Edges))
	d.List(e.notes())
	d.Say(captureCaution)
	return d
}

func worded(f finding.Finding) string { return words.Bench{}.Finding(f) }

// notes are what to bear in mind, of one capture and then of both.
func (e Edges) notes() []string {
	notes := sentences(e.result.Notes)
	if e.comparison != nil {
		notes = append(notes, sentences(e.comparison.Notes)...)
	}
	return notes
}

// sentences are findings in words, none of none.
func sentences(list []finding.Finding) []string {
	out := make([]string, 0, len(list))
	for _, f := range list {
		out = append(out, worded(f))
	}
	return out
}

// sentence says what was read and how good it is.
func (e Edges) sentence() string {
	r := e.result
	text := fmt.Sprintf("%d teeth a turn (%s), %d turns used, %d left out, %.0f to %.0f rev/min.",
		r.Wheel.Teeth(), r.Wheel.Name, r.TurnsUsed, r.TurnsLeftOut, r.RPMMin, r.RPMMax)
	if r.Changes {
		text += " The file is a list of changes: each row's time is taken as an edge."
	}
	return text + fmt.Sprintf(" The crank signal is %s; 0 deg is its first %s edge after the gap.", r.CrankKind, r.CrankEdge)
}

// gaps says where the wheel's gaps are, and how well its teeth repeat.
func (e Edges) gaps() string {
	var places []string
	for _, g := range gapsOf(e.result.Wheel) {
		places = append(places, fmt.Sprintf("of %s deg after tooth %d", words.Plain(g.Gap), g.Tooth))
	}
	text := fmt.Sprintf("The gap is %s.", places[0])
	if len(places) > 1 {
		text = fmt.Sprintf("The gaps are %s.", words.And(places))
	}
	if repeat := e.result.Repeat; told(repeat) {
		text += fmt.Sprintf(" A tooth repeats within %s deg from turn to turn.", spread(repeat))
	}
	return text
}

// spread is a standard deviation in degrees, to hundredths.
func spread(deviation geometry.Angle) string {
	if deviation < geometry.Degree/200 {
		return "under 0.01"
	}
	return words.Fixed(deviation.Degrees(), 2)
}

// places is how many decimals the mean of an edge deserves.
func places(e timing.Edge) int {
	return min(2, words.Decimals(2*e.Deviation.Degrees()/math.Sqrt(float64(e.Count))))
}

func edgeTable(edges []timing.Edge) doc.Table {
	t := doc.Table{Header: []string{"Column", "edge", "crank deg after gap", "in teeth", "scatter, deg", "times seen"}}
	for _, e := range edges {
		deviation := "-"
		if e.Count > 1 {
			deviation = spread(e.Deviation)
		}
		t.Rows = append(t.Rows, []string{
			named(e), string(e.Kind), words.Fixed(e.Angle.Degrees(), places(e)), words.Fixed(e.Teeth, 2), deviation, strconv.Itoa(e.Count),
		})
	}
	return t
}

// named is an edge's column with its heading.
func named(e timing.Edge) string {
	if e.Name == "" {
		return strconv.Itoa(e.Channel)
	}
	return fmt.Sprintf("%d %.20s", e.Channel, e.Name)
}

func shiftTable(shifts []compare.Shift) doc.Table {
	t := doc.Table{Header: []string{"Column", "edge", "before, deg", "now, deg", "moved, deg", "± (95 %)"}}
	for _, s := range shifts {
		n, plusMinus := 2, "unknown"
		if told(s.Expanded) {
			n = min(2, words.Decimals(s.Expanded.Degrees()))
			plusMinus = words.Fixed(s.Expanded.Degrees(), n)
		}
		t.Rows = append(t.Rows, []string{
			named(s.Edge), string(s.Edge.Kind), words.Fixed(s.Before.Degrees(), n), words.Fixed(s.Edge.Angle.Degrees(), n), words.Signed(s.Angle.Degrees(), n), plusMinus,
		})
	}
	return t
}

func told(a geometry.Angle) bool { return form.Finite(a.Degrees()) != nil }
