package session_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/job"
)

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

// A cylinder's throw is typed as people say it, and may be typed again.
func TestCylinderAt(t *testing.T) {
	s, file := atBench(t, engine)
	require.Contains(t, types(t, s, "cylinder 2 at 180 deg"), "Readings are of cylinder 2")
	require.Contains(t, fileOf(t, file), "throw = 180")
	require.Contains(t, types(t, s, "cylinder 1", "cylinder 2 180"), "Readings are of cylinder 2")
}
