package find

import (
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
	"evendrop/tdc/slip"
)

type cylinderJSON struct {
	Number                int            `json:"number"`
	TDC                   foundJSON      `json:"tdc"`
	Sets                  []setJSON      `json:"sets" doc:"TDC on each setting of the protractor, the last one's being tdc"`
	CannotTell            *string        `json:"cannot_tell" doc:"why tdc is not an answer to go by; null: it is one"`
	Moved                 float64        `json:"moved_probability" doc:"that something moved while the readings were taken; 0: too few readings to tell"`
	SessionSlip           *movedJSON     `json:"session_slip" doc:"what moved while the readings were taken: tdc is what holds at their end; null: nothing is found to have"`
	Methods               []methodJSON   `json:"methods"`
	Agreement             *agreementJSON `json:"agreement" doc:"equal drop against curve fit; null: one of them has no answer"`
	Midpoints             *midpointsJSON `json:"midpoints" doc:"how the midpoints of equal drop go with the drop; null: no depth was read on both sides"`
	CrownDepth            *float64       `json:"crown_depth_mm" doc:"what the gauge shows at TDC; null: no depth was read"`
	CrownDepthUncertainty *float64       `json:"crown_depth_standard_uncertainty_mm"`
	Lash                  *float64       `json:"lash_mm" doc:"null: nothing read depends on it"`
	LashUncertainty       *float64       `json:"lash_standard_uncertainty_mm"`
	Scale                 *float64       `json:"scale" doc:"of the gauge, 1 when it stands straight and the engine is as stated; null: no depth was read"`
	ScaleUncertainty      *float64       `json:"scale_standard_uncertainty"`
	Dwell                 *seenJSON      `json:"dwell" doc:"what the dwell pairs say of the eye; null: none were seen"`
	Budget                []SourceJSON   `json:"budget"`
	Readings              []readingJSON  `json:"readings"`
	WithAll               *tdcJSON       `json:"tdc_with_every_reading_trusted" doc:"null: no reading is suspect"`
	Trials                *trialsJSON    `json:"trials" doc:"of the whole job, by JCGM 101; null: none were asked for"`
	GoBack                *goBackJSON    `json:"go_back" doc:"what the gauge should show either side of TDC, turned forward; null: no depth was read, or in doubt which side is which"`
	Warnings              []string       `json:"warnings" doc:"of the last set"`
	Findings              []form.Finding `json:"findings" doc:"the warnings, with their numbers"`
}

type tdcJSON struct {
	Protractor  float64    `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Interval    [2]float64 `json:"interval95_deg" doc:"low and high end; may pass the end of the protractor's scale"`
	Degrees     *float64   `json:"degrees_of_freedom" doc:"null: no part of the uncertainty was estimated from scatter"`
}

type foundJSON struct {
	tdcJSON
	AgreeTo float64 `json:"readings_expanded_deg" doc:"95 % half-width of what the readings agree to, before the protractor's own error"`
}

// setJSON is a cylinder on one setting of the protractor.
type setJSON struct {
	Set        int            `json:"set"`
	TDC        foundJSON      `json:"tdc"`
	CannotTell *string        `json:"cannot_tell" doc:"why tdc is not an answer to go by; null: it is one"`
	Readings   int            `json:"readings"`
	Warnings   []string       `json:"warnings"`
	Findings   []form.Finding `json:"findings" doc:"the warnings, with their numbers"`
}

// movedJSON is what moved while the readings were taken.
type movedJSON struct {
	Kind             slip.Kind `json:"kind" enum:"protractor|gauge zero|turn"`
	After            int       `json:"after_reading" doc:"so many readings were taken before; of a turn, before the run whose turn is written wrongly"`
	To               *int      `json:"to_reading" doc:"of a turn, the last reading of the run"`
	Size             *float64  `json:"size_deg" doc:"by how much more the protractor reads since; null: it did not move"`
	Uncertainty      *float64  `json:"standard_uncertainty_deg"`
	Depth            *float64  `json:"size_mm" doc:"by how much more the gauge shows since; null: it did not move"`
	DepthUncertainty *float64  `json:"standard_uncertainty_mm"`
	Before           tdcJSON   `json:"tdc_before" doc:"what the protractor read at TDC before"`
}

type methodJSON struct {
	Name        string  `json:"name" enum:"equal drop|curve fit|stops|dwell|equal views"`
	Protractor  float64 `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Readings    int     `json:"readings" doc:"that had a part in it"`
}

type agreementJSON struct {
	Difference float64 `json:"difference_deg" doc:"equal drop less curve fit"`
	Limit      float64 `json:"limit_deg" doc:"95 % bound on it by chance"`
	Agrees     bool    `json:"agrees"`
}

