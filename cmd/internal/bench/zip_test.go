package bench_test

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/bench"
)

// A zip has nothing of when it was made, so that the same job makes the same zip.
func TestZipHasNoTime(t *testing.T) {
	c, _ := at(t, littleJob())
	data, err := base64.StdEncoding.DecodeString(ask(t, c, bench.Request{Action: bench.Export}).Zip)
	require.NoError(t, err)
	read, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	require.NotEmpty(t, read.File)
	for _, f := range read.File {
		require.Equal(t, 1980, f.Modified.In(time.UTC).Year(), f.Name)
	}
}

// A zip has every file that was kept, and no other.
func TestExportIsWhatWasKept(t *testing.T) {
	files := littleJob()
	c, _ := at(t, files)
	types(t, c, files, reading(-20), reading(20))
	data, err := base64.StdEncoding.DecodeString(ask(t, c, bench.Request{Action: bench.Export}).Zip)
	require.NoError(t, err)
	read, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	require.Len(t, read.File, len(files))
}
