package jobtest

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/lobe/lobetest"
)

// Lobe is a cam lobe of a job, and what is true of it: crank degrees after the TDC of its
// cylinder, but for whole turns.
type Lobe struct {
	Name          string
	Opens, Closes float64 // where the gauge shows the checking lift
	Shift         float64 // how late it is by the card that was written; NaN without one
	Cylinder      int
	Wrong         string // what is wrong with its rows or its card; "" of a sound one
	Set           int
	Rows          int // in its file
}

// lobeNames are what lobes are called, some of them awkward.
var lobeNames = []string{"inlet lobe, cylinder 1", "lobe", "Auslaßnocken №4", `the "odd" lobe`, "<i>lobe</i> & more", "lobe | of *two*"}

// wrongs is what may be wrong with a lobe, nothing first.
var wrongs = []string{"", "one flank", "not straddled", "wrong valve", "wrong lift", "dial turn", "point", "ten degrees", "backward rows", "out of order", "inches", "few rows"}

// lobe is a cam lobe while it is invented.
type lobe struct {
	Lobe
	cam      lobetest.Cam
	valve    string
	on       string
	throw    float64 // nominal, of its cylinder
	checking float64 // mm on the gauge
	ratio    float64
	lash     float64 // mm, stated
	step     float64 // of the gauge, mm
	bound    float64 // its error, mm
	known    float64 // scale_known_to
	moved    float64 // crank degrees late
	rows     []liftRow
}

// liftRow is a row of a file of lifts.
type liftRow struct {
	crank    float64 // degrees from the protractor's zero, as read
	lift     float64 // mm, as read
	backward bool
}

// cams is the members that a lobe may be on, by valve where each has its own.
func (b *bench) cams(valve string) (list []string) {
	for _, m := range b.members {
		if m == valve+" cam" || m == "cam" {
			return []string{m}
		}
		if b.camSpeed[m] {
			list = append(list, m)
		}
	}
	return list
}

// inventLobes draws cam lobes, where the drive has a cam for them.
func (b *bench) inventLobes() {
	if len(b.cams("inlet")) == 0 {
		return
	}
	many := b.number("lobes", 1, 4)
	if b.rarely("many lobes") {
		many *= 3
	}
	for i := range many {
		l := b.newLobe(i)
		b.readLobe(&l)
		b.writeLobe(&l)
		b.job.Lobes = append(b.job.Lobes, l.Lobe)
		if b.again && l.Wrong == "" && b.often("lobe again") {
			b.lobeAgain(l)
		}
		b.has("lobe")
		b.has("lobe " + l.cam.Name)
		if l.Wrong != "" {
			b.has("lobe with " + l.Wrong)
		}
	}
}

// newLobe draws a lobe: its cam, its gauge, where it stands and what is wrong with it.
func (b *bench) newLobe(i int) lobe {
	l := lobe{valve: oneOf(b.chance, "valve", "inlet", "exhaust"), ratio: 1, step: 0.01, bound: 0.02, known: 0.015}
	l.Set = 1
	l.on = oneOf(b.chance, "cam", b.cams(l.valve)...)
	l.Name = oneOf(b.chance, "lobe name", lobeNames...) + fmt.Sprintf(" no. %d", i+1)
	t := oneOf(b.chance, "lobe's cylinder", b.throws...)
	l.Cylinder, l.throw = t.number, t.nominal
	l.cam.Shape = oneOf(b.chance, "shape", lobetest.Shapes...)
	l.cam.Top = b.between(6, 12)
	l.checking = oneOf(b.chance, "checking lift", 1, 1.27, 0.7, 4.5)
	if b.seldom("ratio") {
		l.ratio = math.Round(b.between(1.1, 1.8)*100) / 100
	}
	if b.seldom("lash of a lobe") {
		l.lash = math.Round(b.between(0.1, 0.3)*100) / 100
	}
	if b.seldom("slack") {
		l.cam.Slack = float64(b.number("slack of", 1, 4)) // as stated, until it is drawn
	}
	l.cam.RunOut = 0.02
	if b.seldom("gauge of a lobe") {
		l.step, l.bound, l.known, l.cam.RunOut = 0.02, oneOf(b.chance, "gauge error", 0.03, 0), 0.05, oneOf(b.chance, "run-out", 0.06, 0)
	}
	l.moved = b.about(1)
	if b.seldom("lobe moved") {
		l.moved = b.about(25)
	}
	l.cam.Nose = 105 + b.about(10) + l.moved
	if l.valve == "exhaust" {
		l.cam.Nose -= 215
	}
	l.cam.Lost = l.lash
	if b.seldom("lift missing") {
		l.cam.Lost += b.between(-0.1, 0.2)
	}
	if b.again && b.often("lobe in set 2") {
		l.Set = 2
	}
	if b.seldom("lobe wrong") {
		l.Wrong = oneOf(b.chance, "wrong with lobe", wrongs...)
	}
	return l
}

// lobeAgain is a lobe read once more, in the other set; its card is said once.
func (b *bench) lobeAgain(l lobe) {
	l.Set, l.rows, l.Wrong = 3-l.Set, nil, ""
	b.readLobe(&l)
	file := fmt.Sprintf("lobe-%d.csv", len(b.job.Lobes)+1)
	b.line("[[lobe]]")
	b.key("name", strconv.Quote(l.Name))
	b.key("on", strconv.Quote(l.on))
	b.key("valve", strconv.Quote(l.valve))
	b.length("lift", (l.checking+l.lash)/l.ratio)
	b.key("set", strconv.Itoa(l.Set))
	b.key("readings", strconv.Quote(file))
	b.writeGauge(&l)
	b.keep(file, b.liftSheet(&l))
	b.job.Lobes = append(b.job.Lobes, l.Lobe)
	b.has("lobe again")
}

