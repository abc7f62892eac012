package standing

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/answer/motion"
	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/chart/plain"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// Summary is what is said at the end. An error is form.Terminal's.
func (j State) Summary() ([]byte, error) {
	var d doc.Document
	switch {
	case len(j.Readings)+len(j.Others) == 0:
		d.Say(fmt.Sprintf("No readings in %s yet.", j.File))
	case j.Result != nil && j.Result.CannotTell != nil:
		d.Say(fmt.Sprintf("%s in %s. %s", words.Capital(j.count()), j.File, j.state(State{})))
		d.List(j.Find().Warnings(*j.Result))
	case j.Result == nil:
		d.Say(fmt.Sprintf("%s in %s; TDC cannot be determined from them yet.", words.Capital(j.count()), j.File))
	case j.Result.AgainstTurn():
		d.List(j.Find().Warnings(*j.Result))
	default:
		d.Say(fmt.Sprintf("%s in %s: true TDC is at %s on the protractor (95 %%).",
			words.Capital(j.count()), j.File, j.Bench().ReadsWithin(j.Result.TDC)))
		d.List(j.Find().Warnings(*j.Result))
	}
	return form.Terminal(d, j.Columns())
}

// List is the readings so far. An error is form.Terminal's.
func (j State) List() (string, error) {
	t := doc.Table{Header: []string{"No.", "turn", "angle, deg", "depth", "off", "", "note"}}
	var angles []float64
	for _, r := range j.Readings {
		angles = append(angles, r.Angle.Degrees())
	}
	angle := words.AsRead(angles, j.Job.Setup.Protractor.Step.Degrees())
	earlier := len(j.Readings) - len(j.Current)
	for i, r := range j.Readings {
		off, suspect := "", ""
		if sheet.Has(j.Doubted, r) {
			suspect = "suspect"
		}
		if j.fitted() && i >= earlier {
			off = j.Bench().Residual(j.Result.Readings[i-earlier].Residual)
			if j.Result.Readings[i-earlier].Suspect {
				suspect = "suspect"
			}
		}
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(i + 1), r.Turn.String(), j.Bench().Reads(r.Angle, angle), j.Bench().Read(j.Job.Setup.Gauge.Falling(r.Depth)), off, suspect,
			words.Cut(r.Note, 18),
		})
	}
	j.withSets(&t)
	var d doc.Document
	d.Table(t)
	text, err := form.Terminal(d, j.Columns())
	return string(text), err
}

// Columns is how wide a table or a plot may be.
func (j State) Columns() int {
	if j.Width == Unbroken {
		return form.Widest
	}
	return j.Width
}

// withSets puts the sets before the readings' numbers, where there are several.
func (j State) withSets(t *doc.Table) {
	if j.Set < 2 {
		return
	}
	t.Header = append([]string{"Set"}, t.Header...)
	for i, r := range j.Readings {
		t.Rows[i] = append([]string{strconv.Itoa(evidence.SetOf(r.Set))}, t.Rows[i]...)
	}
}

// Plot is the drop curve with the readings on it, in plain characters. An error is of
// readings that no curve was laid through, and of too few columns.
func (j State) Plot() (string, error) {
	if !j.fitted() {
		return "", fmt.Errorf("no curve yet: TDC has to be determined from the readings first")
	}
	crank, err := j.Job.Setup.Kinematics()
	if err != nil {
		return "", err
	}
	c := chart.Chart{
		X: chart.Axis{Label: "crank degrees after TDC", Angle: true},
		Y: chart.Axis{Label: "drop, mm", Down: true},
	}
	marks := map[evidence.TurnDirection]*chart.Series{evidence.Forward: {Name: "read forward"}, evidence.Backward: {Name: "read backward"}}
	reach := 10.0
	for _, r := range j.Result.Readings {
		u := (r.Angle - j.Result.TDC.Angle).Signed()
		drop := crank.Drop(u).Millimetres() + r.Residual.Millimetres()/j.Result.Scale.Value
		reach = math.Max(reach, math.Abs(u.Degrees())*1.05)
		marks[r.Turn].Points = append(marks[r.Turn].Points, chart.Point{X: u.Degrees(), Y: drop, Doubtful: r.Suspect})
	}
	curve := chart.Series{Name: "curve", Line: true}
	const steps = 60
	for k := range steps + 1 {
		u := reach * (2*float64(k)/steps - 1)
		curve.Points = append(curve.Points, chart.Point{X: u, Y: crank.Drop(geometry.Angle(u) * geometry.Degree).Millimetres()})
	}
	c.Series = append(c.Series, curve)
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		if len(marks[turn].Points) > 0 {
			c.Series = append(c.Series, *marks[turn])
		}
	}
	return plain.Plot(c, j.Columns(), motion.PlotRows)
}
