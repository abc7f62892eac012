package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the marks point to is worked out on paper: which joints would have moved which
// way, what agrees with a tooth, what is usual of which part, what no mark sees.
func TestWhatIsPointedToIsTheTruth(t *testing.T) {
	// a cam wheel 10 deg late to the crank wheel while the cam is right: the wheel on its
	// cam late, or its sensor, which would have to have moved the other way, is not one. A
	// sound mark lies anywhere within its limit of 1 and was measured within 0.5: the sum of
	// the two rectangles is a trapezoid, whose middle 95 % reach 1 + 0.5 - sqrt(0.2*1*0.5),
	// 1.18, either way
	said := answerOf(t, "find", engine(t, "job.toml", 0, 0, 0, 0, 10, 0))
	require.Regexp(t, `points to [^.]*inlet wheel on inlet cam[^.]*, 10\.0 ± 1\.2 deg late`, said)

	// an edge seen 10 deg late by the crank wheel: either the cam's side is late, or the
	// crank wheel early
	said = answerOf(t, "find", jobFile(t, "job.toml", engineHead+"[[mark]]\nname = \"WI\"\non = \"inlet wheel\"\nagainst = \"crank wheel\"\noff = 10\nin = \"crank degrees\"\n"))
	require.Regexp(t, `crank wheel on flywheel, [^.]*drive to inlet sprocket \(late\)[^.]*, 10\.0 ± 0\.\d deg early`, said)
	require.NotContains(t, said, "(early)")

	// what turns the inlet early turns no worn chain: a chain that wears makes it late
	said = answerOf(t, "find", engine(t, "job.toml", 0, 0, -5, -5, -5, -5))
	require.Regexp(t, `5\.0 ± 0\.\d deg early`, said)
	require.NotContains(t, said, "a worn chain")
	said = answerOf(t, "find", engine(t, "job.toml", 0, 0, 5, 5, 5, 5))
	require.Contains(t, said, "a worn chain, belt or guide")

	// 18 deg is one tooth of 20, 36 two, 9 none
	for off, says := range map[float64]string{18: "agrees with one tooth of the 20-tooth crank sprocket", 36: "agrees with 2 teeth of the 20-tooth crank sprocket", 9: "is not a whole number; one tooth"} {
		said = answerOf(t, "find", engine(t, "job.toml", 0, 0, off, off, off, off))
		require.Contains(t, said, says)
	}

	// a cam half a turn out is 360 deg of crank
	said = answerOf(t, "find", engine(t, "job.toml", 0, 0, 360, 0, 360, 0))
	require.Contains(t, said, "half a turn of the cam")

	// to find a damper that has crept is to look at its ring, not at the flywheel's dowel
	said = answerOf(t, "find", engine(t, "job.toml", 0, 23, 0, 0, 0, 0))
	require.Contains(t, said, "a line drawn across the pulley's hub, rubber and ring")
	require.NotContains(t, said, "dowel and bolts sit in their own holes")
	lone := "[[mark]]\nname = \"CI\"\non = \"inlet cam\"\noff = 20\nin = \"crank degrees\"\nlimit = 1\n"
	said = answerOf(t, "find", jobFile(t, "job.toml", engineHead+lone))
	require.Regexp(t, `(?i)where the maker allows it, rock the inlet cam on the inlet sprocket gently by hand, the engine still`, said)

	// nothing has moved by more than a bound that is rounded up, not down
	job := engine(t, "job.toml", .1, 0, .2, -.1, .1, 0)
	bound := numberIn(t, `If a single joint that they check has moved, it is by no more than (\S+) deg`, answerOf(t, "find", job))
	require.GreaterOrEqual(t, bound, *foundJSON(t, job).MovedLess)

	// a mark too close to call is not called fine, nor outside
	said = answerOf(t, "find", engine(t, "job.toml", 0, 0, .9, 0, 0, 0))
	require.True(t, strings.HasPrefix(said, "Invented True TDC is at 3.34 ± 0.28 deg on the protractor (95 %); the readings agree to 0.11, the rest is the protractor's own error of 0.25. One of 6 marks (CI) is too close to its limit to call."), said)
}

