package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/lobe"
)

// overOverlap is the axis that the pictures of lobes share.
const overOverlap = "crank degrees after TDC, between exhaust and inlet"

// deadCentres are the places of a cycle and a half either way that have a name.
var deadCentres = []chart.Named{
	{At: -540, Name: "BDC"}, {At: -360, Name: "TDC"}, {At: -180, Name: "BDC"}, {At: 0, Name: "TDC"},
	{At: 180, Name: "BDC"}, {At: 360, Name: "TDC"}, {At: 540, Name: "BDC"},
}

// lobesOf is the lobes of a cylinder whose events were read.
func (b Book) lobesOf(r tdc.Result) (list []lobe.Measured) {
	for _, m := range b.Lobes {
		if m.Cylinder == r.Number && m.Events != nil {
			list = append(list, m)
		}
	}
	return list
}

// lobeChart is the lift of a cylinder's lobes over the crank's cycle: what was read, the
// curve through it, the events, and the card beside them.
func (b Book) lobeChart(r tdc.Result) chart.Chart {
	lobes := b.lobesOf(r)
	bands, overlaps := overlapBands(lobes)
	c := chart.Chart{
		Title:   b.titled("Lift of the cam lobes against crank degrees", r),
		X:       chart.Axis{Label: overOverlap, Angle: true, Named: deadCentres},
		Y:       chart.Axis{Label: "lift as the gauge shows it, " + b.Bench.Unit(), To: b.liftShown(lobes)},
		Upright: bands,
	}
	says := []string{fmt.Sprintf("Valve lift in %s against crank angle, with a curve through the readings.", b.Bench.Unit())}
	for _, m := range lobes {
		c.Series = append(c.Series, b.lobeCurve(m))
	}
	for i, m := range lobes {
		c.Series = append(c.Series, b.lobeReadings(m, i))
		c.Series = append(c.Series, b.eventStrokes(m, i, lobes)...)
		c.Lanes = append(c.Lanes, b.lobeLanes(m, i)...)
		says = append(says, b.lobeSays(m))
	}
	b.checkingLines(&c, lobes)
	c.Description = strings.Join(append(says, overlaps...), " ")
	return c
}

// liftShown is the end of the axis of lift, with a row of words above the highest.
func (b Book) liftShown(lobes []lobe.Measured) float64 {
	const headroom = 1.2
	var top geometry.Length
	for _, m := range lobes {
		top = max(top, m.Top)
	}
	return headroom * b.Bench.In(top)
}

// alone tells whether a lobe is the only one of its valve, so that words at it meet none.
func alone(m lobe.Measured, lobes []lobe.Measured) bool {
	n := 0
	for _, other := range lobes {
		if m.Valve == other.Valve {
			n++
		}
	}
	return n == 1
}

// curveStroke is the longest stroke of a lobe's curve: too short to show its ends.
const curveStroke = 3 * geometry.Degree

// lobeCurve is the lobe from reading to reading.
func (b Book) lobeCurve(m lobe.Measured) chart.Series {
	return chart.Series{Line: true, Points: b.liftPoints(m.Curve(curveStroke))}
}

// lobeReadings is what was read of the i-th lobe.
func (b Book) lobeReadings(m lobe.Measured, i int) chart.Series {
	return chart.Series{With: i + 1, Points: b.liftPoints(m.Placed())}
}

func (b Book) liftPoints(list []lobe.Point) (points []chart.Point) {
	for _, p := range list {
		points = append(points, chart.Point{X: p.Angle.Degrees(), Y: b.Bench.In(p.Lift)})
	}
	return points
}

// eventStrokes are the opening and the closing of the i-th lobe, from zero to the checking
// lift, and its centre below the top, with words where no other lobe has its own.
func (b Book) eventStrokes(m lobe.Measured, i int, lobes []lobe.Measured) []chart.Series {
	e, lift, top, row := m.Events, b.Bench.In(m.Events.Lift), b.Bench.In(m.Top), b.liftShown(lobes)/16
	stroke := func(at geometry.Angle, from, to float64) chart.Series {
		return chart.Series{Line: true, Fine: true, With: i + 1, Points: []chart.Point{{X: at.Degrees(), Y: from}, {X: at.Degrees(), Y: to}}}
	}
	word := lift + 1.6*row // above those of the checking lift
	centre := stroke(e.Centre.Angle, min(word+1.6*row, top), top)
	if alone(m, lobes) {
		centre.Points[1].Label, centre.Points[1].Above = string(m.Valve), true
	}
	list := []chart.Series{stroke(e.Opens.Angle, 0, lift), stroke(e.Closes.Angle, 0, lift), centre}
	if alone(m, lobes) && word+1.6*row < top {
		list = append(list, label(e.Centre.Angle, word, "centre"))
	}
	return list
}

