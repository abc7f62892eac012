package session_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
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

// Who asks what may be answered is told, and asked again.
func TestQuestionsTellWhatMayBeAnswered(t *testing.T) {
	s, _ := atBench(t, engine)
	types(t, s, "mark pin")
	for _, line := range []string{"?", "help", "back"} {
		said := types(t, s, line)
		require.Contains(t, said, "cancel leaves the mark out", line)
		require.Contains(t, said, "What does pin sit on", line)
	}
}

// Angles may have their sides behind them.
func TestSightsOnQuadrants(t *testing.T) {
	s, file := atBench(t, strings.Replace(engine, "[[cylinder]]", "[protractor]\nwraps = 90\n\n[[cylinder]]", 1))
	types(t, s, "stop 31.5 BTDC 24 ATDC")
	require.Contains(t, fileOf(t, file), "stops = [[\"31.5 BTDC\", \"24 ATDC\"]]")
}

// A mark is kept as far as it was typed, and what is missing is asked for; what it comes
// to is said at once, and what find says at the end is the same.
func TestMarksAreJudgedAtOnce(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	said := types(t, s, "mark locking pin hole on flywheel read 9.1 should be 0")
	require.Contains(t, said, "How far may it be off either way")
	said = types(t, s, "1")
	require.Contains(t, said, "Kept: mark locking pin hole.")
	require.Contains(t, said, "The only mark (locking pin hole) is outside its limit")
	require.Contains(t, fileOf(t, file), "[[mark]]\nname = \"locking pin hole\"\non = \"flywheel\"\nread = [9.1]\nafter_reading = 8\nshould_be = 0\nlimit = 1\n")
	all, err := s.End()
	require.NoError(t, err)
	j, err := job.Open(file)
	require.NoError(t, err)
	f, err := find.Of(j)
	require.NoError(t, err)
	require.Contains(t, unwrapped(words(all, session.Answer)), f.Headline())
	types(t, s, "undo")
	j, err = job.Open(file)
	require.NoError(t, err)
	require.Empty(t, j.Marks)
}

// A question can be left, and what is no answer is asked again.
func TestQuestionsAreLeft(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, "mark pin")
	said := types(t, s, "")
	require.Contains(t, said, "This is needed")
	require.Contains(t, said, "What does pin sit on")
	all, _, err := s.Obey("cancel")
	require.NoError(t, err)
	require.Contains(t, words(all, session.Remark), "Left out: the mark is not kept.")
	types(t, s, reading(t, -25))
	require.Equal(t, engine, fileOf(t, file))
}

// Through a pipe nobody can be asked: the usual answers are taken, and said, and what has
// none is not kept.
func TestMarksThroughAPipe(t *testing.T) {
	s, file := atBench(t, engine)
	s.Patient = false
	said := types(t, s, "mark locking pin hole; flywheel; 6.0 6.0 6.5")
	require.Contains(t, said, "Where should it be, in crank degrees after TDC of cylinder 1, such as 0, -12.5, 12 BTDC? Or unknown. 0, since nothing is said.")
	require.Contains(t, fileOf(t, file), "read = [6, 6, 6.5]\nafter_reading = 0\nshould_be = 0\n")
	for _, line := range []string{"mark pin; flywheel", "cylinder 3"} {
		all, _, err := s.Obey(line)
		require.NoError(t, err)
		require.Contains(t, unwrapped(words(all, session.Remark)), "is not kept: it lacks an answer.")
		require.Contains(t, unwrapped(words(all, session.Remark)), "Type it in the same line.")
	}
	require.ErrorIs(t, s.Fault(), session.ErrNotUnderstood)
	require.NotContains(t, fileOf(t, file), "cylinder-3")
}