// Three edges of one wheel, typed by hand under names of their own, are one witness with one
// name, in words and in the picture; one that stands apart is named.
func TestEdgesOfOneWheel(t *testing.T) {
	edges := func(second float64) string {
		text := engineHead + "[[mark]]\nname = \"WE\"\non = \"exhaust wheel\"\nagainst = \"crank wheel\"\noff = 0\nin = \"crank degrees\"\nknown_to = 0.2\nlimit = 1.0\n"
		for name, off := range map[string]float64{"long tooth": 10, "short tooth": second, "notch": 10} {
			text += fmt.Sprintf("[[mark]]\nname = %q\non = \"inlet wheel\"\nagainst = \"crank wheel\"\noff = %v\nin = \"crank degrees\"\nknown_to = 0.2\nlimit = 1.0\n", name, off)
		}
		return jobFile(t, "job.toml", text)
	}
	said := answerOf(t, "find", edges(10))
	require.Regexp(t, `points to [^.]*inlet wheel on inlet cam[^.]* or edges of the inlet wheel, 10\.0`, said)
	require.NotContains(t, said, "notch itself")
	require.NotContains(t, said, "no joint moves one edge alone")
	require.Contains(t, said, "Look at the teeth of the inlet wheel")
	picture := filepath.Join(t.TempDir(), "drive.svg")
	code, _, errs := ev("find", edges(10), "--page", picture+".html")
	require.Equal(t, answered, code, errs)
	page, err := os.ReadFile(picture + ".html")
	require.NoError(t, err)
	require.Regexp(t, `mark: notch[^<]*</text>(?:<[^t][^>]*>)?<text[^>]*>moved\?`, string(page))
	said = answerOf(t, "find", edges(2))
	require.Contains(t, said, "On the inlet wheel, short tooth lies 8.0 deg earlier than the middle one of the 3 edges, and no joint moves one edge alone")
}

// Both cams late, the exhaust's more and by no whole tooth, point to a drive worn long; a
// tooth is counted before anything is bought.
func TestWornDriveAndTooth(t *testing.T) {
	job := engine(t, "job.toml", 0, 0, 4, 6, 4, 6)
	said := answerOf(t, "find", job)
	require.Regexp(t, `The inlet sprocket is 4\.0 ± \d\.\d deg late, and the exhaust sprocket 2\.0 ± 1\.\d deg more; neither is whole teeth\. That points to a belt or chain worn long`, said)
	code, data, errs := ev("find", job, "--as", "json")
	require.Equal(t, answered, code, errs)
	require.Contains(t, data, `"drive worn long"`)
	for _, off := range [][]float64{{0, 0, 18, 18, 18, 18}, {0, 0, -4, -6, -4, -6}, {0, 0, 4, 4, 4, 4}} {
		require.NotContains(t, answerOf(t, "find", engine(t, "job.toml", off...)), "worn long")
	}
	require.Contains(t, answerOf(t, "find", engine(t, "job.toml", 0, 0, 18, 18, 18, 18)),
		"First: count the links or teeth between the timing marks of the crank sprocket and the cams', and look at the drive's tensioner and guides, before any part is bought")
}

// Where one slip leaves a mark beyond its limit by no more than it is known to, two that
// leave none are given in the details, and the finding stays the one.
func TestTwoSlipsAfterOne(t *testing.T) {
	said := answerOf(t, "find", engine(t, "job.toml", 10, 1.35, 0, .1, -10, -9.9))
	require.Regexp(t, `points to flywheel on crank, 10\.0 ± \d\.\d deg late; all marks agree with this\.`, said)
	require.NotContains(t, said, "would fit better")
	require.Contains(t, said, "That leaves a mark beyond its limit, though by no more than its ±. 2 slips would leave none: - flywheel on crank")
	said = answerOf(t, "find", engine(t, "job.toml", 0, 1.35, 9, 9, 9, 9))
	require.Contains(t, said, "2 slips would leave none:")
	require.NotContains(t, said, "would fit better", "where the finding has joints at an or")
}

