package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

const story = "../../examples/diagnostician/"

// engineHead is the set-up of the example, whose TDC is at 3.4 on the protractor.
const engineHead = `title = "Invented"
[engine]
stroke = 81.4
rod = 133.0
[[cylinder]]
number = 1
readings = "cylinder-1.csv"
[drive]
layout = "two cams"
crank_sprocket = 20
crank_wheel = "60-2"
crank_wheel_on = "flywheel"
flywheel_bolts = 6
`

// engine writes a job in a folder of its own: invented shifts, crank degrees late,
// of pin P, notch N, cam locks CI and CE and cam edges from the crank wheel WI, WE.
func engine(t *testing.T, name string, off ...float64) string {
	t.Helper()
	text := engineHead
	for i, m := range []string{
		"name = \"P\"\non = \"flywheel\"", "name = \"N\"\non = \"pulley\"", "name = \"CI\"\non = \"inlet cam\"", "name = \"CE\"\non = \"exhaust cam\"",
		"name = \"WI\"\non = \"inlet wheel\"\nagainst = \"crank wheel\"", "name = \"WE\"\non = \"exhaust wheel\"\nagainst = \"crank wheel\"",
	} {
		text += fmt.Sprintf("[[mark]]\n%s\noff = %v\nin = \"crank degrees\"\nknown_to = 0.5\nlimit = 1.0\n", m, off[i])
	}
	return jobFile(t, name, text)
}

// jobFile writes a job file beside the example's readings.
func jobFile(t *testing.T, name, text string) string {
	t.Helper()
	dir := t.TempDir()
	readings, err := os.ReadFile(story + "cylinder-1.csv")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), readings, 0o600))
	path := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// unwrapped is text with its lines joined, so that a sentence can be looked for.
func unwrapped(text string) string { return strings.Join(strings.Fields(text), " ") }

// within80 requires that no line is wider than a terminal.
func within80(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, "%q", line)
	}
}