// Another cylinder has a readings file of its own, and undo finds back to the first.
func TestCylinders(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	said := types(t, s, "cylinder 3")
	require.Contains(t, said, "How many crank degrees after cylinder 1's does cylinder 3's TDC come?")
	said = types(t, s, "240")
	require.Contains(t, said, "Readings are of cylinder 3 from here on, turning forward.")
	require.Contains(t, fileOf(t, file), "[[cylinder]]\nnumber = 3\nthrow = 240\nreadings = \"cylinder-3.csv\"\n")
	for _, u := range []float64{-25, -20, -10, 10, 20, 25} {
		said = types(t, s, readingAt(t, 245.3, u))
	}
	require.Contains(t, said, "TDC 245.")
	require.Equal(t, 7, strings.Count(fileOf(t, filepath.Join(filepath.Dir(file), "cylinder-3.csv")), "\n"))
	types(t, s, "cylinder 1")
	said = types(t, s, "undo")
	require.Contains(t, said, "Readings are of cylinder 3 from here on")
	require.Contains(t, fileOf(t, filepath.Join(filepath.Dir(file), "cylinder-3.csv")), "# undone: ")
	all, err := s.End()
	require.NoError(t, err)
	require.Contains(t, unwrapped(words(all, session.Answer)), "Cylinder 1's true TDC is at 4.9")
	require.NoError(t, s.Fault())
}

// liftAt is the lift of an invented lobe, a cycloid either side of its nose, whose centre
// is at 110 deg after TDC at 5 deg.
func liftAt(angle float64) float64 {
	const top, flank = 9.0, 140.0
	x := 1 - math.Abs(angle-115)/flank
	if x <= 0 {
		return 0
	}
	return top * (x - math.Sin(2*math.Pi*x)/(2*math.Pi))
}

// Lifts of a lobe make the lobe in the job file with its first one; then angles and lifts
// are its until the piston is read again; its card comes when it is typed.
func TestLifts(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	lift := func(angle float64) string {
		return strconv.FormatFloat(angle, 'f', -1, 64) + " " + strconv.FormatFloat(liftAt(angle), 'f', 2, 64)
	}
	said := types(t, s, "lift Inlet lobe, cylinder 1: "+lift(8))
	require.Contains(t, said, "Kept.")
	require.Contains(t, said, "card inlet 1: 12 BTDC 48 ABDC at 1.0")
	require.Contains(t, said, "never turn the engine by a cam")
	require.Contains(t, fileOf(t, file), "[[lobe]]\nname = \"inlet lobe, cylinder 1\"\non = \"inlet cam\"\nvalve = \"inlet\"\ncylinder = 1\nreadings = \"inlet-1.csv\"\nafter_reading = 8\nlift = 1.0 # checking lift\n")
	for _, angle := range []float64{12, 16, 20, 55, 75, 115, 155, 175, 210, 214, 218, 222} {
		said = types(t, s, lift(angle))
	}
	require.Contains(t, said, "At a lift of 1.00 mm it opens")
	require.Contains(t, said, "centre 110")
	said = types(t, s, "card inlet 1: 108 ATDC")
	require.Contains(t, said, "Kept: the card of inlet lobe, cylinder 1.")
	require.Contains(t, fileOf(t, file), "centre = \"108 ATDC\"")
	said = types(t, s, "list")
	require.Contains(t, said, "13 lifts of inlet lobe, cylinder 1.")
	said = types(t, s, "undo")
	require.Contains(t, said, "Undone: lift 222.0 ")
	types(t, s, "redo")
	said = types(t, s, "piston")
	require.Contains(t, said, "Readings are of cylinder 1 from here on")
	said = types(t, s, reading(t, 12))
	require.Contains(t, said, "9 TDC 4.9")

	said = types(t, s, "lift inlet lobe, cylinder 1: 226 0.10", "list")
	require.Contains(t, said, "14 lifts of inlet lobe, cylinder 1.")
	types(t, s, "undo")
	s.Files.(*drawer).Close()
	next := again(t, file)
	said = types(t, next, "lobe intake 1", "list")
	require.Contains(t, said, "13 lifts of inlet lobe, cylinder 1.")
}

