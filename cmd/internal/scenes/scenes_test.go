package scenes_test

import (
	"path/filepath"
	"strings"
	"testing"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/scenes"
	"evendrop/tdc/job"

	"github.com/stretchr/testify/require"
)

func answered(t *testing.T, s scenes.Scene, name string) find.Answer {
	t.Helper()
	dir, err := s.Write(t.TempDir())
	require.NoError(t, err)
	j, err := job.Open(filepath.Join(dir, name))
	require.NoError(t, err, s.Name)
	a, err := find.Against(j, "")
	require.NoError(t, err, s.Name)
	return a
}

// shows is what the answer to a scene has to say for the scene to be worth looking at.
var shows = map[string]string{
	"01-one-slip": "points to flywheel on crank, 2.6", "02-stop-only": "stops 356", "03-dwell-only": "dwell 8.0", "04-every-kind": "inlet lobe, cylinder 1: 4",
	"05-eight-in-inches": "Cylinder 6's throw is +0.588", "06-quadrants": "BTDC", "07-long-names": "3 of 12 marks are outside", "08-right-to-left": "סימן 60-2",
	"09-nothing-off": "Every mark is within its limit", "10-cannot-tell": "cannot be determined", "11-too-close": "2 of 3 marks are too close",
	"12-repaired": "points to flywheel on crank, 3.0", "13-tooth-late": "17.1 ± 0.8 deg late",
	"14-eight-with-lobes": "exhaust lobe, cylinder 1: 4.0", "15-nine-marks": "5 of 11 marks are outside",
}

// Every scene opens, is answered, shows what it is for, and says that it is invented.
func TestEveryScene(t *testing.T) {
	require.Len(t, scenes.All(), len(shows))
	for _, s := range scenes.All() {
		a := answered(t, s, scenes.JobFile)
		text, err := a.Text(200)
		require.NoError(t, err)
		require.Contains(t, strings.Join(strings.Fields(string(text)), " "), shows[s.Name], s.Name)
		require.Contains(t, strings.ToLower(a.Job.Title+a.Job.Setup.Engine.Name), "invented", s.Name)
	}
}

// After its repair an engine has nothing off.
func TestRepaired(t *testing.T) {
	for _, s := range scenes.All() {
		if s.Repair {
			require.Contains(t, answered(t, s, scenes.AfterFile).Headline(), "Every mark is within its limit")
		}
	}
}

// A scene is the same whenever it is written.
func TestAlike(t *testing.T) { require.Equal(t, scenes.All(), scenes.All()) }
