package jobtest

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// inventCylinder draws a cylinder's evidence, of one kind or several.
func (b *bench) inventCylinder(t throw) {
	tdc := b.start + t.true*degree
	c := Cylinder{Number: t.number, TDC: b.protractor.clean(tdc)}
	b.line("[[cylinder]]")
	b.key("number", strconv.Itoa(t.number))
	if t.nominal != 0 || b.seldom("throw said") {
		b.key("throw", short(t.nominal))
	}
	kinds := map[string]func(*Cylinder, float64){"readings": b.readings, "stops": b.stops, "dwell": b.dwell, "views": b.views}
	names := []string{"readings", "stops", "dwell", "views"}
	first := oneOf(b.chance, "evidence", names...)
	var own []string
	for _, name := range names {
		if name == first || b.seldom("also "+name) {
			kinds[name](&c, tdc)
			own = append(own, name)
			b.has(name)
		}
	}
	if len(own) > 1 {
		b.has("mixed")
	}
	if len(own) > 1 && slices.Contains(own, "readings") {
		b.has("readings mixed")
	}
	b.job.Cylinders = append(b.job.Cylinders, c)
}

// angle is what is read with the crank at u from TDC, as the job file writes it.
func (b *bench) angle(tdc, u float64) string { return b.quoted(b.seen(tdc, u)) }

// seen is the crank angle that is read with the crank at u from TDC, seldom ten
// degrees beside.
func (b *bench) seen(tdc, u float64) float64 {
	crank := b.protractor.read(tdc + u)
	if b.rarely("mistyped") && b.seldom("so seldom") && b.protractor.reaches(crank+10) {
		crank += 10
		b.has("pair mistyped")
	}
	return crank
}

// quoted is a crank angle for the job file: text where it is no mere number.
func (b *bench) quoted(crank float64) string {
	text := b.protractor.written(crank)
	if strings.ContainsAny(text, " °") {
		return strconv.Quote(text)
	}
	return text
}

// stops draws contacts with one stop or two, each met once or a few times.
func (b *bench) stops(c *Cylinder, tdc float64) {
	inFile := b.seldom("stops in a file")
	var inline, rows []string
	for range b.number("stops", 1, 2) {
		drop := b.engine.drop(b.between(15, 45) * degree)
		for range b.number("contacts", 1, 3) {
			before, after := b.seen(tdc, b.engine.angleAt(drop, false)), b.seen(tdc, b.engine.angleAt(drop, true))
			inline = append(inline, "["+b.quoted(before)+", "+b.quoted(after)+"]")
			rows = append(rows, b.protractor.written(before)+","+b.protractor.written(after))
			c.Pairs = append(c.Pairs, b.protractor.written(before), b.protractor.written(after))
		}
	}
	if !inFile {
		b.key("stops", "["+strings.Join(inline, ", ")+"]")
		return
	}
	name := fmt.Sprintf("stops-%d.csv", c.Number)
	b.key("stops", strconv.Quote(name))
	b.keep(name, "rising,falling\n"+strings.Join(rows, "\n")+"\n")
	b.has("stops in a file")
}

// dwell draws where an eye saw motion end and begin, looking one way or both.
func (b *bench) dwell(c *Cylinder, tdc float64) {
	half := b.between(4, 12) * degree
	b.pairs("dwell", "still", "moves", tdc, func(first bool) float64 {
		seen := b.engine.drop(half * (1 + b.about(0.1)))
		if !first {
			seen += b.engine.lash
		}
		return seen
	})
}

// views draws where the crown stood at the same place in the borescope.
func (b *bench) views(c *Cylinder, tdc float64) {
	drop := b.engine.drop(b.between(12, 30) * degree)
	b.pairs("views", "before", "after", tdc, func(first bool) float64 {
		low := drop + b.about(0.1)
		if first {
			return low - b.engine.lash/2
		}
		return low + b.engine.lash/2
	})
}

// pairs writes pairs of angles, come to in turn, at which the crank has let the piston
// down by a drop: of the first angle, and of the second.
func (b *bench) pairs(key, first, second string, tdc float64, drop func(first bool) float64) {
	var list []string
	both := b.often(key + " both ways")
	for range b.number(key, 1, 3) {
		for _, turn := range []string{"forward", "backward"} {
			forward := turn == "forward"
			if !forward && !both {
				continue
			}
			from := b.angle(tdc, b.engine.angleAt(math.Max(0.001, drop(true)), !forward))
			to := b.angle(tdc, b.engine.angleAt(math.Max(0.001, drop(false)), forward))
			said := ", turn = " + strconv.Quote(turn)
			if forward && b.seldom("turn left out") {
				said = ""
			}
			list = append(list, "{ "+first+" = "+from+", "+second+" = "+to+said+" }")
		}
	}
	b.key(key, "["+strings.Join(list, ", ")+"]")
}
