package main

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A reading a millimetre too deep is named by its line, with the sign of its error, and
// with the dial's turn that it is; it is held back, and TDC with it trusted is told too.
func TestAMistypedReadingIsNamed(t *testing.T) {
	for sign, by := range map[string]float64{`\+`: 1, `-`: -1} {
		in := invention{tdc: 5, ways: bothWays, lash: 0.06, zero: 3, bad: map[int]float64{10: by}}
		said := in.says(t, "find")
		require.Regexp(t, `line 12 \(28 deg, forward\) does not fit: it is off by `+sign+`(1|0\.9\d*|1\.0\d*) mm, \d+ times its expected error\. It has been left out; read it again\. One turn of a dial gauge is 1 mm\.`, said)
		require.Equal(t, 1, strings.Count(said, "does not fit"))
		require.Contains(t, said, "With every reading trusted TDC would be at ")
		require.NotContains(t, invention{tdc: 5, ways: bothWays, lash: 0.06}.says(t, "find"), "does not fit")
	}
	half := invention{tdc: 5, ways: bothWays, lash: 0.06, bad: map[int]float64{10: 0.5}}.says(t, "find")
	require.Contains(t, half, "does not fit")
	require.NotContains(t, half, "dial gauge is")
}

// What the readings lack is told by the side that it lacks.
func TestWhatTheFlanksLack(t *testing.T) {
	rising := []float64{-35, -30, -25, -20, -15, -10}
	falling := []float64{10, 15, 20, 25, 30, 35}
	said := invention{at: rising}.says(t, "find")
	require.Regexp(t, `No reading after TDC \(piston falling\)`, said)
	require.NotContains(t, said, "No reading before")
	said = invention{at: falling}.says(t, "find")
	require.Regexp(t, `No reading before TDC \(piston rising\)`, said)
	said = invention{at: append(append([]float64{}, rising...), 30)}.says(t, "find")
	require.Regexp(t, `Only one reading after TDC`, said)
	deep := append([]float64{-40, -35, -30, -25, -20}, 8, 10, 12, 14, 16)
	require.Regexp(t, `read to different depths: \S+ mm before TDC`, invention{at: deep}.says(t, "find"))
	require.Contains(t, invention{at: []float64{-30, -20, 0, 20, 30}}.says(t, "find"), "5 readings: too few to show a bad one")
	whole := invention{}.says(t, "find")
	for _, never := range []string{"different depths", "No reading", "Only ", "too few"} {
		require.NotContains(t, whole, never)
	}
}

// Depths in the wrong unit, a gauge that counts the other way, a scale that cannot be
// and scatter beyond the instruments are told for what they are.
func TestWhatTheDepthsTell(t *testing.T) {
	said := invention{scale: 1 / 25.4, zero: 0.1}.says(t, "find")
	require.Contains(t, said, `they look like inches. Name their column depth_in, or write unit = "in"`)
	require.NotContains(t, said, "millimetres taken as inches")
	said = invention{scale: -1, zero: 30}.says(t, "find")
	require.Regexp(t, `gauge's numbers grow as the piston goes up, not as stated`, said)
	said = invention{scale: 1, zero: 30, rest: "[gauge]\ncounts = \"up\"\n"}.says(t, "find")
	require.Regexp(t, `gauge's numbers grow as the piston goes down, not as stated`, said)
	said = invention{scale: 1.3}.says(t, "find")
	require.Regexp(t, `gauge shows 1\.[23]\d+ times the travel computed from stroke and rod: check stroke and rod, and whether the gauge stands straight`, said)
	in := invention{ways: bothWays, lash: 0.06, bad: map[int]float64{}}
	for i := range 28 {
		in.bad[i] = 0.4 * math.Sin(float64(40*i*i))
	}
	require.Regexp(t, `readings scatter \d\.\d times as much as the instruments explain`, in.says(t, "find"))
	require.NotContains(t, invention{ways: bothWays, lash: 0.06}.says(t, "find"), "scatter")
	require.Contains(t, answerOf(t, "find", "--readings", regexp.MustCompile(`job\.toml$`).ReplaceAllString(invention{}.job(t), "cylinder-1.csv")),
		"The stroke is unknown")
}

// Depths too far from the engine's for any fit are refused, with what to type.
func TestNoFitInAWrongUnit(t *testing.T) {
	at := []float64{-31, -25, -19, -13, -7, 13, 19, 25, 31, 37}
	for scale, cure := range map[float64]string{
		25.4: `they look like millimetres taken as inches. Name their column depth_mm, or write unit = "mm"`, 100: "Write 9.76 for 976", 1000: "Write 0.384 for 384",
	} {
		code, out, errs := ev("find", invention{scale: scale, at: at}.job(t))
		require.Equal(t, failed, code)
		require.Empty(t, out)
		require.Contains(t, errs, "cylinder-1.csv: the depths change ")
		require.Contains(t, errs, cure)
	}
}

// A run of readings that goes the other way than its turn says is told with its line.
func TestReadingsThatGoTheOtherWay(t *testing.T) {
	at := []float64{-35, -30, -25, -20, -15, -10, 10, 15, 20, 25, 30, 35, 30, 25, 20, 15, 10, -10, -15, -20, -25, -30}
	said := invention{at: at}.says(t, "find")
	require.Regexp(t, `line 1[34] \(3[05] deg, forward\) and the \d+ readings below it go against turning forward`, said)
	require.Contains(t, said, "correct their turn")
}

