package picture

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

// fromTDC is the axis that the pictures of readings share.
var fromTDC = chart.Axis{Label: "crank degrees from TDC, late positive", Angle: true}

// twice is what an error bar reaches: two standard uncertainties.
const twice = 2

// curveChart is the readings, the fitted curve and TDC with its interval.
func (b Book) curveChart(r tdc.Result) chart.Chart {
	c := chart.Chart{
		Title: b.titled("The readings and the curve fitted to them", r),
		Description: fmt.Sprintf("The piston's drop against crank angle, %s. A band marks TDC, at %s on the protractor (95 %%). %s",
			words.Count(len(r.Readings), "reading"), b.tdcText(r), suspects(r)),
		X: fromTDC, Y: chart.Axis{Label: "drop as the gauge shows it, " + b.Bench.Unit(), Down: true},
		Upright: []chart.Band{b.tdcBand(r)},
		Series:  []chart.Series{b.fittedCurve(r)},
	}
	angle, depth := b.Bench.Protractor.Uncertainty().Degrees(), b.Bench.In(b.Bench.Gauge.Uncertainty())
	c.Series = append(c.Series, readingSeries(r, func(j adjust.Judged, _ adjust.CurvePoint) chart.Point {
		return chart.Point{Y: b.Bench.In(r.Below(j.Depth)), XError: twice * angle, YError: twice * depth}
	})...)
	return c
}

// fittedCurve is the curve over the readings and TDC; turned both ways, half-way
// between the two that lash sets apart.
func (b Book) fittedCurve(r tdc.Result) chart.Series {
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
			s.Points[i].Y += b.Bench.In(q.Below) / float64(len(turns))
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
func (b Book) residualChart(r tdc.Result) chart.Chart {
	c := chart.Chart{
		Title: b.titled("What the curve leaves of each reading", r),
		Description: fmt.Sprintf("Depth read minus the curve's, in %s, against crank angle; the bars are the ± of the "+
			"instruments. %s", b.Bench.Unit(), suspects(r)),
		X: fromTDC, Y: chart.Axis{Label: "depth read minus the curve's, " + b.Bench.Unit()},
	}
	points := readingSeries(r, func(j adjust.Judged, q adjust.CurvePoint) chart.Point {
		return chart.Point{Y: b.Bench.In(j.Residual), YError: twice * b.Bench.In(r.ResidualUncertainty(q))}
	})
	curve := b.fittedCurve(r)
	ends := []chart.Point{curve.Points[0], curve.Points[len(curve.Points)-1]}
	ends[0].Y, ends[1].Y = 0, 0
	c.Series = append([]chart.Series{{Name: curve.Name, Line: true, Points: ends}}, points...)
	return c
}

// tdcBand is TDC's 95 % interval about zero.
func (b Book) tdcBand(r tdc.Result) chart.Band {
	half := r.TDC.Expanded.Degrees()
	return chart.Band{From: -half, To: half, Label: b.tdcLabel(r)}
}

// tdcText is TDC as the protractor shows it, with its 95 % half-width.
func (b Book) tdcText(r tdc.Result) string { return b.Bench.ReadsWithin(r.TDC) }

// titled names the cylinder where there are several.
func (b Book) titled(title string, r tdc.Result) string {
	if len(b.Results) > 1 {
		return fmt.Sprintf("Cylinder %d: %s", r.Number, title)
	}
	return title
}

// suspects names the readings that do not fit.
func suspects(r tdc.Result) string {
	lines := suspectLines(r)
	switch {
	case lines == "":
		return "No reading is suspect."
	case strings.HasPrefix(lines, "line "):
		return fmt.Sprintf("The reading of %s is suspect, and crossed out.", lines)
	}
	return fmt.Sprintf("The readings of %s are suspect, and crossed out.", lines)
}

// suspectLines is "line 5" or "lines 5, 9"; nothing of no reading.
func suspectLines(r tdc.Result) string {
	var lines []string
	for _, j := range r.Readings {
		if j.Suspect {
			lines = append(lines, fmt.Sprint(j.Line))
		}
	}
	switch len(lines) {
	case 0:
		return ""
	case 1:
		return "line " + lines[0]
	}
	return "lines " + strings.Join(lines, ", ")
}

// tdcLabel is where TDC is, short: "TDC 3.36 ± 0.09°".
func (b Book) tdcLabel(r tdc.Result) string {
	return "TDC " + strings.TrimSuffix(b.tdcText(r), " deg") + "°"
}
