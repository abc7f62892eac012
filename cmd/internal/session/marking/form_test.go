package marking_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session/marking"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

func twoCams() job.Job {
	j := job.Job{Unit: "mm", Drive: mark.Drive{Layout: "two cams", CrankSprocket: 21}}
	j.Setup.Protractor = evidence.DefaultProtractor()
	return j
}

func bare() job.Job {
	j := twoCams()
	j.Drive = mark.Drive{}
	return j
}

// fill types a line and then answers, and is the tables and the questions that were asked.
func fill(t *testing.T, j job.Job, line string, answers ...string) (tables string, asked []string) {
	t.Helper()
	f, err := marking.Typed(line, j, 1, 12)
	require.NoError(t, err, line)
	for {
		question, standard, done := f.Question()
		if done {
			require.Empty(t, answers)
			return string(f.Drive()) + string(f.Mark()), asked
		}
		asked = append(asked, question+" ["+standard+"]")
		require.NotEmpty(t, answers, question)
		require.NoError(t, f.Take(answers[0]), "%s: %s", question, answers[0])
		answers = answers[1:]
	}
}

// What was typed in one line is not asked for, and what is missing is.
func TestForms(t *testing.T) {
	for _, c := range []struct {
		job     job.Job
		line    string
		answers []string
		tables  string
	}{
		{twoCams(), "locking pin hole on flywheel reads 3.8 3.9 should be 0 limit 1", nil,
			"[[mark]] name = \"locking pin hole\" on = \"flywheel\" read = [3.8, 3.9] after_reading = 12 should_be = 0 limit = 1"},
		{twoCams(), "", []string{"locking pin hole", "flywheel", "12 BTDC, 11.5 BTDC", "unknown", ""},
			"[[mark]] name = \"locking pin hole\" on = \"flywheel\" read = [\"12 BTDC\", \"11.5 BTDC\"] after_reading = 12 should_be = \"unknown\""},
		{twoCams(), "bolt holes on inlet cam off 10 mm late", []string{"", "inlet wheel", "rim", "24", "2"},
			"[[mark]] name = \"bolt holes\" on = \"inlet cam\" against = \"inlet wheel\" off = 10 # late positive in = \"mm arc\" known_to = 0.5 radius = 24 limit = 2"},
		{twoCams(), "bolt holes on inlet cam off 10mm early against crank radius 24 limit 2", []string{"0.2", "straight"},
			"[[mark]] name = \"bolt holes\" on = \"inlet cam\" off = -10 # late positive in = \"mm chord\" known_to = 0.2 radius = 24 limit = 2"},
		{twoCams(), "arrow on exhaust sprocket off 1 tooth late", []string{"", "", "", ""},
			"[[mark]] name = \"arrow\" on = \"exhaust sprocket\" off = 1 # late positive in = \"teeth\" known_to = 0.25 pitches = 42"},
		{bare(), "flats on inlet cam off -3 cam degrees", []string{"", "21", "", "crank at TDC", ""},
			"[drive] layout = \"two cams\" crank_sprocket = 21 [[mark]] name = \"flats\" on = \"inlet cam\" off = -3 # late positive in = \"cam degrees\" known_to = 0.5"},
		{bare(), "flats on cam off 2 degrees", []string{"", "", "1", "", "2.5"},
			"[drive] layout = \"one cam\" [[mark]] name = \"flats\" on = \"cam\" off = 2 # late positive in = \"crank degrees\" known_to = 1 limit = 2.5"},
		{twoCams(), "flats on Intake-Cam off 3 deg", []string{"", "intake wheel", ""},
			"[[mark]] name = \"flats\" on = \"inlet cam\" against = \"inlet wheel\" off = 3 # late positive in = \"crank degrees\" known_to = 0.5"},
		{twoCams(), "pin on flywheel 6.5 limit 1", []string{""}, "[[mark]] name = \"pin\" on = \"flywheel\" read = [6.5] after_reading = 12 should_be = 0 limit = 1"},
		{twoCams(), "flats on inlet cam .2 cam deg late", []string{"", "", ""},
			"[[mark]] name = \"flats\" on = \"inlet cam\" off = 0.2 # late positive in = \"cam degrees\" known_to = 0.5"},
		{twoCams(), "rim on flywheel .5 in early", []string{"", "", "", "120", ""},
			"[[mark]] name = \"rim\" on = \"flywheel\" off = -12.7 # late positive in = \"mm chord\" known_to = 0.5 radius = 120"},
		{twoCams(), "locking pin hole; flywheel; 6.0 6.0 6.5; 0; 1", nil,
			"[[mark]] name = \"locking pin hole\" on = \"flywheel\" read = [6, 6, 6.5] after_reading = 12 should_be = 0 limit = 1"},
		{twoCams(), "flats; inlet cam; off 4.1 mm chord 21; 0; 2", []string{"", ""},
			"[[mark]] name = \"flats\" on = \"inlet cam\" off = 4.1 # late positive in = \"mm chord\" known_to = 0.5 radius = 21 limit = 2"},
		{twoCams(), "arrow; inlet sprocket; off -1 tooth 42 against crank sprocket;; 2", []string{""},
			"[[mark]] name = \"arrow\" on = \"inlet sprocket\" against = \"crank sprocket\" off = -1 # late positive in = \"teeth\" known_to = 0.25 pitches = 42 limit = 2"},
		{twoCams(), "bolt holes; exhaust cam; off 10 mm arc 24; 3", []string{"", "", ""},
			"[[mark]] name = \"bolt holes\" on = \"exhaust cam\" off = 10 # late positive in = \"mm arc\" known_to = 0.5 radius = 24 should_be = 3"},
		{twoCams(), "flats; inlet cam; off by 4.1 mm late; 0; 2", []string{"", "", "", "21"},
			"[[mark]] name = \"flats\" on = \"inlet cam\" off = 4.1 # late positive in = \"mm chord\" known_to = 0.5 radius = 21 limit = 2"},
		{twoCams(), "flats on inlet cam off by 2 deg early limit 2", []string{"", ""},
			"[[mark]] name = \"flats\" on = \"inlet cam\" off = -2 # late positive in = \"crank degrees\" known_to = 0.5 limit = 2"},
		{bare(), "notch on pulley read 3,8", []string{"", ""}, "[[mark]] name = \"notch\" on = \"pulley\" read = [3.8] after_reading = 12 should_be = 0"},
	} {
		tables, _ := fill(t, c.job, c.line, c.answers...)
		require.Equal(t, c.tables, strings.Join(strings.Fields(tables), " "), c.line)
	}
}

