package session_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

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

// twoCams is a drive that was said.
const twoCams = "[drive]\nlayout = \"two cams\"\n"

// One cam with all lobes is no guess: before the first lobe it is asked how the cams are driven,
// and where they are not two, the cam in its own sprocket is among what may have slipped. What was
// typed is kept once it is answered; a job that says so is not asked.
func TestLobeAsksForItsCam(t *testing.T) {
	const asks = "How are the cams driven: one cam; two cams;"
	for _, first := range []string{"lift inlet 1: 20 1.53", "card inlet 1: 12 BTDC 48 ABDC at 1.0"} {
		s, file := atBench(t, engine)
		types(t, s, sides(t)...)
		require.Contains(t, types(t, s, first), asks)
		require.NotContains(t, fileOf(t, file), "[[lobe]]")
		require.Contains(t, types(t, s, "cam in block"), "How many teeth has the sprocket on the crank")
		require.Contains(t, types(t, s, "2"), "A sprocket on a crank has 8 teeth or more")
		require.Contains(t, types(t, s, "22"), "Kept")
		require.NotContains(t, types(t, s, "lift exhaust 1: 240 1.04"), asks)
		j, err := job.OpenBlank(file)
		require.NoError(t, err)
		require.Equal(t, mark.Drive{Layout: "cam in block", CrankSprocket: 22}, j.Drive)
		require.Len(t, j.Lobes, 2)
		require.Equal(t, []string{"cam", "cam"}, []string{j.Lobes[0].On, j.Lobes[1].On})
	}
}

// Lifts of a lobe make the lobe in the job file with its first one; then angles and lifts
// are its until the piston is read again; its card comes when it is typed.
func TestLifts(t *testing.T) {
	s, file := atBench(t, engine+twoCams)
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
	s, file := atBench(t, engine+twoCams)
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
	s, _ := atBench(t, engine+twoCams)
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

// In a job in inches the examples are in inches.
func TestExamplesInInches(t *testing.T) {
	s, _ := atBench(t, "unit = \"in\"\n"+engine)
	for line, says := range map[string]string{"help": "  342.5 .130                angle and depth\n", "lift": "for example lift inlet 1: 62.5 .041", "7": "such as 342.5 .130", "card": "48 ABDC at .05", "crowns x": "for example crowns .004in.", "crowns .004in": "one may stand 0.004 in off"} {
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
		require.NotContains(t, said, "0.1 mm")
	}
}

// No job names a lobe of which nothing is read: undoing its only lift takes it out.
func TestOnlyLiftUndone(t *testing.T) {
	s, file := atBench(t, engine+twoCams)
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

	require.NoError(t, os.WriteFile(file, []byte(engine+twoCams), 0o600))
	require.NoError(t, os.WriteFile(lifts, []byte("angle,lift,note\n20,1.53,\n"), 0o600)) // killed before the job file named it
	types(t, again(t, file), "lift inlet 1: 20 1.53", "24 1.9", "24 1.9")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Len(t, j.Lobes[0].Readings, 3, "of a lobe that is named, the same twice is twice")
}

// Once the protractor is moved, lifts of the same lobe go to a file of their own, and are a
// [[lobe]] of that set.
func TestLiftsOfASet(t *testing.T) {
	s, file := atBench(t, engine+twoCams)
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