// What no mark sees is named, and so is what would choose between joints that the marks
// cannot tell apart; limits that were given are not said to be missing.
func TestWhatTheMarksDoNotSee(t *testing.T) {
	pin := "[[mark]]\nname = \"P\"\non = \"flywheel\"\noff = 3\nin = \"crank degrees\"\nknown_to = 0.3\nlimit = 1\n"
	said := answerOf(t, "find", jobFile(t, "job.toml", engineHead+pin))
	require.Regexp(t, `Not checked by any mark: .*pulley on crank.*inlet cam`, said)
	require.Contains(t, said, "What would tell them apart")
	require.Contains(t, said, "dowel and bolts sit in their own holes")
	require.Contains(t, said, "the marks cannot tell them apart")
	require.NotContains(t, said, "No limits were given")
	loose := strings.Replace(pin, "known_to = 0.3\n", "", 1)
	require.Contains(t, answerOf(t, "find", jobFile(t, "job.toml", engineHead+loose)), "known_to is not stated: taken as 0.5 deg of crank")

	// 3 deg that nobody set a limit to, beside a notch that is within its own
	open := strings.Replace(pin, "limit = 1\n", "", 1)
	notch := strings.NewReplacer("\"P\"", "\"N\"", "flywheel", "pulley", "off = 3", "off = 0").Replace(pin)
	said = answerOf(t, "find", jobFile(t, "job.toml", engineHead+open+notch))
	require.Contains(t, said, "No mark can be called outside its limit, but together the marks point to flywheel on crank")
	require.NotContains(t, said, "No limits were given")

	// the flywheel alone explains 3 deg of a pin. TDC late by what leaves pin and notch within
	// their limits, and the 0.29 (95 % of 0.3) that each is known to, is late by 1.21 to 2.29.
	// With variances of 0.3^2/3 as measured and limit^2/3 as made, 0.78 and 1.36, that has a
	// chi-square of 3^2/(0.78 + 1.36), 4.2: above the 3.84 that is 7 to 1 against
	one := strings.NewReplacer("limit = 1", "limit = 1.5").Replace(pin)
	other := strings.NewReplacer("\"P\"", "\"N\"", "flywheel", "pulley", "off = 3", "off = 0", "limit = 1", "limit = 2").Replace(pin)
	said = answerOf(t, "find", jobFile(t, "job.toml", engineHead+one+other))
	require.Regexp(t, `points to flywheel on crank or P itself, 3\.0 ± .* Much less likely, since the marks would stand farther from where they should be: - TDC of cylinder 1, 1\.[78] ± 0\.5 deg late \(1 chance in 2\d that scatter alone puts the marks so far from it\)\..* in statistics .*TDC of cylinder 1, 1\.[78] ± 0\.5 deg late: chi-square 4\.2 `, said)

	far := strings.NewReplacer("off = 3\nin = \"crank degrees\"\nknown_to = 0.3\n", "read = [203, 203]\n").Replace(pin)
	require.Contains(t, answerOf(t, "find", jobFile(t, "job.toml", engineHead+far)), "first check what was read and typed")
	apart := strings.NewReplacer("off = 3\nin = \"crank degrees\"\nknown_to = 0.3\n", "read = [3, 5, 3, 5]\n").Replace(pin)
	require.Contains(t, answerOf(t, "find", jobFile(t, "job.toml", engineHead+apart)), "The readings lie 2.0 deg apart: read again")
}

// On its limit to a hundredth no reading settles a mark; farther off it has to be
// measured at least as well as is said, and so good it is settled.
func TestWhatWouldSettleIt(t *testing.T) {
	at := func(off, known float64) string {
		return answerOf(t, "find", engineWith(t, fmt.Sprintf("off = %v\nin = \"crank degrees\"\nknown_to = %v\nlimit = 1\n", off, known)))
	}
	require.Contains(t, at(1, 0.5), "On the limit: no reading would settle it")
	for _, off := range []float64{0.77, 0.845, 1.23} {
		good := numberIn(t, `Measuring to ± (\S+) crank deg or better would settle it`, at(off, 0.5))
		require.NotContains(t, at(off, good), "too close", "%v known to %v", off, good)
		require.Contains(t, at(off, good+0.02), "too close", "%v known to %v", off, good)
	}
}

// engineWith is a job of one mark on the flywheel.
func engineWith(t *testing.T, mark string) string {
	t.Helper()
	return jobFile(t, "job.toml", engineHead+"[[mark]]\nname = \"P\"\non = \"flywheel\"\n"+mark)
}