// Invented faults and a sound engine, worked out on paper from what turns with
// what: the sentence that a person acts on, and what must be said beside it.
func TestWhatTheMarksPointTo(t *testing.T) {
	const tooth = "drive on crank sprocket or crank sprocket on crank, 18.0 ± 0.6 deg late"
	const wheel = "crank wheel on flywheel or crank sensor, 12.0 ± 0.9 deg late"
	for _, c := range []struct {
		name  string
		off   []float64
		first string
		says  []string
		never []string
	}{
		{"a tooth", []float64{.1, .3, 17.9, 18.1, 18.2, 17.8}, "4 of 6 marks are outside their limits, which points to " + tooth + "; the marks cannot tell them apart.",
			[]string{"agrees with one tooth of the 20-tooth", "Count the links or teeth", "Read a mark on the crank sprocket: tells crank sprocket on crank and drive on crank sprocket apart.", "Do not time the engine by what is outside, and do not start it before the drive is looked at."}, nil},
		{"crank wheel", []float64{0, .2, -.2, .1, -11.9, -12.1}, "2 of 6 marks are outside their limits, which points to " + wheel + "; the marks cannot tell them apart.",
			[]string{"Crank wheel on flywheel: 12.0 deg agrees with 2 pitches of the 60-2 wheel", "Do not time the engine by the marks that are outside.", "WI: 11.9 ± 0.5 deg early, outside the limit of 1 deg."}, []string{"Crank sensor: 12.0 deg agrees", "do not start it"}},
		{"a flywheel bolt", []float64{60.1, .1, .1, -.2, -59.8, -60.2}, "3 of 6 marks are outside their limits, which points to flywheel on crank, 60.0 ± 0.7 deg late; all marks agree with this.",
			[]string{"one hole of 6 flywheel bolts", "All marks agree with one slip, and no other explanation is as likely:"}, []string{"What would tell them apart"}},
		{"the damper", []float64{.1, 23, 0, .1, .1, 0}, "One of 6 marks (N) is outside its limit, which points to pulley on crank or N itself, 23.0 ± 1.2 deg late; the marks cannot tell them apart.",
			[]string{"a line drawn across the pulley's hub, rubber and ring"}, nil},
		{"the throw", []float64{-2.5, -2.2, -2.4, -2.4, .1, 0}, "4 of 6 marks are outside their limits, which points to TDC of cylinder 1, 2.4 ± 0.6 deg early; all marks agree with this.",
			[]string{"Before you suspect a part, make sure of TDC and of what the given angles count from.", "an offset of 7 mm makes"}, []string{"Do not time", "P (-2.5 deg)"}},
		{"the inlet cam", []float64{.1, -.1, -20.4, .2, -20.2, .1}, "2 of 6 marks are outside their limits, which points to drive to inlet sprocket or inlet cam on inlet sprocket, 20.3 ± 0.9 deg early; the marks cannot tell them apart.",
			[]string{"a phaser that is not locked"}, nil},
		{"a tooth and the wheel", []float64{0, .1, 18.1, 17.8, 6.1, 5.9}, "4 of 6 marks are outside their limits, which points to crank wheel on flywheel or crank sensor, 12.0 ± 1.3 deg late, and drive on crank sprocket or crank sprocket on crank, 18.0 ± 0.9 deg late; the marks cannot tell the joints at each \"or\" apart.",
			[]string{"All marks agree with 2 slips"}, nil},
		{"nothing", []float64{.1, 0, .2, -.1, .1, 0}, "Every mark is within its limit, and no joint has to have moved to explain these marks.",
			[]string{"If a single joint that they check has moved, it is by no more than 1.4 deg (95 %)"}, []string{"What would tell", "points to"}},
		{"at the limit", []float64{.1, 0, .9, 0, .1, 0}, "One of 6 marks (CI) is too close to its limit to call.",
			[]string{"CI: 0.9 ± 0.5 deg late, too close to the limit of 1 deg to call. Measuring to ± 0.1 crank deg or better would settle it"}, nil},
		{"nonsense", []float64{13, -44, 7, 90, 33, -20}, "6 of 6 marks are outside their limits, and no 3 slips explain what the marks show: check what was read",
			[]string{"No 3 slips explain these marks."}, []string{"points to"}},
	} {
		code, out, errs := ev("find", engine(t, "job.toml", c.off...), "--details")
		require.Equal(t, answered, code, errs)
		within80(t, out)
		flat := unwrapped(out)
		require.True(t, strings.HasPrefix(flat, "Invented True TDC is at 3.34 ± 0.28 deg on the protractor (95 %); the readings agree to 0.11, the rest is the protractor's own error of 0.25. "+c.first), "%s: %s", c.name, out)
		for _, says := range c.says {
			require.Contains(t, flat, says, c.name)
		}
		for _, never := range append(c.never, " is the cause", "has slipped") {
			require.NotContains(t, flat, never, c.name)
		}
		code, _, _ = ev("find", engine(t, "job.toml", c.off...), "--strict")
		want := notFine
		if strings.HasPrefix(c.first, "Every mark") {
			want = answered
		}
		require.Equal(t, want, code, c.name)
	}
}

// Without limits the marks are weighed by chance alone: three of 0.5 known to 0.5
// are 12*3*0.25 = 9.0 of chi-square, within the 12.6 that chance leaves six; of 0.6
// they are 13.0, and a slip of the flywheel explains all three. One mark's own would
// leave 8.6 of 5, so that 0.6 is known to 1.96*0.29*sqrt(8.6/5) = 0.7: no slip.
func TestWithoutLimits(t *testing.T) {
	open := func(off ...float64) string {
		return jobFile(t, "job.toml", strings.ReplaceAll(mustRead(t, engine(t, "job.toml", off...)), "limit = 1.0\n", ""))
	}
	code, out, errs := ev("find", open(3, 0, 0, 0, -3, -3), "--strict", "--details")
	require.Equal(t, answered, code, errs)
	flat := unwrapped(out)
	require.Contains(t, flat, "No limits were given, but together the marks point to flywheel on crank, 3.0 ± 0.3 deg late; all marks agree with this.")
	require.NotContains(t, flat, "no limit was given to judge it by")
	code, out, errs = ev("find", open(.6, 0, 0, 0, -.6, -.6), "--details")
	require.Equal(t, answered, code, errs)
	within80(t, out)
	flat = unwrapped(out)
	require.Contains(t, flat, "No limits were given, but together the marks point to flywheel on crank, 0.6 ± 0.3 deg late; all marks agree with this.")
	require.Contains(t, flat, "Much less likely, since the marks would stand farther from where they should be: - crank wheel on flywheel or crank sensor, 0.6 ± 0.4 deg late.")
	require.Contains(t, flat, "crank wheel on flywheel or crank sensor, 0.6 ± 0.4 deg late: chi-square 4.3 with 5 degrees of freedom, p = 0.50.")
	require.NotContains(t, flat, "N itself")
	_, out, _ = ev("find", open(.5, 0, 0, 0, -.5, -.5))
	require.Contains(t, unwrapped(out), "of 0.25. No joint has to have moved to explain these marks.")
	_, out, _ = ev("find", open(13, -44, 7, 90, 33, -20))
	require.Contains(t, unwrapped(out), "of 0.25. No limits were given, and no 3 slips explain what the marks show")
}