// At the bench: a reading that does not fit is asked about with the sign of its error,
// one that fits is not, among few the blame is shared, and an earlier one that has
// become suspect is named.
func TestJotDoubts(t *testing.T) {
	first := []float64{-28, -24, -20, -16, -12, 12, 16, 20}
	for _, by := range []float64{1, -1} {
		jobFile, _ := newJob(t)
		var lines []string
		for _, u := range first {
			lines = append(lines, typedReading(u, "f"))
		}
		lines = append(lines, deeper(t, typedReading(24, "f"), by))
		out, _, err := jotting(t, jobFile, lines...)
		require.NoError(t, err)
		flat := unwrapped(out)
		require.InDelta(t, by, numberIn(t, `This reading does not fit: it is off by (\S+) mm`, flat), 0.1)
		require.Equal(t, 1, strings.Count(flat, "This reading does not fit"), "the others fit")
		require.NotContains(t, flat, "or one before it is wrong", "of nine the last alone is new")
		require.NotContains(t, flat, "Suspect now")
	}
	// two of its standard uncertainties off, of protractor and gauge: that is chance
	jobFile, _ := newJob(t)
	var fine []string
	for _, u := range first {
		fine = append(fine, typedReading(u, "f"))
	}
	out, _, err := jotting(t, jobFile, append(fine, deeper(t, typedReading(24, "f"), 0.2))...)
	require.NoError(t, err)
	require.NotContains(t, out, "does not fit")

	jobFile, _ = newJob(t)
	lines := []string{typedReading(-25, "f"), deeper(t, typedReading(-16, "f"), 1)}
	for _, u := range []float64{15, 20, 25, 30} {
		lines = append(lines, typedReading(u, "f"))
	}
	for _, u := range []float64{26, 21, 16, -14, -19, -24} {
		lines = append(lines, typedReading(u, "b"))
	}
	out, _, err = jotting(t, jobFile, lines...)
	require.NoError(t, err)
	answers := strings.Split(unwrapped(out), " Next:")
	named := 0
	for i, a := range answers[1:] {
		if strings.Contains(a, "Suspect now: reading 2, 347.4 deg") {
			named++
			require.NotContains(t, answers[i], "Suspect now: reading 2", "once it is known it is not new")
		}
	}
	require.Positive(t, named)
}

// deeper is a line of jot with another depth.
func deeper(t *testing.T, line string, by float64) string {
	t.Helper()
	var turn string
	var angle, depth float64
	_, err := fmt.Sscanf(line, "%s %f %f", &turn, &angle, &depth)
	require.NoError(t, err)
	return fmt.Sprintf("%s %.2f %.3f", turn, angle, depth+by)
}

// The next reading is told by the side it is on, by where the piston goes there, and by
// what the instruments will show; and what a reading changed has its sign.
func TestJotSaysWhereToGo(t *testing.T) {
	jobFile, _ := newJob(t)
	out, _, err := jotting(t, jobFile, "next", typedReading(-20, "f"), typedReading(-14, "f"), typedReading(-25, "f"))
	require.NoError(t, err)
	flat := unwrapped(out)
	require.NotRegexp(t, `rising side, turning forward, the piston going down|falling side, turning forward, the piston coming up`, flat)
	require.Regexp(t, `on the rising side, turning forward, the piston coming up`, flat)
	require.NotContains(t, flat, "turning backward")

	jobFile, _ = newJob(t)
	var lines []string
	for _, u := range []float64{-25, -20, -15, -10} {
		lines = append(lines, typedReading(u, "f"))
	}
	out, _, err = jotting(t, jobFile, lines...)
	require.NoError(t, err)
	last := out[strings.LastIndex(out, "Next:"):]
	require.Regexp(t, `falling side, turning forward`, unwrapped(last), "the other flank comes next")
	near := numberIn(t, `protractor near (\S+),`, unwrapped(last))
	require.Greater(t, math.Remainder(near-3.4, 360), 5.0) // TDC is at 3.4

	// three exact readings, then one whose angle reads later than it was: TDC moves later
	jobFile, _ = newJob(t)
	lines = []string{typedReading(-25, "f"), typedReading(-16, "f"), typedReading(15, "f"), typedReading(20, "f")}
	later := strings.Replace(typedReading(25, "f"), " 28.40 ", " 30.40 ", 1)
	require.NotEqual(t, later, typedReading(25, "f"))
	out, _, err = jotting(t, jobFile, append(lines, later)...)
	require.NoError(t, err)
	require.Regexp(t, `5 TDC \S+ ± \S+ deg \(95 %\), moved \+`, unwrapped(out))
}

// Many readings that agree are enough, and it is said; and what is struck out is named,
// with the way that is turned now.
func TestJotKnowsWhenToStop(t *testing.T) {
	jobFile, _ := newJob(t)
	var lines []string
	for _, turn := range []string{"f", "b"} {
		for u := -30.0; u <= 30; u += 4 {
			if at := u * map[string]float64{"f": 1, "b": -1}[turn]; math.Abs(at) > 6 {
				lines = append(lines, typedReading(at, turn))
			}
		}
	}
	out, _, err := jotting(t, jobFile, lines...)
	require.NoError(t, err)
	flat := unwrapped(out)
	require.Contains(t, flat, "More readings will hardly help.")
	early := flat[:strings.Index(flat, " 6 TDC")]
	require.NotContains(t, early, "hardly help")

	jobFile, _ = newJob(t)
	out, errs, err := jotting(t, jobFile, typedReading(-25, "f"), typedReading(25, "b"), "undo")
	require.NoError(t, err)
	require.Contains(t, out, "Undone: reading 28.4 ")
	require.Contains(t, errs, "Turning forward, as in the reading before")

	// three on end against the turn that they are typed with
	out, _, err = jotting(t, jobFile, typedReading(20, "f"), strings.TrimPrefix(typedReading(16, "f"), "f "), strings.TrimPrefix(typedReading(12, "f"), "f "))
	require.NoError(t, err)
	require.Contains(t, unwrapped(out), "The last angles go against turning forward")
}