// label is words above a place.
func label(at geometry.Angle, y float64, text string) chart.Series {
	return chart.Series{Line: true, Fine: true, Points: []chart.Point{{X: at.Degrees(), Y: y, Label: text, Above: true}}}
}

// checkingLines draws a line at each lift that events are taken at, with its words inside
// the first lobe.
func (b Book) checkingLines(c *chart.Chart, lobes []lobe.Measured) {
	for _, m := range firstOfLift(lobes) {
		line := b.checkingLine(m)
		c.Series = append(c.Series, label(m.Events.Centre.Angle, line.To, line.Label))
		line.Label = ""
		c.Level = append(c.Level, line)
	}
}

// checkingLine is the lift that a lobe's events are taken at.
func (b Book) checkingLine(m lobe.Measured) chart.Band {
	lift := m.Events.Lift
	return chart.Band{From: b.Bench.In(lift), To: b.Bench.In(lift), Label: "checking lift " + b.Bench.Depth(lift)}
}

// firstOfLift is the first lobe of each checking lift.
func firstOfLift(lobes []lobe.Measured) (list []lobe.Measured) {
	for _, m := range lobes {
		if !slices.ContainsFunc(list, func(other lobe.Measured) bool { return other.Events.Lift == m.Events.Lift }) {
			list = append(list, m)
		}
	}
	return list
}

// lobeLanes are the i-th lobe's opening, closing and centre as they were read, and under
// them as the card has them.
func (b Book) lobeLanes(m lobe.Measured, i int) []chart.Lane {
	e := m.Events
	list := []chart.Lane{{
		Lines: lobeRead(m), With: i + 1,
		From: e.Opens.Angle.Degrees(), To: e.Closes.Angle.Degrees(), Middle: e.Centre.Angle.Degrees(),
	}}
	if centre, duration, says := cardOf(m); says {
		list = append(list, chart.Lane{
			Lines: []string{"its card: " + cardEvents(m)}, With: i + 1, Hollow: true,
			From: (centre - duration/2).Degrees(), To: (centre + duration/2).Degrees(), Middle: centre.Degrees(),
		})
	}
	return list
}

// lobeRead is a lobe's centre, opening and closing as they were read, in two lines.
func lobeRead(m lobe.Measured) []string {
	return []string{m.Name + ": centre " + words.CentreWithin(m.Events.Centre.Estimate), opensCloses(m.Events)}
}

// cardOf is the card that a lobe was compared with.
func cardOf(m lobe.Measured) (centre, duration geometry.Angle, says bool) {
	if m.Shift == nil || m.Shift.Healthy {
		return 0, 0, false
	}
	return m.Card.Beside(m.Events.Centre.Angle)
}

// lobeSays is a lobe's picture in words, those beside its bar first.
func (b Book) lobeSays(m lobe.Measured) string {
	text := fmt.Sprintf("%s at %s; %s, the highest %s", strings.Join(lobeRead(m), ", "),
		b.Bench.Depth(m.Events.Lift), words.Count(len(m.Placed()), "reading"), b.Bench.Depth(m.Top))
	if _, _, says := cardOf(m); says {
		text += "; its card: " + cardEvents(m)
	}
	return text + "."
}

// opensCloses is when a lobe opens and closes.
func opensCloses(e *lobe.Events) string {
	return fmt.Sprintf("opens %s, closes %s", words.EventWithin(e.Opens.Estimate), words.EventWithin(e.Closes.Estimate))
}

// cardEvents is the same as the card has it.
func cardEvents(m lobe.Measured) string {
	centre, duration, _ := cardOf(m)
	text := "centre " + words.Centre(centre.Signed())
	if duration == 0 {
		return text
	}
	return fmt.Sprintf("opens %s, closes %s, %s", words.Event(centre-duration/2), words.Event(centre+duration/2), text)
}

// overlapBands are from where each inlet lobe opens to where an exhaust lobe closes, with
// words where there is one, and what they say.
func overlapBands(lobes []lobe.Measured) (bands []chart.Band, says []string) {
	for _, exhaust := range lobes {
		for _, inlet := range lobes {
			pair, ok := lobe.Paired(exhaust, inlet)
			if !ok {
				continue
			}
			bands = append(bands, chart.Band{
				From: inlet.Events.Opens.Angle.Degrees(), To: exhaust.Events.Closes.Angle.Degrees(), Label: overlapOf(pair.Overlap),
			})
			says = append(says, fmt.Sprintf("%s and %s: %s.", exhaust.Name, inlet.Name, overlapOf(pair.Overlap)))
		}
	}
	if len(bands) > 1 { // their words would lie upon one another
		for i := range bands {
			bands[i].Label = ""
		}
	}
	return bands, says
}

// overlapOf is for how long both valves are open, or neither.
func overlapOf(e gum.Estimate) string {
	what := "overlap "
	if e.Angle < 0 {
		what = "both shut "
	}
	return what + words.Within(math.Abs(e.Angle.Degrees()), e.Expanded.Degrees()) + " deg"
}