// A card is in hand before the lobe is read: it is kept, with its limit, and lifts are read into
// it; undoing the first of them leaves the card.
func TestCardFirst(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	require.Contains(t, types(t, s, "card inlet 1: 12 BTDC 48 ABDC at 1.0 limit 2"), "Kept: the card of inlet lobe, cylinder 1.")
	require.Contains(t, fileOf(t, file), "opens = \"12 BTDC\"\ncloses = \"48 ABDC\"\nlimit = 2\n")
	require.Contains(t, types(t, s, reading(t, 12)), "9 TDC 4.9", "the piston is still read")
	said := types(t, s, "lift inlet 1:", "8 1.04", "undo")
	require.Contains(t, said, "Undone: lift 8.0 ")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Len(t, j.Lobes, 1)
	require.True(t, j.Lobes[0].HasLimit)
	require.Empty(t, j.Lobes[0].Readings)
	require.Contains(t, types(t, s, "8 1.04"), "1 Kept.")
}

// A lobe of which nothing can be said tells why once it was read down to its checking lift, and
// when a lift takes away what was said.
func TestLobeLacks(t *testing.T) {
	s, _ := atBench(t, engine)
	types(t, s, sides(t)...)
	const lacks = "The checking lift of 1.00 mm was not read across on the closing side"
	types(t, s, "lift inlet 1")
	for _, angle := range []float64{8, 12, 20, 55, 115, 175} {
		require.NotContains(t, types(t, s, fmt.Sprintf("%g %.2f", angle, liftAt(angle))), lacks)
	}
	require.Contains(t, types(t, s, fmt.Sprintf("%g %.2f", 208.0, liftAt(208))), lacks)
	require.Contains(t, types(t, s, "next"), lacks)
	require.Contains(t, types(t, s, "next"), "Of inlet lobe, cylinder 1 read, turning forward, on each side two lifts about the checking lift of 1.00 mm")
	require.Contains(t, types(t, s, fmt.Sprintf("%g %.2f", 214.0, liftAt(214)), fmt.Sprintf("%g %.2f", 222.0, liftAt(222))), "it opens")
	require.NotContains(t, types(t, s, fmt.Sprintf("%g %.2f", 16.0, liftAt(16))), "more than one turn") // on a later lap
	require.Contains(t, types(t, s, fmt.Sprintf("%g %.2f", 26.0, liftAt(26)+4)), "the rows go round more than one turn")
}

// Crowns and throws are compared and limited in words at the bench, and that is taken back.
func TestCrownsAndThrows(t *testing.T) {
	s, file := atBench(t, engine)
	said := types(t, s, append(sides(t), "crowns 0.1 mm")...)
	require.Contains(t, said, "Kept: the crowns are compared with one another, and one may stand 0.1 mm off. Keep the gauge's zero")
	require.Contains(t, said, "read each piston once at its very top")
	require.Contains(t, types(t, s, "throws 0.5"), "Kept: a throw may be 0.5 deg out of its place.")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.True(t, j.Setup.Gauge.SameZero)
	require.InDelta(t, 0.1, float64(j.Setup.Engine.CrownLimit), 1e-12)
	require.InDelta(t, 0.5, j.Setup.Engine.ThrowLimit.Degrees(), 1e-12)
	types(t, s, "crowns 0.2", "undo", "undo", "undo")
	j, err = job.OpenBlank(file)
	require.NoError(t, err)
	require.False(t, j.Setup.Gauge.SameZero)
	require.Zero(t, j.Setup.Engine.CrownLimit)
	require.Zero(t, j.Setup.Engine.ThrowLimit)
	types(t, s, "redo", "redo", "crowns")
	j, err = job.OpenBlank(file)
	require.NoError(t, err)
	require.True(t, j.Setup.Gauge.SameZero)
	require.InDelta(t, 0.1, float64(j.Setup.Engine.CrownLimit), 1e-12)
}

// Who asks what is meant is told how to go on, and is asked again.
func TestAskedWhatIsMeant(t *testing.T) {
	s, _ := atBench(t, engine)
	s.Patient = true
	types(t, s, "mark pin on flywheel")
	said := types(t, s, "?")
	require.Contains(t, said, "cancel leaves the mark out")
	require.Contains(t, said, "What does the protractor read with it in line")
	require.NotContains(t, said, "expected an angle")
}

// A cylinder's throw is typed as people say it, and may be typed again.
func TestCylinderAt(t *testing.T) {
	s, file := atBench(t, engine)
	require.Contains(t, types(t, s, "cylinder 2 at 180 deg"), "Readings are of cylinder 2")
	require.Contains(t, fileOf(t, file), "throw = 180")
	require.Contains(t, types(t, s, "cylinder 1", "cylinder 2 180"), "Readings are of cylinder 2")
}