type seenJSON struct {
	Resolved float64  `json:"resolved_mm" doc:"the drop at which motion was no longer seen"`
	Lag      *float64 `json:"lag_deg" doc:"how late the dwell came each way; null: it was seen turning one way only"`
}

type trialsJSON struct {
	Count       int        `json:"count"`
	Seed        uint64     `json:"seed"`
	Protractor  float64    `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Symmetric   [2]float64 `json:"interval95_deg" doc:"as much beyond either end"`
	Shortest    [2]float64 `json:"shortest95_deg" doc:"the shortest such"`
}

// midpointsJSON is how the midpoints of equal drop go with the drop.
type midpointsJSON struct {
	Pattern halve.Pattern `json:"pattern" enum:"flat|shrinking with drop|growing with drop|one level apart|none that a single cause makes|too few levels to say"`
	Lash    *float64      `json:"lash_mm" doc:"of shrinking with drop"`
	Growth  *float64      `json:"growth_deg_per_mm" doc:"of growing with drop"`
	Line    *int          `json:"line" doc:"of one level apart"`
	Levels  []levelJSON   `json:"levels"`
}

type levelJSON struct {
	Drop        float64 `json:"drop_mm"`
	Protractor  float64 `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Turn        *string `json:"turn" enum:"forward|backward" doc:"null: the flanks were read in different directions"`
}

type SourceJSON struct {
	Source       string  `json:"source"`
	Contribution float64 `json:"contribution_deg" doc:"squares add up to that of TDC's standard uncertainty"`
}

type readingJSON struct {
	File     string  `json:"file"`
	Line     int     `json:"line"`
	Angle    float64 `json:"angle_deg" doc:"as the protractor shows it"`
	Depth    float64 `json:"depth_mm" doc:"as the gauge shows it"`
	Residual float64 `json:"residual_mm" doc:"depth read less the curve's"`
	Weight   float64 `json:"weight" doc:"1 to 0"`
	Suspect  bool    `json:"suspect"`
	Set      int     `json:"set" doc:"from 1: the setting of the protractor that it was read on"`
}

// goBackJSON is what the gauge should show either side of TDC, turned forward.
type goBackJSON struct {
	Angle             float64 `json:"angle_deg" doc:"either side of TDC"`
	Before            float64 `json:"before_mm" doc:"as the gauge shows it, before TDC"`
	BeforeUncertainty float64 `json:"before_standard_uncertainty_mm"`
	After             float64 `json:"after_mm" doc:"as the gauge shows it, after TDC"`
	AfterUncertainty  float64 `json:"after_standard_uncertainty_mm"`
}

func (f Answer) cylinderJSON(r tdc.Result) cylinderJSON {
	c := cylinderJSON{
		Number: r.Number, TDC: f.foundJSON(r), CannotTell: said(f.Untold(r)),
		CrownDepth: form.Finite(r.CrownDepth.Value), CrownDepthUncertainty: form.Finite(r.CrownDepth.Uncertainty),
		Lash: form.Finite(r.Lash.Value), LashUncertainty: form.Finite(r.Lash.Uncertainty),
		Scale: form.Finite(r.Scale.Value), ScaleUncertainty: form.Finite(r.Scale.Uncertainty),
		Methods: []methodJSON{}, Budget: []SourceJSON{}, Readings: []readingJSON{},
		Warnings: append([]string{}, f.bench().Findings(r.Findings)...), Findings: form.Findings(r.Findings, f.bench().Finding),
	}
	for _, m := range r.Methods {
		c.Methods = append(c.Methods, methodJSON{m.Name, f.Shown(m.Angle).Degrees(), m.Uncertainty.Degrees(), m.Readings})
	}
	c.Moved, c.SessionSlip = r.Moved, f.movedJSON(r)
	if r.Agreement != nil {
		c.Agreement = &agreementJSON{r.Agreement.Difference.Degrees(), r.Agreement.Limit.Degrees(), r.Agreement.Agrees()}
	}
	if g, ok := r.GoBack(10 * geometry.Degree); ok && !r.AgainstTurn() {
		c.GoBack = &goBackJSON{words.Stated(g.Angle), g.Before.Value, g.Before.Uncertainty, g.After.Value, g.After.Uncertainty}
	}
	if r.Dwell != nil {
		c.Dwell = &seenJSON{Resolved: r.Dwell.Resolved.Millimetres()}
		if r.Dwell.Lag != nil {
			lag := r.Dwell.Lag.Degrees()
			c.Dwell.Lag = &lag
		}
	}
	if len(r.Levels) > 0 {
		c.Midpoints = f.midpointsJSON(r)
	}
	for _, b := range r.Budget {
		c.Budget = append(c.Budget, SourceJSON{b.Source, b.Angle.Degrees()})
	}
	for _, s := range r.Sets() {
		c.Sets = append(c.Sets, f.setJSON(s))
		for _, j := range s.Readings {
			c.Readings = append(c.Readings, readingJSON{
				j.File, j.Line, words.Stated(f.Shown(j.Angle)), f.Job.Setup.Gauge.Falling(j.Depth).Millimetres(),
				j.Residual.Millimetres(), j.Weight, j.Suspect, evidence.SetOf(j.Set),
			})
		}
	}
	if r.WithAll != nil {
		all := f.tdcJSON(*r.WithAll)
		c.WithAll = &all
	}
	return c
}

