package jobtest

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// names are what marks are called, some of them awkward.
var names = []string{
	"locking pin hole", "pulley notch", "crank wheel gap", "cam lock flats", "inlet cam's edge after the gap, second tooth", "Zündmarke №2",
	`a "quoted" name`, "<b>bold</b> & more", "pipe | and *star*",
}

// inventMarks draws marks, and figures of a healthy engine for some of them.
func (b *bench) inventMarks() {
	b.job.Marks = b.number("marks", 1, 6)
	if b.rarely("many marks") {
		b.job.Marks *= 3
	}
	b.has("marks")
	var healthy strings.Builder
	for i := range b.job.Marks {
		name := oneOf(b.chance, "mark name", names...)
		if i > 0 {
			name += fmt.Sprintf(" %d", i+1)
		}
		figure := b.mark(name)
		if b.often("healthy figure") {
			healthy.WriteString(figure)
		}
	}
	if healthy.Len() > 0 {
		b.job.Healthy = true
		b.has("known-good")
		b.keep(HealthyFile, "[[from]]\ntitle = \"invented healthy engine\"\nreadings = 24\ntdc_standard_uncertainty = 0.05\n"+healthy.String())
	}
}

// mark draws a mark, and is what a known-good file says of it.
func (b *bench) mark(name string) (figure string) {
	on := oneOf(b.chance, "on", b.members...)
	b.line("[[mark]]")
	b.key("name", strconv.Quote(name))
	b.key("on", strconv.Quote(on))
	off, again := b.about(1), func() {}
	if b.seldom("slipped") {
		off = b.about(40)
	}
	figure = fmt.Sprintf("[[mark]]\nname = %s\non = %s\nstandard_uncertainty = 0.15\n", strconv.Quote(name), strconv.Quote(on))
	if b.often("read") {
		nominal := b.readMark(off)
		figure += "should_be = " + short(nominal) + "\nof_tdc = 0.03\n"
		b.has("mark read")
		if b.again && b.mostly("mark again") {
			again = func() { b.markAgain(name, on, nominal+off) }
		}
	} else {
		figure += b.offMark(on, off) + fmt.Sprintf("off = %s\nin = \"crank degrees\"\n", short(b.about(0.5)))
		b.has("mark off")
	}
	if b.often("limit") {
		b.key("limit", short(oneOf(b.chance, "limit of", b.between(0.2, 3), 20, 0)))
	}
	if b.often("healthy limit") {
		figure += "limit = 1\n"
	}
	if b.seldom("certain") {
		b.key("certain", "true")
	}
	if b.seldom("source") {
		b.key("source", `"invented"`)
	}
	again()
	return figure
}

// markAgain is a mark read once more, in the second set, at degrees after TDC.
func (b *bench) markAgain(name, on string, at float64) {
	crank := b.protractor.read(b.start + (at+b.moved+b.about(0.2))*degree)
	if !b.protractor.reaches(crank) {
		return
	}
	b.line("[[mark]]")
	b.key("name", strconv.Quote(name))
	b.key("on", strconv.Quote(on))
	b.key("read", b.quoted(crank))
	b.key("set", "2")
	b.job.Again++
	b.has("mark again")
}

// readMark draws a mark read on the protractor, off degrees late, and is where it
// should be.
func (b *bench) readMark(off float64) (nominal float64) {
	nominal = math.Round(b.about(40))
	if b.often("at TDC") {
		nominal = 0
	} else if b.protractor.wraps != 90 && b.often("far") {
		nominal = math.Round(b.about(350))
	}
	var list []string
	for range b.number("repeats", 1, 3) {
		crank := b.protractor.read(b.start + (nominal+off+b.about(0.2))*degree)
		if !b.protractor.reaches(crank) {
			crank = 0
		}
		list = append(list, b.quoted(crank))
	}
	b.key("read", "["+strings.Join(list, ", ")+"]")
	b.shouldBe(nominal)
	if b.seldom("throw") {
		b.key("zero", `"throw"`)
		b.has("zero throw")
	}
	return nominal
}

// shouldBe writes what a mark should be, as a number, with a side, as nothing or as
// unknown.
func (b *bench) shouldBe(nominal float64) {
	switch {
	case b.seldom("unknown"):
		b.key("should_be", `"unknown"`)
		b.has("unknown")
	case nominal < 0 && b.often("sided"):
		b.key("should_be", strconv.Quote(short(-nominal)+" BTDC"))
	case nominal != 0 || b.often("said"):
		b.key("should_be", short(nominal))
	}
}

// offMark draws a mark measured as a shift of off crank degrees, and is what the
// known-good file says of its other member.
func (b *bench) offMark(on string, off float64) (against string) {
	unit := oneOf(b.chance, "unit of off", "crank degrees", "mm chord", "teeth", "cam degrees", "mm arc")
	b.has("off in " + unit)
	member := off
	if unit == "cam degrees" || unit != "crank degrees" && b.camSpeed[on] {
		member /= 2
	}
	size, words := b.sized(unit, member)
	b.key("off", short(size))
	b.key("in", strconv.Quote(unit))
	b.job.Shifts = append(b.job.Shifts, short(size)+";"+words)
	if b.often("mark known to") {
		b.key("known_to", short(math.Abs(size)*0.05+0.05))
	}
	if other := oneOf(b.chance, "against", b.members...); other != on && b.seldom("against said") {
		b.key("against", strconv.Quote(other))
		if other != "crank" {
			against = "against = " + strconv.Quote(other) + "\n"
			b.has("mark against")
		}
	}
	if b.seldom("off should be") {
		b.shouldBe(math.Round(b.about(5)))
	}
	return against
}

// sized is an angle of a member, in degrees, in a unit of a mark's shift, and that unit
// as words for evendrop convert. It writes the key that the unit needs.
func (b *bench) sized(unit string, angle float64) (size float64, words string) {
	radius, pitches := b.between(15, 120), 30+b.IntN(40)
	switch unit {
	case "teeth":
		b.key("pitches", strconv.Itoa(pitches))
		return angle / 360 * float64(pitches), "teeth;--pitches;" + strconv.Itoa(pitches)
	case "mm arc":
		b.length("radius", radius)
		return angle * degree * radius, "mm;--radius;" + short(radius)
	case "mm chord":
		b.length("radius", radius)
		return 2 * radius * math.Sin(angle*degree/2), "mm;--chord;--radius;" + short(radius)
	}
	return angle, strings.TrimSuffix(unit, " degrees")
}
