package jobtest

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// reading is a row of a readings file.
type reading struct {
	u       float64 // radians from TDC
	forward bool
	set     int
	angle   float64 // crank degrees as read
	depth   string
}

// readings draws readings on both flanks, turned one way or both.
func (b *bench) readings(c *Cylinder, tdc float64) {
	zero := b.about(20)
	if b.sameZero {
		zero = b.about(0.3)
	}
	list := b.set(1, tdc, zero)
	if b.moved != 0 {
		tdc += b.moved * degree
		list = append(list, b.set(2, tdc, zero)...)
		c.TDC, b.again = b.protractor.clean(tdc), b.again || c.Number == 1
		b.has("sets")
	}
	if b.rarely("blunder") {
		b.blunder(&list[b.IntN(len(list))])
		b.has("blunder")
	}
	if b.moved == 0 && b.seldom("out of order") {
		b.Shuffle(len(list), func(i, k int) { list[i], list[k] = list[k], list[i] })
		b.has("out of order")
	}
	c.ReadingsFile = fmt.Sprintf("cylinder-%d.csv", c.Number)
	b.key("readings", strconv.Quote(c.ReadingsFile))
	b.keep(c.ReadingsFile, b.sheet(list))
	for i, r := range list {
		way := "b "
		if r.forward {
			way = "f "
		}
		if i > 0 && r.set > list[i-1].set {
			way = fmt.Sprintf("set %d\n", r.set) + way
		}
		c.Typed = append(c.Typed, way+b.protractor.written(r.angle)+" "+r.depth)
	}
}

// set is the readings of a set, TDC at a crank angle of the wheel.
func (b *bench) set(set int, tdc, zero float64) []reading {
	list := b.places()
	for i := range list {
		r := &list[i]
		r.set = set
		r.angle = b.protractor.read(tdc + r.u)
		r.depth = b.gauge.read(b.engine.low(r.u, r.forward), zero, b.about(1))
	}
	return list
}

// places are where the crank is stopped, in the order that it comes to them.
func (b *bench) places() []reading {
	ways := []bool{true}
	if b.often("both ways") {
		ways = append(ways, false)
		b.has("both ways")
	} else {
		b.has("one way")
	}
	reach, each := b.between(15, 40), b.number("readings on a flank", 2, 12)
	switch {
	case b.rarely("many readings"):
		each *= 10
	case b.rarely("near the top"):
		reach = b.between(2, 6)
	}
	flanks := []float64{-1, 1}
	if b.rarely("one flank") {
		flanks = oneOf(b.chance, "flank", flanks[:1], flanks[1:])
		b.has("one flank")
	}
	var list []reading
	for _, forward := range ways {
		var sweep []reading
		for range each {
			for _, side := range flanks {
				sweep = append(sweep, reading{u: side * b.between(reach/5, reach) * degree, forward: forward})
			}
		}
		slices.SortFunc(sweep, func(x, y reading) int {
			if (x.u < y.u) == forward {
				return -1
			}
			return 1
		})
		list = append(list, sweep...)
	}
	return list
}

// blunder mistypes a reading: a turn of the dial, a place of the point, ten degrees.
func (b *bench) blunder(r *reading) {
	switch oneOf(b.chance, "slip", "ten degrees", "dial turn", "point") {
	case "ten degrees":
		if b.protractor.reaches(r.angle + 10) {
			r.angle += 10
		}
	case "dial turn":
		r.depth = short(valueOf(r.depth) + 1/b.inch)
	default:
		r.depth = short(valueOf(r.depth) * 10)
	}
}

// sheet is a readings file: its columns and what parts them as people write them.
func (b *bench) sheet(list []reading) string {
	between := oneOf(b.chance, "between columns", ",", ";", "\t")
	comma := between != "," && b.seldom("decimal commas")
	unit := ""
	if b.seldom("units of depths") {
		unit = " " + b.unit
	}
	turns := slices.ContainsFunc(list, func(r reading) bool { return !r.forward }) || b.often("turn column")
	notes := b.seldom("note column")
	sets := list[len(list)-1].set > 1 || b.rarely("set column")
	header := []string{"angle", "depth"}
	if turns {
		header = append(header, "turn")
	}
	if notes {
		header = append(header, "sweep", "note")
	}
	if sets {
		header = append(header, "set")
	}
	var out strings.Builder
	row := func(cells []string) { out.WriteString(strings.Join(cells, between) + "\n") }
	if b.seldom("remark") {
		out.WriteString("# invented\n")
	}
	row(header)
	for i, r := range list {
		cells := []string{b.protractor.written(r.angle), r.depth + unit}
		if comma {
			cells[0], cells[1] = strings.Replace(cells[0], ".", ",", 1), strings.Replace(cells[1], ".", ",", 1)
		}
		if turns {
			cells = append(cells, map[bool]string{true: "forward", false: "b"}[r.forward])
		}
		if notes {
			cells = append(cells, "A", map[bool]string{true: "", false: "wobbly <&> \u00e4"}[i%5 > 0])
		}
		if sets {
			cells = append(cells, map[bool]string{true: "", false: strconv.Itoa(r.set)}[r.set == 1 && i%2 > 0])
		}
		row(cells)
	}
	return out.String()
}
