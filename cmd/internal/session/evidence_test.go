package session_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/plan"
)

// desk is files that are kept elsewhere.
type desk struct {
	store *memory
	says  string
}

func (d *desk) Amend(amend.Edit) (job.Job, error) { panic("no job file") }

func (d *desk) Photo(string) (record.Picture, error) { panic("no photos") }

func (d *desk) Sheet(string, sheet.Kind) (session.Store, string, error) { return d.store, d.says, nil }

// drawer is a job's files on a disk.
type drawer struct{ notebook.Files }

func (d *drawer) Sheet(path string, kind sheet.Kind) (session.Store, string, error) {
	return d.Files.Sheet(path, kind)
}

const engine = `# Bench engine

title = "Bench engine"   # invented
[engine]
stroke = 86
rod = 146

[[cylinder]]
number = 1
readings = "cylinder-1.csv"  # as typed

# the end
`

// atBench is a session at a job on the disk.
func atBench(t *testing.T, text string) (*session.Session, string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.toml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	return again(t, file), file
}

// again is the next session at a job.
func again(t *testing.T, file string) *session.Session {
	t.Helper()
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	d := &drawer{notebook.Files{File: file, Unit: j.Unit, Setup: j.Setup}}
	t.Cleanup(d.Close)
	s := &session.Session{Job: j, Files: d, Ground: plan.Ground{Deepest: 8}, Width: 72, Patient: true}
	_, err = s.Open()
	require.NoError(t, err)
	return s
}

// types types lines, each of which has to be kept, and is what was said of the last.
func types(t *testing.T, s *session.Session, lines ...string) (said string) {
	t.Helper()
	for _, line := range lines {
		all, ended, err := s.Obey(line)
		require.NoError(t, err, line)
		require.False(t, ended)
		said = unwrapped(words(all, session.Answer) + "\n" + words(all, session.Remark))
		require.NotContains(t, said, "not kept", line)
	}
	require.NoError(t, s.Fault())
	return said
}

func unwrapped(text string) string { return strings.Join(strings.Fields(text), " ") }

// sides are readings of both flanks, turned forward, TDC at 5 deg.
func sides(t *testing.T) (lines []string) {
	for _, u := range []float64{-25, -20, -15, -10, 10, 15, 20, 25} {
		lines = append(lines, reading(t, u))
	}
	return lines
}