// In a job in inches the examples are in inches.
func TestExamplesInInches(t *testing.T) {
	s, _ := atBench(t, "unit = \"in\"\n"+engine)
	for line, says := range map[string]string{"help": "  342.5 .130                angle and depth\n", "lift": "for example lift inlet 1: 62.5 .041", "7": "such as 342.5 .130", "card": "48 ABDC at .05"} {
		all, _, err := s.Obey(line)
		require.NoError(t, err)
		said := ""
		for _, one := range all {
			said += one.Text
		}
		if line != "help" {
			said = unwrapped(said)
		}
		require.Contains(t, said, says, line)
		require.NotContains(t, said, "3.29")
	}
}

// No job names a lobe of which nothing is read: undoing its only lift takes it out.
func TestOnlyLiftUndone(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, append(sides(t), "lift inlet: 20 1.53", "undo")...)
	j, err := job.Open(file)
	require.NoError(t, err)
	require.Empty(t, j.Lobes)
	types(t, s, "redo")
	j, err = job.Open(file)
	require.NoError(t, err)
	require.Len(t, j.Lobes[0].Readings, 1)
	types(t, s, "24 1.9")
}

// A lobe that the job file has no room for is not kept, and its first lift is not either;
// one that stood in its file already, as after a kill, is there once.
func TestFirstLiftIsKeptWithItsLobe(t *testing.T) {
	dir, full := t.TempDir(), engine
	for i := range 64 {
		name := fmt.Sprintf("other-%d", i)
		full += fmt.Sprintf("[[lobe]]\nname = %q\non = \"cam\"\nvalve = \"exhaust\"\nreadings = \"%s.csv\"\nlift = 1\n", name, name)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".csv"), []byte("angle,lift\n60,1\n"), 0o600))
	}
	file, lifts := filepath.Join(dir, "job.toml"), filepath.Join(dir, "inlet-1.csv")
	require.NoError(t, os.WriteFile(file, []byte(full), 0o600))
	s := again(t, file)
	said, _, err := s.Obey("lift inlet 1: 20 1.53")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "This was not kept")
	require.NotContains(t, fileOf(t, lifts), "\n20,1.53")
	said, _, err = s.Obey("undo")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "There is no reading to undo.")
	s.Files.(*drawer).Close()

	require.NoError(t, os.WriteFile(file, []byte(engine), 0o600))
	require.NoError(t, os.WriteFile(lifts, []byte("angle,lift,note\n20,1.53,\n"), 0o600)) // killed before the job file named it
	types(t, again(t, file), "lift inlet 1: 20 1.53", "24 1.9", "24 1.9")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Len(t, j.Lobes[0].Readings, 3, "of a lobe that is named, the same twice is twice")
}

// Once the protractor is moved, lifts of the same lobe go to a file of their own, and are a
// [[lobe]] of that set.
func TestLiftsOfASet(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	types(t, s, "lift inlet 1: 8 1.04", "piston", "set 2", "8 3.1", "lift inlet 1: 98 1.04", "104 1.3")
	require.NotContains(t, fileOf(t, filepath.Join(filepath.Dir(file), "inlet-1.csv")), "98")
	require.Contains(t, fileOf(t, filepath.Join(filepath.Dir(file), "inlet-1-set-2.csv")), "98,1.04")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Len(t, j.Lobes, 2)
	require.Equal(t, []int{0, 2}, []int{j.Lobes[0].Set, j.Lobes[1].Set})
	require.Equal(t, []int{1, 2}, []int{len(j.Lobes[0].Readings), len(j.Lobes[1].Readings)})
	types(t, s, "undo", "undo")
	j, err = job.OpenBlank(file)
	require.NoError(t, err)
	require.Len(t, j.Lobes, 1)
	types(t, s, "lift exhaust 1: 240 1.04")
	require.Contains(t, fileOf(t, file), "cylinder = 1\nset = 2\nreadings = \"exhaust-1-set-2.csv\"\nafter_reading = 1\n")
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