// Of more than five sets the first five are told.
func TestTheLikeliestFive(t *testing.T) {
	code, out, errs := ev("find", engine(t, "job.toml", 0, 0, 0, -3, 1, 2), "--details")
	require.Equal(t, answered, code, errs)
	within80(t, out)
	flat := unwrapped(out)
	require.Contains(t, flat, "cannot tell 6 explanations of 2 slips each apart; the likeliest is ")
	require.Contains(t, flat, "cannot tell them apart. The likeliest 5: 1. ")
	require.Regexp(t, `bears on \d+ of them\.`, flat)
	require.NotContains(t, flat, " 6. ")
}

type foundMarks struct {
	Marks []struct {
		Name     string   `json:"name"`
		Read     *float64 `json:"read_deg"`
		ShouldBe *float64 `json:"should_be_deg"`
		Off      float64  `json:"off_deg"`
		Expanded float64  `json:"expanded_uncertainty_deg"`
		Settles  *float64 `json:"settled_by_expanded_uncertainty_deg"`
		Source   *string  `json:"source"`
	} `json:"marks"`
	Explanations []struct {
		Slips []struct {
			Joints      []string `json:"joints"`
			Shift       float64  `json:"shift_deg"`
			Uncertainty float64  `json:"standard_uncertainty_deg"`
			Notes       []string `json:"notes"`
		} `json:"slips"`
		Chi     float64  `json:"chi2"`
		Degrees int      `json:"degrees_of_freedom"`
		P       *float64 `json:"p"`
	} `json:"explanations"`
	TellApart []string `json:"tell_apart"`
	Looks     []struct {
		Separation *float64 `json:"separation_standard_uncertainties"`
	} `json:"looks"`
	MovedLess *float64 `json:"moved_by_less_than_deg"`
	KnownGood *string  `json:"known_good"`
}

func foundJSON(t *testing.T, args ...string) foundMarks {
	t.Helper()
	code, out, errs := ev(append([]string{"find", "--as", "json"}, args...)...)
	require.Equal(t, answered, code, errs)
	var got foundMarks
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	return got
}

func TestExplanationsInJSON(t *testing.T) {
	got := foundJSON(t, engine(t, "job.toml", .1, .3, 17.9, 18.1, 18.2, 17.8))
	require.Len(t, got.Explanations, 1)
	e := got.Explanations[0]
	require.Equal(t, []string{"drive on crank sprocket", "crank sprocket on crank"}, e.Slips[0].Joints)
	require.InDelta(t, 18, e.Slips[0].Shift, 1e-9) // the mean of the four
	// four marks, each known to 0.5 and made within 1, so of variance (0.25 + 1)/3
	require.InDelta(t, math.Sqrt(1.25/3/4), e.Slips[0].Uncertainty, 1e-6)
	// the six shifts squared about 18 and zero, over that variance
	require.InDelta(t, 3/1.25*(.01+.09+.01+.01+.04+.04), e.Chi, 1e-6)
	require.Equal(t, 5, e.Degrees)
	require.NotNil(t, e.P)
	require.Len(t, e.Slips[0].Notes, 2)
	require.Len(t, got.TellApart, 2)
	require.Nil(t, got.Looks[0].Separation)
	require.InDelta(t, 18/(0.5/1.7320508), *got.Looks[1].Separation, 1e-3) // a slip of 18 by a mark's uncertainty
	require.Nil(t, got.MovedLess)
	require.Nil(t, got.KnownGood)
	require.Nil(t, got.Marks[0].Read)
	require.Nil(t, got.Marks[0].Source)

	alone := foundJSON(t, "--readings", story+"cylinder-1.csv", "--pin", "6", "--pin-limit", "1")
	require.Nil(t, alone.Explanations[0].P)
	require.Zero(t, alone.Explanations[0].Degrees)
	sound := foundJSON(t, engine(t, "job.toml", .1, 0, .9, 0, .1, 0))
	require.Empty(t, sound.Explanations[0].Slips)
	require.NotNil(t, sound.MovedLess)
	require.InDelta(t, 0.1, *sound.Marks[2].Settles, 1e-9)
	require.Nil(t, sound.Marks[0].Settles)
}

