package find

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// The pictures of an answer, by name.
const (
	CurvePicture     = "curve"
	ResidualPicture  = "residuals"
	MidpointsPicture = "midpoints"
	MarksPicture     = "marks"
	DrivePicture     = "drive"
)

// Pictures names every picture, in the order of the page.
var Pictures = []string{CurvePicture, ResidualPicture, MidpointsPicture, MarksPicture, DrivePicture}

// Picture draws one of Pictures as SVG; those of readings are of the n-th
// cylinder. An answer that has nothing to show in it is an error.
func (p Page) Picture(name string, n int) ([]byte, error) {
	if err := nothingIn(name, p.Results[n]); err != nil {
		return nil, err
	}
	switch name {
	case CurvePicture:
		return p.curveChart(p.Results[n]).SVG()
	case ResidualPicture:
		return p.residualChart(p.Results[n]).SVG()
	case MidpointsPicture:
		return p.midpointChart(p.Results[n]).SVG()
	case MarksPicture:
		dial, err := p.marksDial()
		if err != nil {
			return nil, err
		}
		return dial.SVG()
	case DrivePicture:
		return p.drivePicture()
	}
	return nil, fmt.Errorf("no picture is called %q: expected one of %s", name, strings.Join(Pictures, ", "))
}

// nothingIn says why a picture of readings would be empty; nil when it would not.
func nothingIn(name string, r tdc.Result) error {
	switch {
	case slices.Contains([]string{CurvePicture, ResidualPicture}, name) && len(r.Readings) == 0:
		return fmt.Errorf("cylinder %d has no readings to draw: stops, dwells and views have no depth", r.Number)
	case name == MidpointsPicture && len(r.Levels) == 0:
		return fmt.Errorf("cylinder %d has no midpoints of equal drop to draw: read both flanks at like depths", r.Number)
	}
	return nil
}

// fromTDC is the axis that the pictures of readings share.
var fromTDC = chart.Axis{Label: "crank degrees from TDC, late positive", Angle: true}

// twice is what an error bar reaches: two standard uncertainties.
const twice = 2

// curveChart is the readings, the fitted curve and TDC with its interval.
func (p Page) curveChart(r tdc.Result) chart.Chart {
	c := chart.Chart{
		Title: p.titled("The readings and the curve fitted to them", r),
		Description: fmt.Sprintf("The piston's drop against crank angle, %s. A band marks TDC, at %s on the protractor (95 %%). %s",
			words.Count(len(r.Readings), "reading"), p.tdcText(r), suspects(r)),
		X: fromTDC, Y: chart.Axis{Label: "drop as the gauge shows it, mm", Down: true},
		Upright: []chart.Band{p.tdcBand(r)},
		Series:  []chart.Series{fittedCurve(r)},
	}
	angle, depth := p.Job.Setup.Protractor.Uncertainty().Degrees(), p.Job.Setup.Gauge.Uncertainty().Millimetres()
	c.Series = append(c.Series, readingSeries(r, func(j adjust.Judged, _ adjust.CurvePoint) chart.Point {
		return chart.Point{Y: r.Below(j.Depth).Millimetres(), XError: twice * angle, YError: twice * depth}
	})...)
	return c
}

// fittedCurve is the curve over the readings and TDC; turned both ways, half-way
// between the two that lash sets apart.
func fittedCurve(r tdc.Result) chart.Series {
	var from, to geometry.Angle
	for _, j := range r.Readings {
		from, to = min(from, r.FromTDC(j.Angle)), max(to, r.FromTDC(j.Angle))
	}
	const steps = 90
	room := (to - from) / 40
	var angles []geometry.Angle
	for i := range steps + 1 {
		angles = append(angles, from-room+(to-from+2*room)*geometry.Angle(i)/steps)
	}
	s := chart.Series{Name: "fitted curve", Line: true, Points: make([]chart.Point, len(angles))}
	turns := turnsOf(r)
	for _, turn := range turns {
		for i, q := range r.Curve(turn, angles) {
			s.Points[i].X = q.Angle.Degrees()
			s.Points[i].Y += q.Below.Millimetres() / float64(len(turns))
		}
	}
	return s
}

