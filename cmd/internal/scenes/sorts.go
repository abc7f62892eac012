package scenes

import (
	"fmt"
	"strings"
)

// oneSlip is a flywheel that sits late on its crank, and four marks that show it.
func oneSlip() Scene {
	b := four(1, 3.3)
	return Scene{Name: "01-one-slip", Shows: "one slip, four marks, two of them outside", files: []file{
		{JobFile, head("Invented petrol four, one slip", "invented 1.6 petrol four") + first + oneCam +
			b.mark(pin, "flywheel", 0, 2.8, 1) + b.mark(notch, "pulley", 0, 0.2, 2) + b.mark(gap, "crank wheel", -84, 2.8, 1.5) +
			flats(camFlat, "cam", 0.4, 0.6, 2)},
		{firstFile, b.readings()},
	}}
}

// stopOnly is TDC by a stop alone.
func stopOnly() Scene {
	b := four(2, 356.4)
	return Scene{Name: "02-stop-only", Shows: "a stop and nothing else: no curve, no picture of readings", files: []file{
		{JobFile, head("Invented four, by a stop in the plug hole", "invented four") + "\n[[cylinder]]\nnumber = 1\n" + b.stops(31, 31, 31, 24) + oneCam +
			b.mark(notch, "pulley", 0, 0.4, 2)},
	}}
}

// dwellOnly is TDC by eye alone.
func dwellOnly() Scene {
	b := four(3, 8)
	return Scene{Name: "03-dwell-only", Shows: "dwells alone: a wide answer", files: []file{
		{JobFile, head("Invented four, by eye through the plug hole", "invented four") + "\n[[cylinder]]\nnumber = 1\n" + b.dwells(3) + oneCam +
			b.mark(notch, "pulley", 0, 5, 3)},
	}}
}

// everyKind is every kind of evidence, and a lobe.
func everyKind() Scene {
	b := four(4, 14.2)
	return Scene{Name: "04-every-kind", Shows: "readings, a stop, dwells, equal views, marks and a lobe", files: []file{
		{JobFile, head("Invented four, everything tried", "invented four with one cam") + first + b.stops(31, 31) + b.dwells(2) + b.views() + oneCam +
			b.mark(pin, "flywheel", 0, 0.3, 1) + b.mark(notch, "pulley", 0, -0.5, 2) + lobe("inlet", "inlet-1.csv", 1, "12 BTDC", "48 ABDC", 2)},
		{firstFile, b.readings()},
		{"inlet-1.csv", b.lifts(112.5, 152.5, 9.4)},
	}}
}

// eightInInches is a crank whose cylinder 6 comes up late, and a crown that stands low.
func eightInInches() Scene {
	s := eight(bench.readings)
	s.Name, s.Shows = "05-eight-in-inches", "eight cylinders in inches, cylinder 6 late by 0.6 deg, the crown of cylinder 3 low"
	return s
}

// eight is such an engine as it is read in some way.
func eight(read func(bench) string) Scene {
	text := `# An invented job: nobody built this engine, and all numbers are made up.
title = "Invented V8 in inches, one throw off"
unit  = "in"

[engine]
name = "invented V8"
bore = 4.000
stroke = 3.480
rod = 5.700
pin_offset = 0.0
bore_offset = 0.0
throw_limit = 0.4
crown_limit = 0.010

[protractor]
step = 0.1
error = 0.05
off_centre = 0.005
radius = 6.0

[gauge]
kind = "dial"
step = 0.0005
error = 0.0005
scale_known_to = 0.005
lash = 0.002
lash_known_to = 0.002
same_zero = true
`
	var s Scene
	for i, number := range []int{1, 8, 4, 3, 6, 5, 7, 2} {
		b := four(uint64(50+i), 1.7+90*float64(i))
		b.stroke, b.rod, b.inch, b.step, b.zero, b.lash = 3.48*25.4, 5.7*25.4, 25.4, 0.1, 3, 0.05
		switch number {
		case 6:
			b.tdc += 0.6
		case 3:
			b.zero += 0.4
		}
		name := fmt.Sprintf("cylinder-%d.csv", number)
		text += fmt.Sprintf("\n[[cylinder]]\nnumber = %d\nreadings = %q\n", number, name)
		if i > 0 {
			text += fmt.Sprintf("throw = %d\n", 90*i)
		}
		s.files = append(s.files, file{name, read(b)})
	}
	s.files = append(s.files, file{JobFile, text})
	return s
}

