package find

import (
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/halve"
)

type cylinderJSON struct {
	Number                int            `json:"number"`
	TDC                   tdcJSON        `json:"tdc"`
	CannotTell            *string        `json:"cannot_tell"` // why tdc is no answer to go by; null: it is one
	Methods               []methodJSON   `json:"methods"`
	Agreement             *agreementJSON `json:"agreement"`
	Midpoints             *midpointsJSON `json:"midpoints"`      // null: no depth was read on both sides
	CrownDepth            *float64       `json:"crown_depth_mm"` // null: no depth was read
	CrownDepthUncertainty *float64       `json:"crown_depth_standard_uncertainty_mm"`
	Lash                  *float64       `json:"lash_mm"` // null: nothing read depends on it
	LashUncertainty       *float64       `json:"lash_standard_uncertainty_mm"`
	Scale                 *float64       `json:"scale"` // null: no depth was read
	ScaleUncertainty      *float64       `json:"scale_standard_uncertainty"`
	Dwell                 *seenJSON      `json:"dwell"` // null: no dwell pair was seen
	Budget                []SourceJSON   `json:"budget"`
	Readings              []readingJSON  `json:"readings"`
	WithAll               *tdcJSON       `json:"tdc_with_every_reading_trusted"`
	Trials                *trialsJSON    `json:"trials"`  // null: none were asked for
	GoBack                *goBackJSON    `json:"go_back"` // null: no depth was read, or in doubt which side is which
	Warnings              []string       `json:"warnings"`
	Findings              []words.Told   `json:"findings"` // the warnings as values
}

type tdcJSON struct {
	Protractor  float64    `json:"protractor_deg"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Interval    [2]float64 `json:"interval95_deg"`
	Degrees     *float64   `json:"degrees_of_freedom"` // null: none of it was estimated from scatter
}

type methodJSON struct {
	Name        string  `json:"name"`
	Protractor  float64 `json:"protractor_deg"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Readings    int     `json:"readings"`
}

type agreementJSON struct {
	Difference float64 `json:"difference_deg"`
	Limit      float64 `json:"limit_deg"`
	Agrees     bool    `json:"agrees"`
}

type seenJSON struct {
	Resolved float64  `json:"resolved_mm"`
	Lag      *float64 `json:"lag_deg"` // null: seen one way only
}

type trialsJSON struct {
	Count       int        `json:"count"`
	Seed        uint64     `json:"seed"`
	Protractor  float64    `json:"protractor_deg"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Symmetric   [2]float64 `json:"interval95_deg"`
	Shortest    [2]float64 `json:"shortest95_deg"`
}

// midpointsJSON is how the midpoints of equal drop go with the drop.
type midpointsJSON struct {
	Pattern halve.Pattern `json:"pattern"`
	Lash    *float64      `json:"lash_mm"`
	Growth  *float64      `json:"growth_deg_per_mm"`
	Line    *int          `json:"line"`
	Levels  []levelJSON   `json:"levels"`
}

type levelJSON struct {
	Drop        float64 `json:"drop_mm"`
	Protractor  float64 `json:"protractor_deg"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Turn        *string `json:"turn"` // null: the flanks were read in different directions
}

type SourceJSON struct {
	Source       string  `json:"source"`
	Contribution float64 `json:"contribution_deg"`
}

type readingJSON struct {
	File     string  `json:"file"`
	Line     int     `json:"line"`
	Angle    float64 `json:"angle_deg"`
	Depth    float64 `json:"depth_mm"`
	Residual float64 `json:"residual_mm"`
	Weight   float64 `json:"weight"`
	Suspect  bool    `json:"suspect"`
}

// goBackJSON is what the gauge should show either side of TDC, turned forward.
type goBackJSON struct {
	Angle             float64 `json:"angle_deg"`
	Before            float64 `json:"before_mm"`
	BeforeUncertainty float64 `json:"before_standard_uncertainty_mm"`
	After             float64 `json:"after_mm"`
	AfterUncertainty  float64 `json:"after_standard_uncertainty_mm"`
}

func (f Answer) cylinderJSON(r tdc.Result) cylinderJSON {
	c := cylinderJSON{
		Number: r.Number, TDC: f.tdcJSON(r.TDC), CannotTell: said(f.Untold(r)),
		CrownDepth: form.Finite(r.CrownDepth.Value), CrownDepthUncertainty: form.Finite(r.CrownDepth.Uncertainty),
		Lash: form.Finite(r.Lash.Value), LashUncertainty: form.Finite(r.Lash.Uncertainty),
		Scale: form.Finite(r.Scale.Value), ScaleUncertainty: form.Finite(r.Scale.Uncertainty),
		Methods: []methodJSON{}, Budget: []SourceJSON{}, Readings: []readingJSON{},
		Warnings: append([]string{}, f.bench().Findings(r.Findings)...), Findings: f.bench().Told(r.Findings),
	}
	for _, m := range r.Methods {
		c.Methods = append(c.Methods, methodJSON{m.Name, f.Shown(m.Angle).Degrees(), m.Uncertainty.Degrees(), m.Readings})
	}
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
	for _, j := range r.Readings {
		c.Readings = append(c.Readings, readingJSON{
			j.File, j.Line, words.Stated(f.Shown(j.Angle)), f.Job.Setup.Gauge.Falling(j.Depth).Millimetres(),
			j.Residual.Millimetres(), j.Weight, j.Suspect,
		})
	}
	if r.WithAll != nil {
		all := f.tdcJSON(*r.WithAll)
		c.WithAll = &all
	}
	return c
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

// tdcJSON is an estimate as the protractor shows it.
func (f Answer) tdcJSON(e gum.Estimate) tdcJSON {
	ends := [2]geometry.Angle{e.Angle - e.Expanded, e.Angle + e.Expanded}
	return tdcJSON{f.Shown(e.Angle).Degrees(), e.Uncertainty.Degrees(), f.interval(e.Angle, ends), form.Finite(e.DegreesOfFreedom)}
}
