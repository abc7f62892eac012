package jobtest

import (
	"fmt"
	"math"
	"strconv"
)

// writeLobe writes the lobe's table and its file.
func (b *bench) writeLobe(l *lobe) {
	file := fmt.Sprintf("lobe-%d.csv", len(b.job.Lobes)+1)
	valve := l.valve
	if l.Wrong == "wrong valve" {
		valve = map[string]string{"inlet": "exhaust", "exhaust": "inlet"}[valve]
	}
	b.line("[[lobe]]")
	b.key("name", strconv.Quote(l.Name))
	b.key("on", strconv.Quote(l.on))
	b.key("valve", strconv.Quote(valve))
	if l.Cylinder != 1 || b.seldom("cylinder said") {
		b.key("cylinder", strconv.Itoa(l.Cylinder))
	}
	if l.Set != 1 || b.seldom("set said") {
		b.key("set", strconv.Itoa(l.Set))
	}
	b.key("readings", strconv.Quote(file))
	b.writeCard(l)
	if l.ratio != 1 {
		b.key("ratio", short(l.ratio))
	}
	if l.lash != 0 {
		b.length("lash", l.lash)
	}
	if l.cam.Slack != 0 {
		b.key("slack", short(l.cam.Slack))
	}
	b.writeGauge(l)
	if b.often("lobe's limit") {
		b.key("limit", short(oneOf(b.chance, "limit of a lobe", b.between(1, 3), 20, 0)))
	}
	if n := b.readingsOfFirst(); n > 0 && b.seldom("after reading") {
		b.key("after_reading", strconv.Itoa(b.number("after", 0, n)))
	}
	if b.seldom("lobe's source") {
		b.key("source", `"invented card"`)
	}
	b.keep(file, b.liftSheet(l))
}

// writeGauge writes what is known of a gauge that is not as commonly met.
func (b *bench) writeGauge(l *lobe) {
	if l.step != 0.01 {
		b.key("gauge", fmt.Sprintf("{ step = %s, error = %s, runout = %s, scale_known_to = %s }",
			short(l.step/b.inch), short(l.bound/b.inch), short(l.cam.RunOut/b.inch), short(l.known)))
	}
}

// readingsOfFirst is how many readings cylinder 1 has.
func (b *bench) readingsOfFirst() int { return len(b.job.Cylinders[0].Typed) }

// writeCard writes what the card says: events, a centre, or the lift alone.
func (b *bench) writeCard(l *lobe) {
	lift := (l.checking + l.lash) / l.ratio
	if l.Wrong == "wrong lift" {
		lift *= 1.4
	}
	b.length("lift", lift)
	l.Shift = math.NaN()
	at := func(side float64) float64 { // of the lobe as it was made
		return l.cam.Nose - l.moved + l.cam.Where(l.checking+l.lash, side)
	}
	opens, closes := at(-1), at(1)
	switch oneOf(b.chance, "card", "events", "whole degrees", "centre", "none") {
	case "whole degrees":
		opens, closes = math.Round(opens), math.Round(closes)
		fallthrough
	case "events":
		b.key("opens", b.event(opens))
		b.key("closes", b.event(closes))
		share := b.openingShare(l)
		l.Shift = share*(l.Opens-opens) + (1-share)*(l.Closes-closes)
		b.has("card of events")
	case "centre":
		b.key("centre", b.event((opens+closes)/2))
		l.Shift = (l.Opens + l.Closes - opens - closes) / 2
		b.has("card of a centre")
	default:
		b.has("no card")
	}
	if b.seldom("card's top") {
		b.length("top", l.cam.Top/l.ratio)
	}
}

// openingShare is the weight of the opening in a shift, by the flanks' slopes: lift that is
// missing everywhere then moves nothing.
func (b *bench) openingShare(l *lobe) float64 {
	slope := func(at float64) float64 { return math.Abs(l.cam.At(at+0.5) - l.cam.At(at-0.5)) }
	opening, closing := slope(l.Opens-l.cam.Nose), slope(l.Closes-l.cam.Nose)
	return opening / (opening + closing)
}

// event is an angle of the card, as a number or with its side.
func (b *bench) event(after float64) string {
	if b.seldom("card in numbers") {
		return short(after)
	}
	return strconv.Quote(sided(after))
}

// sided is crank degrees after TDC by the dead centre that is nearer.
func sided(after float64) string {
	near := math.Remainder(after, 360)
	switch {
	case near < -90:
		return short(180+near) + " ABDC"
	case near < 0:
		return short(-near) + " BTDC"
	case near <= 90:
		return short(near) + " ATDC"
	}
	return short(180-near) + " BBDC"
}

// onWheel is a crank angle as the protractor shows it all round.
func (p protractor) onWheel(crank float64) string {
	if p.wraps == 90 {
		return sided(crank)
	}
	return p.written(crank)
}