// readLobe reads the lobe, and spoils what is wrong with it.
func (b *bench) readLobe(l *lobe) {
	c := l.cam
	c.Slack, c.Tilt, c.Phase = b.between(0, l.cam.Slack), b.about(l.known), b.about(math.Pi)
	zero := b.start + l.throw*degree
	if l.Set == 2 {
		zero += b.moved * degree
	}
	for _, u := range b.lobePlaces(l, c) {
		shown := c.Lift(u) + b.about(l.bound)
		l.rows = append(l.rows, liftRow{crank: b.protractor.read(zero + u*degree), lift: math.Round(shown/l.step) * l.step})
	}
	l.Opens, l.Closes = c.Event(l.checking, -1), c.Event(l.checking, 1)
	b.spoil(l)
	l.Rows = len(l.rows)
}

// lobePlaces is where a lobe is read: about the checking lift on both flanks, higher up,
// at the top, and seldom on the heel.
func (b *bench) lobePlaces(l *lobe, c lobetest.Cam) (places []float64) {
	apart, each := b.between(2.6, 3), b.number("about the lift", 2, 4)
	for _, side := range []float64{-1, 1} {
		at := shownAt(c, l.checking, side)
		if l.Wrong == "not straddled" {
			at, each = shownAt(c, l.checking+1.2, side), 1
		}
		for k := range each {
			places = append(places, at+apart*(float64(k)-float64(each-1)/2)+b.about(0.3))
		}
		if l.Wrong == "few rows" {
			continue
		}
		for _, share := range []float64{0.75, 0.92} {
			at := shownAt(c, share*l.cam.Top, side)
			places = append(places, at-1.5+b.about(0.5), at+1.5+b.about(0.5))
		}
	}
	if l.Wrong != "few rows" {
		places = append(places, l.cam.Nose+b.about(2))
	} else {
		places = places[:3]
	}
	if b.seldom("heel read") {
		places = append(places, l.cam.Nose-l.cam.Before-45, l.cam.Nose-l.cam.Before-60)
	}
	slices.Sort(places)
	if l.Wrong == "one flank" {
		return slices.DeleteFunc(places, func(u float64) bool { return u > l.cam.Nose+3 })
	}
	if b.seldom("begun at the top") { // and once round, to come up from below
		i, _ := slices.BinarySearch(places, l.cam.Nose-3)
		places = slices.Concat(places[i:], places[:i])
	}
	return places
}

// shownAt is where the gauge shows a lift on a flank, -1 the opening one, by halving.
func shownAt(c lobetest.Cam, lift, side float64) float64 {
	low, high := 0.0, 180.0
	for range 50 {
		if middle := (low + high) / 2; c.Lift(c.Nose+side*middle) > lift {
			low = middle
		} else {
			high = middle
		}
	}
	return c.Nose + side*low
}

// spoil does to the rows what is wrong with them.
func (b *bench) spoil(l *lobe) {
	row := &l.rows[b.IntN(len(l.rows))]
	switch l.Wrong {
	case "dial turn":
		row.lift += 1
	case "point":
		if row.lift *= 10; row.lift > 50 {
			row.lift /= 100
		}
	case "ten degrees":
		row.crank += 10
	case "backward rows":
		for range 3 {
			l.rows[b.IntN(len(l.rows))].backward = true
		}
	case "out of order":
		i := b.IntN(len(l.rows) - 1)
		l.rows[i], l.rows[i+1] = l.rows[i+1], l.rows[i]
	case "inches":
		for i := range l.rows {
			l.rows[i].lift /= 25.4
		}
	}
}

// liftSheet is a file of lifts: its columns and units as people write them.
func (b *bench) liftSheet(l *lobe) string {
	between := oneOf(b.chance, "between a lift's columns", ",", ";", "\t")
	comma := between != "," && b.seldom("decimal commas of lifts")
	unit, mm, suffix := "", b.inch, ""
	switch oneOf(b.chance, "unit of lifts", "job's", "job's", "mm", "in", "each") {
	case "mm":
		unit, mm = "_mm", 1
	case "in":
		unit, mm = "_in", 25.4
	case "each":
		suffix, mm = " mm", 1
	}
	turns := slices.ContainsFunc(l.rows, func(r liftRow) bool { return r.backward }) || b.seldom("turn of lifts")
	notes := b.seldom("notes of lifts")
	header := []string{"angle", "lift" + unit}
	if turns {
		header = append(header, "turn")
	}
	if notes {
		header = append(header, "note")
	}
	out := strings.Join(header, between) + "\n"
	for i, r := range l.rows {
		cells := []string{b.protractor.onWheel(r.crank), short(r.lift/mm) + suffix}
		if comma {
			cells[0], cells[1] = strings.Replace(cells[0], ".", ",", 1), strings.Replace(cells[1], ".", ",", 1)
		}
		if turns {
			cells = append(cells, map[bool]string{true: "b", false: "forward"}[r.backward])
		}
		if notes {
			cells = append(cells, map[bool]string{true: "", false: "<b>note</b>"}[i%4 > 0])
		}
		out += strings.Join(cells, between) + "\n"
	}
	return out
}