func fileOf(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

// A stop, a dwell and a view are kept in the job file, whose other text stays, and count
// at once; undo takes them out again, redo brings them back.
func TestSights(t *testing.T) {
	s, file := atBench(t, engine)
	said := types(t, s, "stop -31.5 41.5")
	require.Contains(t, said, "Kept: positive stop -31.5 and 41.5. TDC 5.0 ±")
	require.Contains(t, said, "A stop can crack a piston or bend a valve: hand force only")
	with := strings.Replace(engine, "typed\n", "typed\nstops = [[-31.5, 41.5]]\n", 1)
	require.Equal(t, with, fileOf(t, file))
	said = types(t, s, "view 351.9 18.1", "b", "dwell 12 -2")
	require.Contains(t, said, "Kept: dwell 12 and -2, turning backward.")
	with = strings.Replace(with, "41.5]]\n", "41.5]]\nviews = [{ before = 351.9, after = 18.1, turn = \"forward\" }]\ndwell = [{ still = 12, moves = -2, turn = \"backward\" }]\n", 1)
	require.Equal(t, with, fileOf(t, file))
	require.Contains(t, types(t, s, "next"), "One stop, one dwell and one view")
	said = types(t, s, "undo")
	require.Contains(t, said, "Undone: dwell 12 and -2, turning backward.")
	require.Contains(t, fileOf(t, file), "# undone:\n# dwell = [{ still = 12, moves = -2, turn = \"backward\" }]\n")
	types(t, s, "redo")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Len(t, j.Cylinders[0].Dwell, 1)
	require.Len(t, j.Cylinders[0].Stops, 1)
	types(t, s, "undo", "undo", "undo")
	require.Contains(t, types(t, s, "next"), "No readings yet.")
}

// Which way the crank was turned may stand in the line of a sight, as in that of a reading.
func TestSightsTurnedInTheirLine(t *testing.T) {
	for _, line := range []string{"b dwell 12 -2", "dwell back 12 -2", "dwell B 12 -2", "BACK dwell 12 -2"} {
		s, file := atBench(t, engine)
		said := types(t, s, line)
		require.Contains(t, said, "Kept: dwell 12 and -2, turning backward.", line)
		require.Contains(t, said, "Caution: turn back only where the maker allows it", line)
		require.Equal(t, evidence.Backward, s.Turn(), line)
		require.Contains(t, types(t, s, "f dwell -2 12"), "turning forward", line)
		require.Contains(t, fileOf(t, file), "turn = \"forward\"", line)
	}
	s, _ := atBench(t, engine)
	_, _, err := s.Obey("b dwell soon")
	require.NoError(t, err)
	require.Equal(t, evidence.Forward, s.Turn(), "a line that is not understood turns nothing")
}

// Angles may have their sides behind them.
func TestSightsOnQuadrants(t *testing.T) {
	s, file := atBench(t, strings.Replace(engine, "[[cylinder]]", "[protractor]\nwraps = 90\n\n[[cylinder]]", 1))
	types(t, s, "stop 31.5 BTDC 24 ATDC")
	require.Contains(t, fileOf(t, file), "stops = [[\"31.5 BTDC\", \"24 ATDC\"]]")
}

// Who asks what is meant is told how to go on, and is asked again.
func TestAskedWhatIsMeant(t *testing.T) {
	s, _ := atBench(t, engine)
	s.Patient = true
	types(t, s, "mark pin on flywheel")
	said := types(t, s, "?")
	require.Contains(t, said, "cancel leaves the mark out")
	require.Contains(t, said, "What does the protractor read with pin in line")
	require.NotContains(t, said, "expected an angle")
}

// What is not understood says what to type.
func TestWhatIsNotUnderstood(t *testing.T) {
	s, file := atBench(t, engine)
	for line, says := range map[string]string{
		"stop":                           "stop goes with two angles: type for example stop -31.5 24",
		"dwell 3":                        "dwell goes with two angles: type for example dwell -6.2 9.1",
		"view 3 400 mm":                  "view goes with two angles",
		"lift":                           "lift goes with inlet or exhaust and a cylinder's number: type for example lift inlet 1: 62.5 1.04",
		"lift middle 1: 2 3":             "lift goes with inlet or exhaust",
		"lift inlet 1: soon":             "is not an angle and a lift",
		"lobe":                           "lobe goes with inlet or exhaust",
		"lobe inlet 1 2 3":               "lobe goes with the lobe alone",
		"card inlet 1: 3 limit much":     "card goes with a lobe and its card",
		"card inlet 1: 3 limit -1":       "card goes with a lobe and its card",
		"card inlet 9: 3":                "the job has no cylinder 9",
		"cylinder":                       "cylinder goes with its number",
		"cylinder x":                     "cylinder goes with its number",
		"cylinder 1 180":                 "cylinder 1 is in the job already",
		"crowns soon":                    "crowns goes with how far one may stand from the others",
		"crowns -1":                      "crowns goes with",
		"throws":                         "throws goes with how many crank degrees",
		"cylinder 2 soon":                `"soon" is not a throw: type crank degrees from 0 to 720, such as 180`,
		"mark pin on flywheel read soon": "is neither what the protractor reads",
	} {
		all, _, err := s.Obey(line)
		require.NoError(t, err)
		require.Contains(t, unwrapped(words(all, session.Remark)), says, line)
	}
	require.ErrorIs(t, s.Fault(), session.ErrNotUnderstood)
	require.Equal(t, engine, fileOf(t, file))
}

// What is asked about a reading tells why there is no TDC yet: nothing else is blamed
// beside it.
func TestOneBlameAtATime(t *testing.T) {
	s, _ := atBench(t, engine)
	s.Patient = true
	var said string
	for _, line := range []string{"342.5 3.29", "344 32.4", "346 2.1"} {
		all, _, err := s.Obey(line)
		require.NoError(t, err)
		said = unwrapped(words(all, session.Answer))
	}
	require.Contains(t, said, "Kept. TDC cannot be determined yet. Reading 2, 344 32.4: the piston would have moved")
	require.NotContains(t, said, "times as much")
}
