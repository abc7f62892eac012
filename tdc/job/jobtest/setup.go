package jobtest

import (
	"math"
	"strconv"
)

// inventEngine draws the engine and what the job says of it.
func (b *bench) inventEngine() {
	stroke := oneOf(b.chance, "stroke", 81.4, 42.5, 92, 400)
	rod := stroke * b.between(1.35, 2.1)
	offset := 0.0
	b.line("[engine]")
	if b.often("name") {
		b.key("name", `"invented four"`)
	}
	knowsStroke, knowsRod := !b.rarely("stroke unknown"), !b.seldom("rod unknown")
	if knowsStroke {
		stroke = b.length("stroke", stroke)
	}
	if knowsRod {
		rod = b.length("rod", rod)
	}
	if b.often("bore") {
		b.length("bore", stroke*b.between(0.8, 1.2))
	}
	flags := []string{"--unit", b.unit, "--stroke", short(stroke / b.inch), "--rod", short(rod / b.inch)}
	if b.seldom("pin offset") {
		pin := b.length("pin_offset", stroke*b.about(0.02))
		offset -= pin
		flags = append(flags, "--pin-offset="+short(pin/b.inch))
	}
	if b.rarely("bore offset") {
		bore := b.length("bore_offset", stroke*b.about(0.1))
		offset += bore
		flags = append(flags, "--bore-offset="+short(bore/b.inch))
	}
	var known [3]float64
	if b.often("known to") {
		known = [3]float64{b.between(0, 0.2), b.between(0, 0.5), b.between(0, 0.5)}
		if b.rarely("known exactly") {
			known = [3]float64{}
		}
		b.key("known_to", "{ stroke = "+short(known[0]/b.inch)+", rod = "+short(known[1]/b.inch)+", offset = "+short(known[2]/b.inch)+" }")
		b.has("known_to")
	}
	if b.often("throw limit") {
		b.key("throw_limit", short(b.between(0.2, 2)))
	}
	if b.seldom("crown limit") {
		b.length("crown_limit", b.between(0.05, 0.5))
	}
	if knowsStroke && knowsRod {
		b.job.Motion = flags
	} else {
		b.has("engine unknown")
	}
	if offset != 0 {
		b.has("offset")
	}
	b.engine = engine{throw: (stroke + b.about(known[0])) / 2, rod: rod + b.about(known[1]), across: offset + b.about(known[2])}
}

// inventProtractor draws the wheel; nothing said is a wheel of 360 read to 0.5.
func (b *bench) inventProtractor() {
	p := protractor{wraps: 360, step: 0.5, bound: 0.25, waves: float64(b.number("waves", 1, 8)), offset: b.about(math.Pi), phase: b.about(math.Pi)}
	off, radius := 0.5, 100.0
	if b.mostly("protractor") {
		b.line("[protractor]")
		p.wraps = oneOf(b.chance, "wraps", 360, 180, 90)
		p.against = b.often("against")
		p.step = oneOf(b.chance, "step", 0.5, 0.1, 1, 0.25, 0.05)
		p.bound = p.step * oneOf(b.chance, "bound in steps", 0.5, 1, 0)
		p.minutes = b.rarely("minutes")
		if p.wraps == 360 && b.rarely("turns counted") {
			p.turns = oneOf(b.chance, "turns", -360.0, 360)
		}
		p.sided = p.wraps == 90 || b.seldom("sides")
		b.key("wraps", strconv.Itoa(p.scale()))
		b.key("counts", map[bool]string{true: `"against"`, false: `"with"`}[p.against])
		b.key("step", short(p.step))
		b.key("error", short(p.bound))
		if b.often("off centre") {
			off = b.length("off_centre", oneOf(b.chance, "off centre by", b.between(0, 1), 0, 5))
			radius = b.length("radius", b.between(60, 200))
		}
	}
	p.wheel = off / radius * b.between(0, 1)
	if p.sided {
		b.has("sides")
	}
	b.has("wraps " + strconv.Itoa(p.scale()))
	b.has(map[bool]string{true: "against", false: "with"}[p.against])
	b.protractor = p
	b.start = b.about(math.Pi)
	if p.wraps == 90 {
		b.start = b.about(20 * degree)
	}
}

// inventGauge draws the gauge; nothing said is a dial gauge that counts down.
func (b *bench) inventGauge() {
	g := gauge{kind: "dial", step: 0.01, bound: 0.02, unit: b.inch, scale: 1 + b.about(0.05)}
	lash, half := 0.06, 0.06
	if b.mostly("gauge") {
		b.line("[gauge]")
		g.kind = oneOf(b.chance, "gauge kind", "dial", "rod", "borescope")
		g.up = b.often("counts up")
		g.step = map[string]float64{"dial": 0.01, "rod": 0.05, "borescope": 0.5}[g.kind]
		if b.unit == "in" {
			g.step = map[string]float64{"dial": 0.0254, "rod": 0.127, "borescope": 0.508}[g.kind]
		}
		g.bound = g.step * oneOf(b.chance, "bound in steps", 1.0, 2, 0)
		b.key("kind", strconv.Quote(g.kind))
		b.key("counts", map[bool]string{true: `"up"`, false: `"down"`}[g.up])
		b.length("step", g.step)
		b.length("error", g.bound)
		if b.often("lash") {
			lash, half = b.between(0, 0.15), b.between(0, 0.1)
			b.length("lash", lash)
			b.length("lash_known_to", half)
		}
		if b.seldom("scale known") {
			b.key("scale_known_to", "0.07")
		}
		b.sameZero = b.often("same zero")
		b.key("same_zero", strconv.FormatBool(b.sameZero))
		if b.seldom("zero at deck") {
			b.key("zero_at_deck", "true")
		}
	}
	b.engine.lash = math.Max(0, lash+b.about(half))
	b.has(g.kind)
	b.has(map[bool]string{true: "up", false: "down"}[g.up])
	b.gauge = g
}

// inventThrows draws the cylinders, in the order of the file: evenly spaced over two
// turns, some of them left out. On a wheel in quadrants only those that come up with
// the first can be read.
func (b *bench) inventThrows() {
	n := 1
	if b.often("several cylinders") {
		n = b.number("cylinders", 1, 8)
	}
	for i := range n {
		t := throw{number: i + 1, nominal: float64(i) * 720 / float64(n)}
		if b.protractor.wraps == 90 {
			t.nominal = 360 * float64(i%2)
		}
		if i > 0 {
			t.true = b.about(0.5)
			if b.rarely("throw out of place") {
				t.true = b.about(5)
			}
		}
		t.true += t.nominal
		if i > 0 && b.seldom("cylinder left out") {
			continue
		}
		b.throws = append(b.throws, t)
	}
	if len(b.throws) > 1 && b.rarely("without the first") {
		b.throws = b.throws[1:]
	}
	if len(b.throws) > 1 {
		b.has("cylinders")
	}
}

func valueOf(text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("jobtest wrote " + text + " for a number")
	}
	return x
}