// turnsOf is the directions that the readings were taken in, forward first.
func turnsOf(r tdc.Result) (turns []evidence.TurnDirection) {
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		if slices.ContainsFunc(r.Readings, func(j adjust.Judged) bool { return j.Turn == turn }) {
			turns = append(turns, turn)
		}
	}
	return turns
}

// readingSeries is a point a reading, a series a direction. A suspect reading is
// drawn as doubtful, with its line beside it.
func readingSeries(r tdc.Result, point func(adjust.Judged, adjust.CurvePoint) chart.Point) (list []chart.Series) {
	for _, turn := range turnsOf(r) {
		s := chart.Series{Name: "turned " + turn.String()}
		for _, j := range r.Readings {
			if j.Turn != turn {
				continue
			}
			u := r.FromTDC(j.Angle)
			q := point(j, r.Curve(turn, []geometry.Angle{u})[0])
			q.X = u.Degrees()
			if q.Doubtful = j.Suspect; j.Suspect {
				q.Label = fmt.Sprintf("line %d", j.Line)
			}
			s.Points = append(s.Points, q)
		}
		list = append(list, s)
	}
	return list
}

// residualChart is what the curve leaves of each reading.
func (p Page) residualChart(r tdc.Result) chart.Chart {
	c := chart.Chart{
		Title: p.titled("What the curve leaves of each reading", r),
		Description: fmt.Sprintf("Depth read less the curve's, in mm, against crank angle. The bars are two standard uncertainties of the "+
			"instruments, so that most should reach the line at nought. %s", suspects(r)),
		X: fromTDC, Y: chart.Axis{Label: "depth read less the curve's, mm"},
	}
	points := readingSeries(r, func(j adjust.Judged, q adjust.CurvePoint) chart.Point {
		return chart.Point{Y: j.Residual.Millimetres(), YError: twice * r.ResidualUncertainty(q).Millimetres()}
	})
	curve := fittedCurve(r)
	ends := []chart.Point{curve.Points[0], curve.Points[len(curve.Points)-1]}
	ends[0].Y, ends[1].Y = 0, 0
	c.Series = append([]chart.Series{{Name: curve.Name, Line: true, Points: ends}}, points...)
	return c
}

// tdcBand is TDC's 95 % interval about nought.
func (p Page) tdcBand(r tdc.Result) chart.Band {
	half := r.TDC.Expanded.Degrees()
	return chart.Band{From: -half, To: half, Label: "TDC " + p.tdcText(r)}
}

// tdcText is TDC as the protractor shows it, with its 95 % half-width.
func (p Page) tdcText(r tdc.Result) string {
	places := words.Decimals(r.TDC.Expanded.Degrees())
	return fmt.Sprintf("%s ± %s deg", p.Reads(r.TDC.Angle, places), words.Fixed(r.TDC.Expanded.Degrees(), places))
}

// titled names the cylinder where there are several.
func (p Page) titled(title string, r tdc.Result) string {
	if len(p.Results) > 1 {
		return fmt.Sprintf("Cylinder %d: %s", r.Number, title)
	}
	return title
}

// suspects names the readings that do not fit.
func suspects(r tdc.Result) string {
	var lines []string
	for _, j := range r.Readings {
		if j.Suspect {
			lines = append(lines, fmt.Sprint(j.Line))
		}
	}
	switch len(lines) {
	case 0:
		return "No reading is suspect."
	case 1:
		return fmt.Sprintf("The reading of line %s is suspect, and crossed out.", lines[0])
	}
	return fmt.Sprintf("The readings of lines %s are suspect, and crossed out.", strings.Join(lines, ", "))
}
