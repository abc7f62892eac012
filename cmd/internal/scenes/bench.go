package scenes

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

const degree = math.Pi / 180

// bench is an invented engine with a protractor and a dial gauge on it.
type bench struct {
	stroke, rod float64 // mm
	tdc         float64 // crank degrees on the protractor
	zero        float64 // of the gauge, mm
	lash        float64 // mm
	step        float64 // of the protractor, degrees
	inch        float64 // mm in the unit that depths are written in
	quadrants   bool    // the protractor counts to 90 either way
	rng         *rand.Rand
}

// four is a bench with a common four-cylinder engine; every seed errs in its own way.
func four(seed uint64, tdc float64) bench {
	return bench{stroke: 81.4, rod: 133, tdc: tdc, zero: 4.2, lash: 0.06, step: 0.5, inch: 1, rng: rand.New(rand.NewPCG(seed, 20261126))}
}

// drop is how far the crank has let the piston down at u degrees from TDC.
func (b bench) drop(u float64) float64 {
	throw := b.stroke / 2
	sin, cos := math.Sincos(u * degree)
	return throw + b.rod - throw*cos - math.Sqrt(b.rod*b.rod-throw*throw*sin*sin)
}

// at is the angle before or after TDC, positive, at which the piston is so low.
func (b bench) at(drop float64) float64 {
	low, high := 0.0, 90.0
	for range 60 {
		if middle := (low + high) / 2; b.drop(middle) < drop {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// read is what the protractor shows with the crank at u degrees from TDC, read to its step.
func (b bench) read(u float64) float64 {
	shown := b.tdc + u + b.rng.NormFloat64()*b.step/8
	return math.Round(shown/b.step) * b.step
}

// angle is the same as somebody writes it.
func (b bench) angle(u float64) string {
	shown := b.read(u)
	switch {
	case b.quadrants && shown < 0:
		return fmt.Sprintf("%g BTDC", -shown)
	case b.quadrants:
		return fmt.Sprintf("%g ATDC", shown)
	}
	return fmt.Sprintf("%g", math.Mod(shown+720, 360))
}

// quoted is an angle for a job file.
func (b bench) quoted(u float64) string {
	if text := b.angle(u); !b.quadrants {
		return text
	} else {
		return fmt.Sprintf("%q", text)
	}
}

// readings is a file of depths on both flanks, six on each, forward and back.
func (b bench) readings() string {
	return b.readingsAt(-30, -26, -21, -17, -13, -9, 9, 13, 17, 21, 26, 30)
}

// readingsAt is the same at other places, in degrees from TDC, forward and back.
func (b bench) readingsAt(places ...float64) string {
	var out strings.Builder
	out.WriteString("# invented readings\nangle,depth,turn\n")
	for i := range 2 * len(places) {
		u, turn, slack := places[i%len(places)], "forward", b.lash/2
		if i >= len(places) {
			u, turn, slack = -u+1, "backward", -slack
		}
		if u > 0 {
			slack = -slack
		}
		depth := b.zero + b.drop(u) + slack + b.rng.NormFloat64()*0.012
		fmt.Fprintf(&out, "%s,%s,%s\n", b.angle(u), b.depth(depth), turn)
	}
	return out.String()
}

// depth is a depth as the gauge shows it.
func (b bench) depth(mm float64) string {
	if b.inch != 1 {
		return fmt.Sprintf("%.4f", math.Round(mm/b.inch/0.0005)*0.0005)
	}
	return fmt.Sprintf("%.2f", mm)
}

// stops is pairs of contacts with a stop, at the angles from TDC.
func (b bench) stops(at ...float64) string {
	var list []string
	for _, u := range at {
		list = append(list, "["+b.quoted(-u)+", "+b.quoted(u)+"]")
	}
	return "stops = [" + strings.Join(list, ", ") + "]\n"
}

// dwells is where an eye saw the piston stop and start, looking both ways, as often.
func (b bench) dwells(times int) string {
	var list []string
	for range times {
		half := 7 + b.rng.NormFloat64()*0.3
		late := b.at(b.drop(half) + b.lash)
		list = append(list, fmt.Sprintf(`{ still = %s, moves = %s, turn = "forward" }`, b.quoted(-half), b.quoted(late)),
			fmt.Sprintf(`{ still = %s, moves = %s, turn = "backward" }`, b.quoted(half), b.quoted(-late)))
	}
	return "dwell = [" + strings.Join(list, ", ") + "]\n"
}

// views is where the crown stood at one place in the borescope, forward and back.
func (b bench) views() string {
	const half = 20
	return fmt.Sprintf("views = [{ before = %s, after = %s, turn = \"forward\" }, { before = %s, after = %s, turn = \"backward\" }]\n",
		b.quoted(-half), b.quoted(half), b.quoted(half+0.5), b.quoted(-half-0.5))
}

// lifts is a file of a lobe's lifts, its top so many mm, whose nose stands so many crank degrees
// after TDC: a flank is a cosine, which no maker grinds.
func (b bench) lifts(nose, half, top float64) string {
	out := "# invented lifts\nangle,lift\n"
	for _, share := range []float64{-0.80, -0.775, -0.6, -0.5, -0.36, -0.2, 0, 0.2, 0.36, 0.5, 0.6, 0.775, 0.80} {
		u := share * half
		lift := top * (1 + math.Cos(math.Pi*u/half)) / 2
		out += fmt.Sprintf("%s,%s\n", b.angle(nose+u), b.depth(lift+b.rng.NormFloat64()*0.006))
	}
	return out
}

// mark is a [[mark]] read on the protractor, late by so many degrees of where it should
// be. In a quadrant it is written with its side.
func (b bench) mark(name, on string, should, late, limit float64) string {
	return fmt.Sprintf("\n[[mark]]\nname = %q\non = %q\nread = [%s, %s]\nshould_be = %g\nlimit = %g\nsource = \"invented\"\n",
		name, on, b.quoted(should+late), b.quoted(should+late), should, limit)
}

// flats is a [[mark]] of a cam, off by crank degrees of what was measured.
func flats(name, on string, late, known, limit float64) string {
	return fmt.Sprintf("\n[[mark]]\nname = %q\non = %q\noff = %g\nin = \"crank degrees\"\nknown_to = %g\nlimit = %g\nsource = \"invented\"\n",
		name, on, late, known, limit)
}

// lobe is a [[lobe]] of cylinder 1 with its card, checked at a lift in the job's unit.
func lobe(valve, file string, lift float64, opens, closes string, limit float64) string {
	return fmt.Sprintf("\n[[lobe]]\nname = \"%s lobe, cylinder 1\"\non = \"cam\"\nvalve = %[1]q\nreadings = %q\nlift = %g\nopens = %q\ncloses = %q\nlimit = %g\nsource = \"invented card\"\n",
		valve, file, lift, opens, closes, limit)
}

// head is a job file as far as its cylinders.
func head(title, engine string) string {
	return fmt.Sprintf(`# An invented job: nobody built this engine, and all numbers are made up.
title = %q
unit  = "mm"

[engine]
name = %q
bore = 79.0
stroke = 81.4
rod = 133.0
known_to = { stroke = 0.1, rod = 0.5 }

[protractor]
step = 0.5
error = 0.25
off_centre = 0.2
radius = 100.0

[gauge]
kind = "dial"
scale_known_to = 0.02
lash = 0.06
lash_known_to = 0.06
`, title, engine)
}

// first is cylinder 1, read in a file.
const (
	first        = "\n[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\n"
	firstFile    = "cylinder-1.csv"
	oneCam       = "\n[drive]\nlayout = \"one cam\"\ncrank_wheel = \"60-2\"\ncrank_wheel_on = \"flywheel\"\nflywheel_bolts = 8\n"
	twoCams      = "\n[drive]\nlayout = \"two cams\"\ncrank_sprocket = 21\n"
	pin, notch   = "locking pin hole", "pulley notch"
	gap, camFlat = "crank wheel gap", "cam lock flats"
)
