package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A job of a dwell alone has its picture on the page, and as the picture that is drawn
// unless another is asked for; there is no curve.
func TestADwellIsDrawn(t *testing.T) {
	folder := t.TempDir()
	job, file := filepath.Join(folder, "job.toml"), filepath.Join(folder, "p.svg")
	require.NoError(t, os.WriteFile(job, []byte("[engine]\nstroke = 81.4\nrod = 133.0\n[[cylinder]]\nnumber = 1\n"+
		"dwell = [{ still = 356.5, moves = 12.0, turn = \"forward\" }]\n"), 0o600))
	code, _, errs := ev("find", job, "--picture", file)
	require.Equal(t, answered, code, errs)
	require.Contains(t, mustRead(t, file), "Dwell pair 1, turned forward: still at 356.5, moves at 12.0; half-way ")
	require.Equal(t, mustRead(t, file), pictureOf(t, job, "observations"))
	page := pageOf(t, job)
	require.Contains(t, page, "What was seen without a depth")
	require.NotContains(t, page, "fitted curve")
	code, _, errs = ev("find", job, "--picture", filepath.Join(folder, "c.svg"), "--of", "curve")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "no readings to draw")
}