// What is wrong with a mark or a joint is told with the job's file and line.
func TestErrorsOfMarksNameTheLine(t *testing.T) {
	const mark = "[[mark]]\nname = \"x\"\non = \"inlet wheel\"\nread = 3\n"
	lines := strings.Count(engineHead, "\n")
	for _, c := range []struct{ text, says string }{
		{engineHead + strings.Replace(mark, "inlet wheel", "rocker", 1), fmt.Sprintf("job.toml:%d: mark \"x\": the drive has no member \"rocker\"", lines+1)},
		{engineHead + mark + "against = \"crank wheel\"\n", fmt.Sprintf("job.toml:%d: mark \"x\": read on the protractor", lines+1)},
		{engineHead[:strings.Index(engineHead, "[drive]")] + "[[joint]]\ncarried = \"a\"\ncarrier = \"b\"\n" + mark, "job.toml:8: joint \"a on b\": nothing joins it"},
	} {
		code, out, errs := ev("find", jobFile(t, "job.toml", c.text))
		require.Equal(t, failed, code)
		require.Empty(t, out)
		require.Contains(t, errs, c.says)
		require.Equal(t, 1, strings.Count(errs, "\n"))
	}
}

// Wrong command lines are status 2 and bad files status 1, one line on stderr and
// nothing on stdout; help is an answer.
func TestStoryMisuse(t *testing.T) {
	job := engine(t, "job.toml", 0, 0, 0, 0, 0, 0)
	elsewhere := strings.Replace(mustRead(t, job), "on = \"pulley\"", "on = \"crank\"", 1)
	larger := strings.Replace(mustRead(t, job), "stroke = 81.4", "stroke = 90", 1)
	bare := jobFile(t, "bare.toml", engineHead)
	file := filepath.Join(t.TempDir(), "good.toml")
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"keep"}, wrongUse, "evendrop keep job.toml known-good.toml"},
		{[]string{"keep", job}, wrongUse, "no file to write: type for example evendrop keep " + job + " known-good.toml"},
		{[]string{"keep", job, job, file}, wrongUse, "is given twice"},
		{[]string{"keep", job, file, "--as", "pdf"}, wrongUse, "expected text, markdown, json or csv"},
		{[]string{"keep", job, file, "--all"}, wrongUse, "evendrop keep --help"},
		{[]string{"keep", bare, file}, failed, "has no marks to keep"},
		{[]string{"keep", "none.toml", file}, failed, "none.toml: not found"},
		{[]string{"keep", job, filepath.Join(file, "none", "x")}, failed, "its folder does not exist"},
		{[]string{"keep", job, jobFile(t, "larger.toml", larger), file}, failed, "keep engines of one family only"},
		{[]string{"keep", job, jobFile(t, "elsewhere.toml", elsewhere), file}, failed, "elsewhere.toml: mark \"N\": it is on the crank here and on the pulley there"},
		{[]string{"recheck"}, wrongUse, "evendrop recheck BEFORE AFTER"},
		{[]string{"recheck", job}, wrongUse, "was given one job:"},
		{[]string{"recheck", job, job, job}, wrongUse, "was given 3 jobs"},
		{[]string{"recheck", job, job, "--as", "x"}, wrongUse, "expected text, markdown, json or csv"},
		{[]string{"recheck", "none.toml", job}, failed, "none.toml: not found"},
		{[]string{"recheck", job, jobFile(t, "elsewhere.toml", elsewhere)}, failed, "mark \"N\": it is on the crank here and on the pulley there"},
		{[]string{"find", job, "--against", "none.toml"}, failed, "none.toml: not found: check the name, or make one: evendrop keep JOB FILE"},
		{[]string{"find", job, "--against", job}, failed, "this is a job file: make a known-good file with evendrop keep JOB FILE"},
	} {
		code, out, errs := ev(c.args...)
		require.Equal(t, c.code, code, "%v %s", c.args, errs)
		require.Empty(t, out, c.args)
		require.Contains(t, errs, c.says, c.args)
		require.Equal(t, 1, strings.Count(errs, "\n"), errs)
		require.NoFileExists(t, file)
	}
	for _, name := range []string{"keep", "recheck"} {
		code, out, errs := ev(name, "--help")
		require.Equal(t, answered, code)
		require.Contains(t, out, "evendrop "+name)
		require.Empty(t, errs)
		within80(t, out)
	}
}

func mustRead(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}
