package session_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// How the cams are driven is said again where it was said wrongly: lobes and marks go to the cams
// that there are then, and undo takes all of it back.
func TestDriveSaidAgain(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	types(t, s, "lift inlet 1: 20 1.53", "one cam", "21", "piston", "mark flats; cam; 20.5; 0; 2", "mark nick; flywheel; 6; 0; 1")
	read := func() job.Job {
		j, err := job.OpenBlank(file)
		require.NoError(t, err)
		return j
	}
	require.Equal(t, mark.Drive{Layout: "one cam", CrankSprocket: 21}, read().Drive)

	require.Contains(t, types(t, s, "drive"), "exhaust first; cam in block? [one cam]", "what it is now is what Enter takes")
	require.Contains(t, types(t, s, "two cams"), "Leave it empty where nobody knows. [21]")
	require.Contains(t, types(t, s, ""), "There are two cams then. Which of them is flats on: inlet or exhaust?")
	require.Contains(t, types(t, s, "both"), "Expected inlet or exhaust. There are two cams then.")
	require.Contains(t, types(t, s, "ex"), "Kept: the cams are driven as two cams, with 21 teeth on the crank.")
	on := func(j job.Job) string { return j.Lobes[0].On + ", " + j.Marks[0].On + ", " + j.Marks[1].On }
	require.Equal(t, mark.Drive{Layout: "two cams", CrankSprocket: 21}, read().Drive)
	require.Equal(t, "inlet cam, exhaust cam, flywheel", on(read()))

	require.Contains(t, types(t, s, "undo"), "Undone: the cams are driven as two cams, with 21 teeth on the crank.")
	require.Equal(t, mark.Drive{Layout: "one cam", CrankSprocket: 21}, read().Drive)
	require.Equal(t, "cam, cam, flywheel", on(read()))
	types(t, s, "redo")
	require.Equal(t, "inlet cam, exhaust cam, flywheel", on(read()))
	require.Contains(t, types(t, s, "drive cam in block 24"), "Kept: the cams are driven as cam in block, with 24 teeth on the crank.")
	require.Equal(t, mark.Drive{Layout: "cam in block", CrankSprocket: 24}, read().Drive)
	require.Equal(t, "cam, cam, flywheel", on(read()))
	require.Contains(t, types(t, s, "drive cam in block", ""), "the drive is left as it was")
	types(t, s, "drive cam in block", "not known")
	require.Zero(t, read().Drive.CrankSprocket)
	require.NoError(t, s.Fault())
}

// What is no drive is said so, and a drive of joints is changed where they stand.
func TestDriveRefused(t *testing.T) {
	s, file := atBench(t, engine)
	require.Contains(t, refuses(t, s, file, "drive by belt"), "how the cams are driven: ")
	require.Contains(t, refuses(t, s, file, "drive two cams 2"), "has 8 teeth or more")
	s, file = atBench(t, engine)
	require.Contains(t, types(t, s, "drive", "cancel"), "The drive is left as it was.")
	require.NotContains(t, fileOf(t, file), "[drive]")
	types(t, s, "drive two cams 21", "undo")
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Equal(t, mark.Drive{}, j.Drive, "as before it was said")
	s, file = atBench(t, engine+"[[joint]]\ncarried = \"cam\"\ncarrier = \"crank\"\n")
	require.Contains(t, refuses(t, s, file, "drive two cams"), "lists its joints one by one")
}

// A drive on which a mark would be measured against its own part is refused, and what is typed
// after it counts: through a pipe too.
func TestDriveThatLeavesAMarkNothing(t *testing.T) {
	s, file := atBench(t, engine+"[drive]\nlayout = \"two cams\"\n[[mark]]\nname = \"flats\"\non = \"exhaust cam\"\nagainst = \"inlet cam\"\noff = 1\nin = \"cam degrees\"\n")
	was := fileOf(t, file)
	require.Contains(t, refuses(t, s, file, "drive one cam 21"), "left as it was: with it flats would be measured against the part that it is on")
	require.Equal(t, was, fileOf(t, file))
	_, ended, err := s.Obey("stop -31.5 24")
	require.NoError(t, err)
	require.False(t, ended)
	require.Contains(t, fileOf(t, file), "[[-31.5, 24]]")
}