// A shift is asked what stood right while it was seen: that decides what it speaks of.
func TestAsksWhatStoodRight(t *testing.T) {
	_, asked := fill(t, twoCams(), "bolt holes on inlet cam off 10 mm late", "", "", "", "24", "")
	require.Contains(t, asked, "What stood right while you saw that: the crank at TDC, or another part, such as inlet wheel? [crank]")
	_, asked = fill(t, twoCams(), "pin on flywheel read 3.8", "", "")
	require.NotContains(t, strings.Join(asked, " "), "stood right")
}

// In an inch job a length is asked for in inches, and a unit that is typed holds: the job file
// has mm of it, since its unit says so.
func TestInches(t *testing.T) {
	j := twoCams()
	j.Unit = "in"
	for answer, known := range map[string]string{"": "0.508", ".01": "0.254", "0.3 mm": "0.3", "0.004in": "0.1016"} {
		tables, asked := fill(t, j, "rim on flywheel off .5 in late radius 4.7", answer, "", "rim", "")
		require.Contains(t, strings.Join(asked, "\n"), "How sure is that, either way, in inches? [0.02]")
		require.Contains(t, strings.Join(strings.Fields(tables), " "), "off = 12.7 # late positive in = \"mm arc\" known_to = "+known+" radius = 4.7", answer)
	}
	_, asked := fill(t, j, "rim on flywheel off .5 in late", "", "", "", "4.7", "")
	require.Contains(t, asked, "How far from the shaft's centre was that measured, in inches? []")
	_, asked = fill(t, j, "flats on inlet cam off 1 deg late", "", "", "")
	require.Contains(t, asked, "How sure is that, either way, in crank degrees? [0.5]")
}

// A mark that was read in another set is asked for no more than where it stands now.
func TestReadAgain(t *testing.T) {
	j := twoCams()
	j.Marks = []mark.Mark{{Name: "pin", On: "flywheel"}}
	f, err := marking.Typed("pin read 40.2", j, 2, 3)
	require.NoError(t, err)
	_, _, done := f.Question()
	require.True(t, done)
	require.Equal(t, "[[mark]] name = \"pin\" on = \"flywheel\" read = [40.2] set = 2 after_reading = 3", strings.Join(strings.Fields(string(f.Mark())), " "))
}

// What is wrong in a line says what to type instead.
func TestRefuses(t *testing.T) {
	j := twoCams()
	j.Marks = []mark.Mark{{Name: "taken", On: "flywheel"}}
	for line, says := range map[string]string{
		"taken on flywheel":                         `"taken" is in the job already: give this one a name of its own`,
		"pin on gearbox":                            `"gearbox" is not a part of the drive: expected crank, flywheel, pulley`,
		"pin on flywheel read abc":                  `"abc" is neither what the protractor reads, such as 3.8, nor how far it is off, such as 4.1 mm late`,
		"pin on flywheel off 3 late":                `"3 late" has no unit: type for example 4.1 mm late`,
		"pin on flywheel off -3 mm early":           `"-3 mm early" is not an amount`,
		"pin on flywheel read 3.8 limit soon":       "type degrees above 0, up to 360, such as 1.5",
		"pin on flywheel read 3.8 limit 0":          "type degrees above 0, up to 360, such as 1.5",
		"pin on flywheel read 3.8 limit 1 off 2":    `"read" stands twice in this line: type it once`,
		"a; b; c; d; e; f":                          "a mark has five fields",
		"pin; flywheel; off 4":                      `"off 4" has no unit: type for example off 4.1 mm chord 21`,
		"pin; flywheel; off 4 degrees 21":           "stands behind degrees, which need no more",
		"pin on flywheel read 400":                  "400",
		"x on inlet cam off 1 mm against inlet cam": "that is what x sits on: what else stood right?",
	} {
		_, err := marking.Typed(line, j, 1, 0)
		require.ErrorContains(t, err, says, line)
	}
}