// movedJSON is a move as protractor and gauge show it.
func (f Answer) movedJSON(r tdc.Result) *movedJSON {
	s := r.Slip
	if s == nil {
		return nil
	}
	m := movedJSON{Kind: s.Kind, After: r.Taken + s.After, Before: f.tdcJSON(s.Before)}
	switch s.Kind {
	case slip.Protractor:
		m.Size = form.Finite(f.Job.Setup.Protractor.Grows(geometry.Angle(s.Size)).Degrees())
		m.Uncertainty = form.Finite(geometry.Angle(s.Uncertainty).Degrees())
	case slip.GaugeZero:
		m.Depth, m.DepthUncertainty = form.Finite(s.Size), form.Finite(s.Uncertainty)
	case slip.Turn:
		to := r.Taken + s.To
		m.To = &to
	}
	return &m
}

func (f Answer) midpointsJSON(r tdc.Result) *midpointsJSON {
	m := midpointsJSON{Pattern: r.Trend.Pattern}
	switch r.Trend.Pattern {
	case halve.LikeLash:
		m.Lash = &r.Trend.Lash.Value
	case halve.LikeOffset:
		m.Growth = &r.Trend.Growth.Value
	case halve.OneLevel:
		m.Line = &r.Trend.Line
	}
	for _, l := range r.Levels {
		level := levelJSON{l.Drop.Millimetres(), f.Shown(l.Midpoint).Degrees(), l.Uncertainty.Degrees(), nil}
		if l.Turn != 0 {
			turn := l.Turn.String()
			level.Turn = &turn
		}
		m.Levels = append(m.Levels, level)
	}
	return &m
}

// trialsJSON is the trials as the protractor shows them.
func (f Answer) trialsJSON(t adjust.Trials) *trialsJSON {
	return &trialsJSON{
		t.Count, t.Seed, f.Shown(t.Estimate).Degrees(), t.Uncertainty.Degrees(),
		f.interval(t.Estimate, t.Symmetric), f.interval(t.Estimate, t.Shortest),
	}
}

// interval is one about an angle as the protractor shows it, its low end first. It
// goes on from what is shown and may pass the protractor's end.
func (f Answer) interval(about geometry.Angle, ends [2]geometry.Angle) (shown [2]float64) {
	for i, end := range f.lowFirst(ends) {
		shown[i] = (f.Shown(about) + f.Job.Setup.Protractor.Grows(end-about)).Degrees()
	}
	return shown
}

// lowFirst is the ends of an interval, the one first at which the protractor shows
// the lower number, but for the end of its scale.
func (f Answer) lowFirst(ends [2]geometry.Angle) [2]geometry.Angle {
	if f.Job.Setup.Protractor.Grows(ends[1]-ends[0]) < 0 {
		ends[0], ends[1] = ends[1], ends[0]
	}
	return ends
}

// setJSON is one set's TDC, and what weakens it.
func (f Answer) setJSON(r tdc.Result) setJSON {
	return setJSON{
		evidence.SetOf(r.Set), f.foundJSON(r), said(f.Untold(r)), len(r.Readings),
		append([]string{}, f.bench().Findings(r.Findings)...), form.Findings(r.Findings, f.bench().Finding),
	}
}

// foundJSON is TDC with what the readings agree to.
func (f Answer) foundJSON(r tdc.Result) foundJSON {
	return foundJSON{f.tdcJSON(r.TDC), r.AgreeTo.Expanded.Degrees()}
}

// tdcJSON is an estimate as the protractor shows it.
func (f Answer) tdcJSON(e gum.Estimate) tdcJSON {
	ends := [2]geometry.Angle{e.Angle - e.Expanded, e.Angle + e.Expanded}
	return tdcJSON{f.Shown(e.Angle).Degrees(), e.Uncertainty.Degrees(), f.interval(e.Angle, ends), form.Finite(e.DegreesOfFreedom)}
}