// After a repair: back where it is back, not back where it is not, and neither where
// the marks cannot tell.
func TestRecheckSaysWhatIsBack(t *testing.T) {
	tooth := func(name string, by float64) string { return engine(t, name, 0, 0, by, by, by, by) }
	said := answerOf(t, "recheck", tooth("a.toml", 18), tooth("b.toml", 0))
	require.Contains(t, said, "Now no joint has to have moved to explain them: that slip is gone")
	require.NotContains(t, said, "still there")
	said = answerOf(t, "recheck", tooth("a.toml", 18), tooth("b.toml", 18))
	require.Regexp(t, `Now they still point to it, 18\.0 ± 0\.\d deg late: that slip is still there`, said)
	said = answerOf(t, "recheck", tooth("a.toml", 18), engine(t, "b.toml", 60, 0, 0, 0, -60, -60))
	require.Contains(t, said, "Now they no longer do: as far as they show, that slip is gone")

	named := func(name, engine string, mark string) string {
		return jobFile(t, name, strings.Replace(engineHead, "[engine]", "[engine]\nname = \""+engine+"\"", 1)+
			"[[mark]]\nname = \"P\"\non = \"flywheel\"\noff = 0\nin = \"crank degrees\"\nlimit = 1\n"+mark)
	}
	extra := func(name string) string {
		return "[[mark]]\nname = \"" + name + "\"\non = \"pulley\"\noff = 0\nin = \"crank degrees\"\nlimit = 1\n"
	}
	said = answerOf(t, "recheck", named("a.toml", "red", extra("was")), named("b.toml", "blue", extra("new")))
	require.Contains(t, said, "The engine is called red before and blue after: make sure that it is one engine")
	require.Contains(t, said, "Measured only before, and not compared: was.")
	require.Contains(t, said, "Measured only after, and not compared: new.")
	same := answerOf(t, "recheck", named("a.toml", "red", ""), named("b.toml", "Red", ""))
	require.NotContains(t, same, "is called")
	require.NotContains(t, same, "Measured only")
}

// What is kept as healthy is doubted where it is outside its limit, of another engine's
// name, of one engine alone, or held against itself.
func TestWhatIsKeptIsDoubted(t *testing.T) {
	job := func(name, engine string, off float64) string {
		return jobFile(t, name, strings.Replace(engineHead, "[engine]", "[engine]\nname = \""+engine+"\"", 1)+
			fmt.Sprintf("[[mark]]\nname = \"P\"\non = \"flywheel\"\noff = %v\nin = \"crank degrees\"\nknown_to = 0.3\nlimit = 1\n", off))
	}
	dir := t.TempDir()
	said := answerOf(t, "keep", job("a.toml", "red", 3), job("b.toml", "blue", 0), filepath.Join(dir, "two.toml"))
	require.Regexp(t, `the P is 3\.00 ± 0\.28 deg late, and its limit is 1 deg \(outside\)\. Make sure that this engine is healthy`, said)
	require.Regexp(t, `its engine is called blue, and that of \S+ red: keep engines of one family only`, said)
	fine := job("c.toml", "red", 0)
	good := filepath.Join(dir, "one.toml")
	said = answerOf(t, "keep", fine, good)
	require.NotContains(t, said, "Make sure that this engine")
	require.NotContains(t, said, "is called")
	said = answerOf(t, "find", fine, "--against", good)
	require.Contains(t, said, "keep several for that")
	require.Contains(t, said, "this tests nothing")
	said = answerOf(t, "find", job("d.toml", "red", 0.1), "--against", filepath.Join(dir, "two.toml"))
	require.NotContains(t, said, "keep several")

	// another job with as many readings is another job
	one := invention{tdc: 3, rest: pinAt(3)}
	other := invention{tdc: 3, rest: pinAt(3), at: []float64{-33, -29, -25, -21, -17, -13, -9, 9, 13, 17, 21, 25, 29, 33}}
	itself := one.job(t)
	answerOf(t, "keep", itself, filepath.Join(dir, "itself.toml"))
	require.Contains(t, answerOf(t, "find", itself, "--against", filepath.Join(dir, "itself.toml")), "this tests nothing")
	require.NotContains(t, other.says(t, "find", "--against", filepath.Join(dir, "itself.toml")), "this tests nothing")
}