// quadrants is a protractor that counts to 90 either way.
func quadrants() Scene {
	b := four(6, -1.6)
	b.quadrants = true
	text := strings.Replace(head("Invented single, a protractor in quadrants", "invented single"), "[protractor]\n", "[protractor]\nwraps = 90\n", 1)
	return Scene{Name: "06-quadrants", Shows: "angles with BTDC and ATDC", files: []file{
		{JobFile, text + first + oneCam + b.mark(pin, "flywheel", 0, 0.1, 1) + b.mark(gap, "crank wheel", -60, -2.9, 1.5)},
		{firstFile, b.readings()},
	}}
}

// nothingOff is an engine in order.
func nothingOff() Scene {
	b := four(9, 2.2)
	return Scene{Name: "09-nothing-off", Shows: "every mark within", files: []file{
		{JobFile, head("Invented four, a second opinion", "invented four") + first + oneCam +
			b.mark(pin, "flywheel", 0, 0.1, 1.5) + b.mark(notch, "pulley", 0, 0.4, 2) + b.mark(gap, "crank wheel", -84, -0.2, 1.5)},
		{firstFile, b.readings()},
	}}
}

// cannotTell is readings that no piston can have shown.
func cannotTell() Scene {
	b := four(10, 2.2)
	lines := strings.Split(strings.TrimSpace(b.readings()), "\n")
	for i := 2; i < len(lines); i++ { // another depth in every row
		cells := strings.Split(lines[i], ",")
		lines[i] = fmt.Sprintf("%s,%d.%d,%s", cells[0], 3+(7*i)%17, i%10, cells[2])
	}
	return Scene{Name: "10-cannot-tell", Shows: "readings that contradict one another: no answer", files: []file{
		{JobFile, head("Invented four, readings that contradict", "invented four") + first + oneCam + b.mark(pin, "flywheel", 0, 2, 1)},
		{firstFile, strings.Join(lines, "\n") + "\n"},
	}}
}

// tooClose is marks as far off as their limits.
func tooClose() Scene {
	b := four(11, 5)
	return Scene{Name: "11-too-close", Shows: "marks at their limits: too close to call", files: []file{
		{JobFile, head("Invented four, at the limit", "invented four") + first + oneCam +
			b.mark(pin, "flywheel", 0, 1, 1) + b.mark(notch, "pulley", 0, -2, 2) + flats(camFlat, "cam", 0.2, 0.6, 2)},
		{firstFile, b.readings()},
	}}
}

// repaired is the slip of a flywheel, and the same engine when it was refitted.
func repaired() Scene {
	b, after := four(12, 3.4), four(13, 358.2)
	job := func(b bench, late float64, readings string) string {
		return head("Invented diesel, flywheel refitted", "invented diesel four") + strings.Replace(first, firstFile, readings, 1) + oneCam +
			b.mark(pin, "flywheel", 0, late, 1) + b.mark(notch, "pulley", 0, 0.3, 2) + b.mark(gap, "crank wheel", -84, late, 1.5)
	}
	return Scene{Name: "12-repaired", Shows: "before and after a repair", Repair: true, files: []file{
		{JobFile, job(b, 3.1, firstFile)}, {firstFile, b.readings()},
		{AfterFile, job(after, 0.1, "after.csv")}, {"after.csv", after.readings()},
	}}
}

// toothLate is a belt put on with the inlet cam a tooth late: 21 teeth on the crank, 42 on
// the cam, 17.1 crank degrees.
func toothLate() Scene {
	b := four(14, 1.1)
	return Scene{Name: "13-tooth-late", Shows: "an inlet cam one whole tooth late", files: []file{
		{JobFile, head("Invented twin cam, belt put on wrongly", "invented twin cam") + first + twoCams +
			b.mark(pin, "flywheel", 0, 0.2, 1) + flats("inlet flats", "inlet cam", 17.1, 0.8, 2) + flats("exhaust flats", "exhaust cam", 0.3, 0.8, 2)},
		{firstFile, b.readings()},
	}}
}
