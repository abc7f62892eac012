package data

import (
	"evendrop/cmd/internal/form"
	"evendrop/fit/gum"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
)

// lobeOf is a cam lobe; events are crank degrees after the TDC of its cylinder between
// the exhaust's closing and the inlet's opening.
type lobeOf struct {
	Name     string  `json:"name"`
	On       string  `json:"on" doc:"the member that carries it"`
	Valve    string  `json:"valve" enum:"inlet|exhaust"`
	Cylinder int     `json:"cylinder"`
	Set      int     `json:"set" doc:"of the protractor, that it was read in"`
	Lift     float64 `json:"lift_mm" doc:"the checking lift, as the gauge shows it"`
	Top      float64 `json:"top_mm" doc:"the greatest lift read"`

	Opens               *float64 `json:"opens_deg" doc:"after TDC; null: cannot_tell"`
	OpensUncertainty    *float64 `json:"opens_standard_uncertainty_deg"`
	Closes              *float64 `json:"closes_deg" doc:"after TDC; null: cannot_tell"`
	ClosesUncertainty   *float64 `json:"closes_standard_uncertainty_deg"`
	Duration            *float64 `json:"duration_deg" doc:"null: cannot_tell"`
	DurationUncertainty *float64 `json:"duration_standard_uncertainty_deg"`
	Centre              *float64 `json:"centre_deg" doc:"the middle of opening and closing, after TDC; null: cannot_tell"`
	CentreUncertainty   *float64 `json:"centre_standard_uncertainty_deg"`

	Shift             *float64 `json:"shift_deg" doc:"late positive; null: nothing to compare with, or no events"`
	ShiftUncertainty  *float64 `json:"shift_standard_uncertainty_deg"`
	ShiftExpanded     *float64 `json:"shift_expanded_uncertainty_deg" doc:"half-width of the 95 % interval"`
	Offset            *float64 `json:"lift_offset_mm" doc:"lift that is missing all over the lobe, positive; null: nothing to tell it by"`
	OffsetUncertainty *float64 `json:"lift_offset_standard_uncertainty_mm"`
	Lean              *float64 `json:"lean" doc:"degrees that the middle moves a degree of duration; null: too few levels"`
	LeanUncertainty   *float64 `json:"lean_standard_uncertainty"`
	Verdict           *string  `json:"verdict" enum:"within|outside|too close to call" doc:"null: no limit was given, or nothing to compare with"`
	Which             *string  `json:"piston_tdc" enum:"firing|overlap" doc:"about which of a cycle's TDCs the piston was read; null: the protractor cannot tell"`
	CannotTell        *string  `json:"cannot_tell" doc:"why there are no events; null when there are"`

	Levels   []lobeLevel    `json:"levels" doc:"middles between two angles of equal lift"`
	Readings []liftReading  `json:"readings"`
	Warnings []string       `json:"warnings"`
	Findings []form.Finding `json:"findings" doc:"warnings, with their numbers"`
}

// lobeLevel is the middle at a lift.
type lobeLevel struct {
	Lift        float64 `json:"lift_mm"`
	Middle      float64 `json:"middle_deg" doc:"after TDC"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Duration    float64 `json:"duration_deg"`
	Apart       bool    `json:"apart" doc:"it does not lie on the line of the others, and was left out"`
}

// liftReading is a lift as it was read.
type liftReading struct {
	File  string  `json:"file"`
	Line  int     `json:"line"`
	Angle float64 `json:"angle_deg" doc:"as the protractor shows it"`
	Lift  float64 `json:"lift_mm"`
	Turn  string  `json:"turn"`
}

// lobePair is an exhaust and an inlet lobe of one cylinder.
type lobePair struct {
	Cylinder              int     `json:"cylinder"`
	Exhaust               string  `json:"exhaust" doc:"the lobe's name"`
	Inlet                 string  `json:"inlet" doc:"the lobe's name"`
	Separation            float64 `json:"separation_cam_deg"`
	SeparationUncertainty float64 `json:"separation_standard_uncertainty_cam_deg"`
	Overlap               float64 `json:"overlap_deg" doc:"crank degrees; negative: neither is open"`
	OverlapUncertainty    float64 `json:"overlap_standard_uncertainty_deg"`
}

func (f encoder) lobes() []lobeOf {
	list := []lobeOf{}
	for _, m := range f.Lobes {
		j := lobeOf{
			Name: m.Name, On: m.On, Valve: string(m.Valve), Cylinder: m.Cylinder, Set: evidence.SetOf(m.Set),
			Lift: m.Checking().Millimetres(), Top: m.Top.Millimetres(), Which: said(string(m.Which)),
			Levels: []lobeLevel{}, Readings: []liftReading{}, Warnings: f.Bench().Findings(m.Findings),
			Findings: form.Findings(m.Findings, f.Bench().Finding),
		}
		if m.CannotTell != nil {
			j.CannotTell = said(f.Bench().Finding(m.CannotTell))
		}
		j.measured(m)
		j.Verdict = f.lobeVerdict(m.Name)
		for _, l := range m.Levels {
			j.Levels = append(j.Levels, lobeLevel{l.Lift.Millimetres(), l.Midpoint.Angle.Degrees(), l.Midpoint.Uncertainty.Degrees(), l.Duration.Degrees(), l.Apart})
		}
		for _, r := range m.Readings {
			j.Readings = append(j.Readings, liftReading{r.File, r.Line, f.Shown(r.Angle).Degrees(), r.Lift.Millimetres(), r.Turn.String()})
		}
		list = append(list, j)
	}
	return list
}

// measured adds what the lobe does, and how that compares.
func (j *lobeOf) measured(m lobe.Measured) {
	if e := m.Events; e != nil {
		j.Opens, j.OpensUncertainty = inDegrees(e.Opens.Estimate)
		j.Closes, j.ClosesUncertainty = inDegrees(e.Closes.Estimate)
		j.Duration, j.DurationUncertainty = inDegrees(e.Duration.Estimate)
		j.Centre, j.CentreUncertainty = inDegrees(e.Centre.Estimate)
	}
	if s := m.Shift; s != nil {
		j.Shift, j.ShiftUncertainty = inDegrees(s.Estimate)
		j.ShiftExpanded = form.Finite(s.Expanded.Degrees())
		if s.Offset != nil {
			j.Offset, j.OffsetUncertainty = known(*s.Offset)
		}
	}
	if m.Lean != nil {
		j.Lean, j.LeanUncertainty = known(m.Lean.Lambda)
	}
}

// inDegrees is an estimate and its standard uncertainty, in degrees.
func inDegrees(e gum.Estimate) (at, uncertainty *float64) {
	return form.Finite(e.Angle.Degrees()), form.Finite(e.Uncertainty.Degrees())
}

// lobeVerdict is that of the lobe as a mark; nil where it has none.
func (f encoder) lobeVerdict(name string) *string {
	for _, m := range f.Marks {
		if m.Lobe != nil && m.Name == name {
			return called(m.Verdict)
		}
	}
	return nil
}

func (f encoder) lobePairs() []lobePair {
	list := []lobePair{}
	for _, p := range f.LobePairs {
		list = append(list, lobePair{p.Cylinder, p.Exhaust, p.Inlet,
			p.Separation.Angle.Degrees(), p.Separation.Uncertainty.Degrees(), p.Overlap.Angle.Degrees(), p.Overlap.Uncertainty.Degrees()})
	}
	return list
}