// What a capture says moved, moved: all cams alike, one cam, one edge, or nothing; and
// by so much late or early.
func TestCapturesAreComparedByTheTruth(t *testing.T) {
	dir := t.TempDir()
	before := invented(t, dir, "before.csv", 0, 0)
	compared := func(name string, inlet, exhaust float64) string {
		return answerOf(t, edgesOf(invented(t, dir, name, inlet, exhaust), "--against", before)...)
	}
	require.Contains(t, compared("same.csv", 0, 0), "No cam edge moved by more than chance explains")
	require.Regexp(t, `All edges of all cams moved together, by 6\.0 ± 0\.\d crank deg late`, compared("late.csv", 6, 6))
	require.Regexp(t, `All edges of all cams moved together, by 6\.0 ± 0\.\d crank deg early`, compared("early.csv", -6, -6))
	require.Regexp(t, `One cam alone moved, column 4, by 6\.0 ± 0\.\d crank deg late`, compared("one.csv", 0, 6))
	text := mustRead(t, before)
	lines := strings.Split(text, "\n")
	for i := range lines[3:] { // the inlet's edge at 140 deg comes at 136
		if a := i % 7200; a >= 1360 && a < 1400 {
			lines[i+3] = regexp.MustCompile(`;5;([05])$`).ReplaceAllString(lines[i+3], ";0;$1")
		}
	}
	one := filepath.Join(dir, "edge.csv")
	require.NoError(t, os.WriteFile(one, []byte(strings.Join(lines, "\n")), 0o600))
	require.Regexp(t, `One edge alone moved, the falling one of column 3 at 136\.0 deg`, answerOf(t, edgesOf(one, "--against", before)...))
}

// Marks of a capture are known to no less than the wheel's teeth are spaced to, and a
// tooth read on the protractor puts the gap where arithmetic has it: tooth 11 of a 60-2
// comes 60 deg after the first, so a first tooth at 20 is read at 80.
func TestCaptureIntoAJob(t *testing.T) {
	dir := t.TempDir()
	capture := invented(t, dir, "c.csv", 0, 0)
	code, marks, errs := ev(edgesOf(capture, "--marks")...)
	require.Equal(t, answered, code, errs)
	for _, known := range regexp.MustCompile(`known_to = (\S+)`).FindAllStringSubmatch(marks, -1) {
		require.GreaterOrEqual(t, known[1], "0.2")
	}
	for _, c := range []struct{ tooth, at, says string }{{"11", "80", `"20 ATDC"`}, {"11", "50", `"10 BTDC"`}, {"1", "20", `"20"`}} {
		job := jobFile(t, "job.toml", engineHead)
		code, _, errs := ev(edgesOf(capture, "--into", job, "--tooth", c.tooth, "--at", c.at, "--on", "inlet wheel", "--on", "exhaust wheel")...)
		require.Equal(t, answered, code, errs)
		require.Contains(t, mustRead(t, job), "read = ["+c.says+"]")
	}
}

