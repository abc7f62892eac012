package edges

import (
	"math"
	"strconv"

	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/timing"
)

type edgesJSON struct {
	form.Head
	Wheel        string         `json:"wheel"`
	Intervals    string         `json:"wheel_intervals_deg" doc:"from edge to edge, from the first after the gap, as --wheel takes them"`
	TeethPerTurn int            `json:"teeth_per_turn"`
	Gaps         []gapJSON      `json:"gaps" doc:"intervals longer than a pitch"`
	EqualParts   int            `json:"equal_parts" doc:"parts of a turn that look alike; 1 where the wheel tells the turn"`
	PartsTold    bool           `json:"parts_told_apart" doc:"false where nothing tells equal parts apart: tooth 1 is then the first of any"`
	Capture      string         `json:"capture" enum:"samples|list of changes"`
	Bounce       int            `json:"bounces_ignored"`
	Repeat       *float64       `json:"teeth_repeat_deg" doc:"median standard deviation of the teeth from turn to turn; null when unknown"`
	CrankKind    string         `json:"crank_kind"`
	CrankEdge    string         `json:"crank_edge"`
	TurnsUsed    int            `json:"turns_used"`
	TurnsLeftOut int            `json:"turns_left_out"`
	RPMMin       float64        `json:"rpm_min"`
	RPMMax       float64        `json:"rpm_max"`
	Period       float64        `json:"period_deg"`
	Edges        []edgeJSON     `json:"edges"`
	Rough        []roughJSON    `json:"rough_teeth"`
	Against      *againstJSON   `json:"against"`
	Notes        []string       `json:"notes"`
	Findings     []form.Finding `json:"findings" doc:"the notes with their numbers"`
	Caution      string         `json:"caution"`
}

type edgeJSON struct {
	Channel   int      `json:"channel"`
	Name      string   `json:"name"`
	Kind      string   `json:"kind"`
	Angle     float64  `json:"crank_deg_after_gap"`
	Teeth     float64  `json:"teeth_after_gap"`
	Deviation *float64 `json:"standard_deviation_deg"`
	Count     int      `json:"count"`
}

// gapJSON is a gap: the tooth before it, from 1, and the angle from there to the
// next.
type gapJSON struct {
	Tooth int     `json:"after_tooth" doc:"from 1, the first after the gap"`
	Gap   float64 `json:"gap_deg"`
}

// gapsOf are the intervals of a wheel that are no pitch, in order.
func gapsOf(w wheel.Wheel) []gapJSON {
	var out []gapJSON
	for i, a := range w.Intervals {
		if a > w.Pitch()*geometry.Angle(math.Sqrt2) {
			out = append(out, gapJSON{i + 1, a.Degrees()})
		}
	}
	return out
}

// captureName says how a capture was recorded.
func captureName(changes bool) string {
	if changes {
		return "list of changes"
	}
	return "samples"
}

type roughJSON struct {
	Tooth int     `json:"tooth"`
	Off   float64 `json:"off_deg"`
}

type againstJSON struct {
	File     string         `json:"file"`
	Finding  string         `json:"finding"`
	Findings []form.Finding `json:"findings"`
	Shifts   []shiftJSON    `json:"shifts"`
	Notes    []string       `json:"notes"`
}

type shiftJSON struct {
	Channel     int      `json:"channel"`
	Kind        string   `json:"kind"`
	Before      float64  `json:"before_deg"`
	After       float64  `json:"after_deg"`
	Shift       float64  `json:"shift_deg"`
	Uncertainty *float64 `json:"standard_uncertainty_deg"`
	Expanded    *float64 `json:"expanded_uncertainty_deg"`
	Moved       *bool    `json:"moved"`
}

// JSON is the answer as JSON.
func (e Edges) JSON() ([]byte, error) {
	r := e.result
	out := edgesJSON{
		Head: form.Format1, Wheel: r.Wheel.Name, Intervals: r.Wheel.List(), TeethPerTurn: r.Wheel.Teeth(),
		Gaps: gapsOf(r.Wheel), EqualParts: r.Wheel.Parts(), PartsTold: r.PartsTold,
		Capture: captureName(r.Changes), Bounce: r.Bounce, Repeat: form.Finite(r.Repeat.Degrees()),
		CrankKind: string(r.CrankKind), CrankEdge: string(r.CrankEdge), TurnsUsed: r.TurnsUsed, TurnsLeftOut: r.TurnsLeftOut,
		RPMMin: r.RPMMin, RPMMax: r.RPMMax, Period: r.Period.Degrees(),
		Edges: []edgeJSON{}, Rough: []roughJSON{}, Notes: sentences(r.Notes), Findings: form.Findings(r.Notes, worded), Caution: captureCaution,
	}
	for _, g := range r.Edges {
		out.Edges = append(out.Edges, edgeJSON{
			g.Channel, g.Name, string(g.Kind), g.Angle.Degrees(), g.Teeth, form.Finite(g.Deviation.Degrees()), g.Count,
		})
	}
	for _, t := range r.Rough {
		out.Rough = append(out.Rough, roughJSON{t.Tooth + 1, t.Off.Degrees()})
	}
	if c := e.comparison; c != nil {
		out.Against = &againstJSON{File: e.against, Finding: worded(c.Finding), Notes: sentences(c.Notes)}
		out.Against.Findings = form.Findings(append([]finding.Finding{c.Finding}, c.Notes...), worded)
		for _, s := range c.Shifts {
			out.Against.Shifts = append(out.Against.Shifts, shiftOf(s))
		}
	}
	return form.JSON(out)
}

func shiftOf(s compare.Shift) shiftJSON {
	j := shiftJSON{
		Channel: s.Edge.Channel, Kind: string(s.Edge.Kind), Before: s.Before.Degrees(), After: s.Edge.Angle.Degrees(), Shift: s.Angle.Degrees(),
		Uncertainty: form.Finite(s.Uncertainty.Degrees()), Expanded: form.Finite(s.Expanded.Degrees()),
	}
	if j.Expanded != nil {
		j.Moved = new(s.Moved())
	}
	return j
}

// CSV is the answer as a table of edges, with their shifts where there are any.
func (e Edges) CSV() ([]byte, error) {
	rows := [][]string{{
		"channel", "name", "kind", "crank_deg_after_gap", "teeth_after_gap", "standard_deviation_deg", "count",
		"before_deg", "shift_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg",
	}}
	for _, g := range e.result.Edges {
		row := []string{
			strconv.Itoa(g.Channel), g.Name, string(g.Kind), form.Digits(g.Angle.Degrees()), form.Digits(g.Teeth), orEmpty(g.Deviation), strconv.Itoa(g.Count),
		}
		rows = append(rows, append(row, e.shiftCells(g)...))
	}
	return form.CSV(rows)
}

// shiftCells are an edge's shift; empty cells where it has none.
func (e Edges) shiftCells(g timing.Edge) []string {
	if e.comparison != nil {
		for _, s := range e.comparison.Shifts {
			if s.Edge.Channel == g.Channel && s.Edge.Kind == g.Kind && s.Edge.Angle == g.Angle {
				return []string{form.Digits(s.Before.Degrees()), form.Digits(s.Angle.Degrees()), orEmpty(s.Uncertainty), orEmpty(s.Expanded)}
			}
		}
	}
	return []string{"", "", "", ""}
}

// orEmpty is an angle in degrees, or nothing where it is unknown.
func orEmpty(a geometry.Angle) string { return form.Known(form.Finite(a.Degrees())) }
