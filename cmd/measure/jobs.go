package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
)

// sized is how large an invented job is.
type sized struct {
	readings, marks, joints, cylinders, lobes int
	off                                       float64 // mm that a depth is off besides, at most: 1 is that do not fit
}

// ordinary is the job that one size of is varied.
func ordinary() sized { return sized{readings: 24, cylinders: 1} }

const jobHead = `title = "Invented, to measure with"
[engine]
name = "invented four"
stroke = 86.0
rod = 146.0
[protractor]
step = 0.5
error = 0.25
[gauge]
kind = "dial"
step = 0.01
error = 0.02
`

// write makes a job of a size in a folder of a name, and returns its file.
func (s scratch) write(name string, size sized) (string, error) {
	dir := s.path(name)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return "", err
	}
	rng := rand.New(rand.NewPCG(1, 20261126))
	text := jobHead
	files := map[string]string{}
	for i := range size.cylinders {
		file := fmt.Sprintf("cylinder-%d.csv", i+1)
		text += fmt.Sprintf("[[cylinder]]\nnumber = %d\nreadings = %q\n", i+1, file)
		files[file] = size.readingsFile(rng)
	}
	text += drive(size.joints) + marks(size.marks, size.joints)
	for i := range size.lobes {
		file := fmt.Sprintf("lobe-%d.csv", i+1)
		text += fmt.Sprintf("[[lobe]]\nname = \"inlet lobe %d\"\non = \"cam\"\nvalve = \"inlet\"\nreadings = %q\nlift = 1.0\nopens = \"12 BTDC\"\ncloses = \"48 ABDC\"\nlimit = 2.0\n", i+1, file)
		files[file] = liftsFile(rng)
	}
	if size.lobes > 0 && size.joints == 0 {
		text += "[drive]\nlayout = \"one cam\"\n"
	}
	files["job.toml"] = text
	for file, text := range files {
		if err := os.WriteFile(filepath.Join(dir, file), []byte(text), 0o666); err != nil {
			return "", err
		}
	}
	return filepath.Join(dir, "job.toml"), nil
}

// drawnBench is a bench drawn from what the job states.
func drawnBench(rng *rand.Rand) (benchtest.Bench, benchtest.Session) {
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: benchtest.Protractor(0.5, 0.25), Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	return benchtest.Drawn(rng, setup), benchtest.Session{Setup: setup, Curve: benchtest.FreshErrors.Draw(rng, setup.Protractor, 0)}
}

// readingsFile is readings in sweeps of a dozen, forward and back.
func (size sized) readingsFile(rng *rand.Rand) string {
	b, session := drawnBench(rng)
	session.Layout = benchtest.Balanced(max(1, size.readings/12), size.readings)
	var out strings.Builder
	out.WriteString("angle,depth,turn\n")
	for _, r := range b.ReadIn(rng, session) {
		turn := "forward"
		if r.Turn == evidence.Backward {
			turn = "backward"
		}
		fmt.Fprintf(&out, "%.1f,%.2f,%s\n", r.Angle.Degrees(), float64(r.Depth)+benchtest.Within(rng, size.off), turn)
	}
	return out.String()
}

// liftsFile is a lobe's readings as planned.
func liftsFile(rng *rand.Rand) string {
	b, session := drawnBench(rng)
	c := lobetest.Cam{Shape: lobetest.Shapes[0], Nose: 108}
	var out strings.Builder
	out.WriteString("angle,lift\n")
	for _, r := range c.Readings(rng, b, session, lobe.DefaultGauge(), c.Planned(rng, 1)) {
		fmt.Fprintf(&out, "%.1f,%.2f\n", r.Angle.Signed().Degrees(), float64(r.Lift))
	}
	return out.String()
}

// drive is so many members in threes, each on the one before, the first on the crank.
func drive(joints int) string {
	var out strings.Builder
	for i := range joints {
		on := "crank"
		if i%3 > 0 {
			on = member(i - 1)
		}
		fmt.Fprintf(&out, "[[joint]]\ncarried = %q\ncarrier = %q\n", member(i), on)
	}
	return out.String()
}

func member(i int) string { return fmt.Sprintf("part %d", i+1) }

// marks is so many of them, over the members, two in three of them 3 deg late.
func marks(n, joints int) string {
	var out strings.Builder
	for i := range n {
		on := "flywheel"
		if joints > 0 {
			on = member(i % joints)
		}
		fmt.Fprintf(&out, "[[mark]]\nname = \"mark %d\"\non = %q\noff = %d\nin = \"crank degrees\"\nknown_to = 0.3\nlimit = 1.0\n", i+1, on, 3*min(1, i%3))
	}
	return out.String()
}