// Against a known-good file a shift is known no better than that file's own figure.
func TestKnownGoodEdgesHaveTheirUncertainty(t *testing.T) {
	dir := t.TempDir()
	capture := invented(t, dir, "c.csv", 0, 0)
	job := jobFile(t, "job.toml", engineHead)
	code, _, errs := ev(edgesOf(capture, "--into", job, "--on", "inlet wheel", "--on", "exhaust wheel")...)
	require.Equal(t, answered, code, errs)
	known := filepath.Join(dir, "known.toml")
	answerOf(t, "keep", job, known)
	u := numberIn(t, `(?m)^standard_uncertainty = (\S+)`, mustRead(t, known))
	require.Greater(t, u, 0.05)
	code, out, errs := ev(edgesOf(capture, "--against", known, "--as", "json")...)
	require.Equal(t, answered, code, errs)
	var got struct {
		Against struct {
			Shifts []struct {
				Standard float64 `json:"standard_uncertainty_deg"`
			}
			Notes []string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.NotEmpty(t, got.Against.Shifts)
	for _, s := range got.Against.Shifts {
		require.GreaterOrEqual(t, s.Standard, 0.999*u)
	}
	require.Contains(t, strings.Join(got.Against.Notes, " "), "does not state speed or leads")
}

// A piston's motion in words and figures is that of crank and rod, worked out anew; 60 ml
// of liquid in a cylinder whose smallest space is 55.5 cm3 (swept 499.6 at a ratio of 10)
// fill it before TDC.
func TestMotionSaysTheTruth(t *testing.T) {
	in := invention{}
	line := []string{"motion", "--stroke", "86", "--rod", "146", "--rpm", "3000", "--bore", "86"}
	said := answerOf(t, append(line, "--compression", "10", "--liquid", "60")...)
	clearance := math.Pi / 4 * 8.6 * 8.6 * 8.6 / 9
	at := numberIn(t, `60 ml of trapped liquid fills the space above the piston (\S+) deg before TDC`, said)
	require.Positive(t, at)
	area := math.Pi / 4 * 86 * 86 / 1000 // cm3 a mm
	require.InDelta(t, 60, clearance+area*in.drop(-at), 0.3)
	require.InDelta(t, in.drop(at), numberIn(t, `where the piston is still (\S+) mm down`, said), 0.051)
	said = answerOf(t, append(line, "--compression", "10", "--liquid", "20")...)
	swept := 9 * clearance
	require.InDelta(t, (swept+clearance-20)/(clearance-20), numberIn(t, `does not fill the \S+ cm3 left at TDC, but makes a compression of 10 into (\S+)\.`, said), 0.051)
	require.InDelta(t, 2*0.086*3000/60, numberIn(t, `At 3000 rpm the piston's mean speed is (\S+) m/s`, said), 0.006)
	// the speed at 30 deg by what the piston goes in a hundredth of a degree
	speed := (in.drop(30.005) - in.drop(29.995)) / 1000 / (0.01 / 360 / 50)
	require.InDelta(t, speed, numberIn(t, `\+30 +\S+ +\S+ +(\S+) `, said), 0.006)
	said = answerOf(t, "motion", "--stroke", "86", "--rod", "146", "--within", "1")
	// 1 mm off the lowest point: both angles at which the drop is 85 mm, by search
	u := 180.0
	for in.drop(u) > 85 {
		u -= 0.001
	}
	require.InDelta(t, 2*(180-u), numberIn(t, `(?:1 mm) +-?\S+ +\S+ +\S+ +\S+ +(\S+)`, said), 0.01)
	for offset, side := range map[string]string{"10": "after", "-10": "before"} {
		require.Contains(t, answerOf(t, "motion", "--stroke", "86", "--rod", "146", "--bore-offset", offset), "deg "+side+" the throw lies along the bore")
	}
}

// A shift converts by arithmetic: a cam turns half as far as the crank.
func TestConvertSaysTheTruth(t *testing.T) {
	require.Regexp(t, `crank degrees +5 cam degrees +2\.5`, answerOf(t, "convert", "2.5", "cam"))
	require.Regexp(t, `crank degrees +5 cam degrees +2\.5`, answerOf(t, "convert", "5", "crank"))
	require.Regexp(t, `crank degrees +24 cam degrees +12 teeth of 60 +2`, answerOf(t, "convert", "2", "teeth", "--pitches", "60", "--on", "cam"))
}

// A plan's words are its table's: so many each way, rising and falling by the sign of
// the angle, the target within reach or not.
func TestPlanSaysTheTruth(t *testing.T) {
	jobFile, _ := newJob(t)
	said := answerOf(t, "plan", jobFile, "--readings", "14")
	p := planOf(t, jobFile, "--readings", "14")
	forward := 0
	for _, r := range p.Readings {
		if r.Turn == "forward" {
			forward++
		}
		require.Equal(t, map[bool]string{true: "falling", false: "rising"}[r.Angle > 0], r.Flank)
	}
	require.NotEqual(t, 7, forward, "so that the two cannot change places unseen")
	require.Contains(t, said, fmt.Sprintf("%d turning forward and then %d turning backward", forward, 14-forward))
	require.Contains(t, answerOf(t, "plan", jobFile, "--target", "0.3"), "is within reach")
	require.Contains(t, answerOf(t, "plan", jobFile, "--target", "0.01"), "is out of reach")
	if worth := 100 * (math.Pow(p.Even/p.Reach.Standard, 2) - 1); worth > 2 {
		require.InDelta(t, worth, numberIn(t, `that is worth as much as (\S+) % more readings`, said), 0.51)
	}
}

// begin's job is in the unit and the sense that were asked for, and its first question
// is answered by what the numbers do.
func TestBeginSaysTheTruth(t *testing.T) {
	dir := t.TempDir()
	for i, c := range []struct{ answers, counts, unit, says string }{
		{"yes\n\n\n\n\n\nrise\n\n\n\n\n\n\nn\n", "with", "mm", "Lengths are in mm unless"},
		{"yes\n\n\n\n\n\nfall\n\n\n\n\n\n\nn\n", "against", "in", "Lengths are in inches unless"},
	} {
		at := filepath.Join(dir, fmt.Sprint(i))
		_, errs, err := begun(t, true, c.answers, at, "--unit", c.unit)
		require.NoError(t, err, errs)
		text := mustRead(t, filepath.Join(at, "job.toml"))
		require.Contains(t, text, c.says)
		require.Regexp(t, `(?s)\[protractor\]\ncounts = "`+c.counts+`"`, text)
	}
}
