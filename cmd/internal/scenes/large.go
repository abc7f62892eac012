package scenes

import "fmt"

// eightWithLobes is eight cylinders, two lobes of a cam that is late, and a mark, as a builder
// reads a V8: about as
// much as anybody measures of one engine.
func eightWithLobes() Scene {
	s := eight(func(b bench) string { return b.readingsAt(-30, -24, -18, -12, 12, 18, 24, 30) })
	s.Name, s.Shows = "14-eight-with-lobes", "eight cylinders in inches, two lobes of a cam 4 deg late, a mark"
	b := four(60, 1.7)
	b.inch = 25.4
	last := len(s.files) - 1
	s.files[last].text += lobe("inlet", "inlet-1.csv", 0.035, "12 BTDC", "45 ABDC", 1) + lobe("exhaust", "exhaust-1.csv", 0.035, "57 BBDC", "9 ATDC", 1) +
		b.mark("damper mark", "damper", 0, 0.2, 1)
	s.files = append(s.files, file{"inlet-1.csv", b.lifts(110, 151, 8.1)}, file{"exhaust-1.csv", b.lifts(-110, 156.5, 8.1)})
	return s
}

// nineMarks is nine marks, three of them late with a flywheel, and two lobes.
func nineMarks() Scene {
	b := four(15, 7.4)
	text := head("Invented four, every mark there is", "invented four with one cam") + first + oneCam
	for i := range 3 {
		text += b.mark(fmt.Sprintf("flywheel mark %d", i+1), "flywheel", float64(30*i), 2.6, 1) +
			b.mark(fmt.Sprintf("pulley mark %d", i+1), "pulley", float64(-30*i), 0.2, 2)
	}
	text += b.mark(gap, "crank wheel", -84, 2.6, 1.5) + b.mark("crank wheel edge 2", "crank wheel", -24, 2.7, 1.5) + flats(camFlat, "cam", 0.4, 0.6, 2) +
		lobe("inlet", "inlet-1.csv", 1, "12 BTDC", "48 ABDC", 2) + lobe("exhaust", "exhaust-1.csv", 1, "48 BBDC", "12 ATDC", 2)
	return Scene{Name: "15-nine-marks", Shows: "nine marks and two lobes", files: []file{
		{JobFile, text}, {firstFile, b.readings()}, {"inlet-1.csv", b.lifts(108, 152.5, 9.4)}, {"exhaust-1.csv", b.lifts(-108, 152.5, 9.4)},
	}}
}
