package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/record/recordtest"
)

// Typed at the bench, a sheet and a photo are in the job, and in a zip of it; nothing of
// either steers the terminal.
func TestJotTakesASheetAndPhotos(t *testing.T) {
	jobFile, _ := newJob(t)
	at := filepath.Dir(jobFile)
	require.NoError(t, os.WriteFile(filepath.Join(at, "pin.jpg"), recordtest.FromPhone(48, 32), 0o600))
	out, errs, err := jotting(t, jobFile, append(storyLines(), "sheet shop Mill \x1b[31mLane; customer J. \u202eSmith; order #7", "photo pin.jpg the \u202epin, bolt #3", "photo pin.jpg", "photo none.jpg", "sheet")...)
	require.Error(t, err, "three lines were not understood")
	require.NotContains(t, out+errs, "\x1b")
	require.NotContains(t, out+errs, "\u202e")
	require.Contains(t, unwrapped(out), "order #7.")
	require.Contains(t, unwrapped(out), "Kept: photo pin.jpg, 32 by 48 pixels: the ")
	for _, says := range []string{"the job has the photo pin.jpg already", "none.jpg: not found in the job's folder: check the name", "sheet goes with what it is to say"} {
		require.Contains(t, unwrapped(errs), says)
	}
	within80(t, errs)
	zip := filepath.Join(t.TempDir(), "a.zip")
	disktest.Zip(t, at, "bench/", zip)
	for _, path := range []string{jobFile, zip} {
		j, err := job.Open(path)
		require.NoError(t, err)
		require.Equal(t, "#7", j.Sheet.Order)
		require.Len(t, j.Photos, 1)
		require.Equal(t, record.JPEG, j.Photos[0].Kind)
		require.True(t, strings.HasSuffix(j.Photos[0].Shows, "pin, bolt #3"))
		require.Contains(t, answerOf(t, "find", path), "TDC")
	}
}

// Whatever is asked of a job, a photo that is none is said, where it is named, and only find
// and its like look at it: the bench waits for none.
func TestPhotoThatIsNoneIsSaid(t *testing.T) {
	jobFile, _ := newJob(t)
	_, _, err := jotting(t, jobFile, storyLines()...)
	require.NoError(t, err)
	text := mustRead(t, jobFile) + "\n[[photo]]\nfile = \"IMG_1.HEIC\"\n"
	require.NoError(t, os.WriteFile(jobFile, []byte(text), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(jobFile), "IMG_1.HEIC"), []byte(recordtest.HEIC), 0o600))
	for _, args := range [][]string{{"find", jobFile}, {"find", jobFile, "--trust-paths"}, {"recheck", jobFile, jobFile}, {"keep", jobFile, filepath.Join(t.TempDir(), "h.toml")}} {
		code, out, errs := ev(args...)
		require.Equal(t, failed, code, args)
		require.Empty(t, out)
		require.Contains(t, unwrapped(errs), `file = "IMG_1.HEIC": is a HEIC picture, as many phones take them, and not every browser shows one. Save it as JPEG`, args)
	}
	_, _, err = jotting(t, jobFile, "stop -31.5 41.5")
	require.NoError(t, err)
	code, _, errs := ev("plan", jobFile)
	require.Equal(t, answered, code, errs)
}
