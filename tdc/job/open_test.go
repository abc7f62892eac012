package job_test

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/source"
)

const someReadings = "angle,depth\n348.6,3.29\n"

func TestOpen(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{
		"job.toml":       "[[cylinder]]\nnumber = 1\nreadings = \"bench/one.csv\"\n",
		"bench/one.csv":  someReadings,
		"elsewhere/keep": "",
	})
	path := filepath.Join(folder, "job.toml")
	j, err := job.Open(path)
	require.NoError(t, err)
	require.Equal(t, path, j.File)
	require.Len(t, j.Cylinders, 1)
	require.Len(t, j.Cylinders[0].Readings, 1)
	require.Equal(t, filepath.Join(folder, "bench", "one.csv"), j.Cylinders[0].Readings[0].File)

	// A name is relative to the job file, not to where the command runs.
	t.Chdir(filepath.Join(folder, "elsewhere"))
	j, err = job.Open("../job.toml")
	require.NoError(t, err)
	require.Equal(t, filepath.Join("..", "bench", "one.csv"), j.Cylinders[0].Readings[0].File)
}

func TestOpenRefuses(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{
		"bad.toml":    "stroke = 81,4\n",
		"large.toml":  strings.Repeat("#", 1<<20+1),
		"binary.toml": "title = \"\x00\"\n",
		"sub/x.csv":   someReadings,
	})
	for name, want := range map[string]string{
		"none.toml":   ": not found: check the name",
		"":            ": is a folder without a job.toml: name the job file, such as " + filepath.Join(folder, "bad.toml"),
		"sub":         ": is a folder without a job.toml: check the name",
		"large.toml":  ": is larger than 1 MB: expected a text file somebody typed",
		"bad.toml":    ":1:12: expected a decimal point, not a comma, as in 81.4",
		"binary.toml": ":1:10: a control character, code 0: take it out, or save the file as plain text in UTF-8",
	} {
		path := filepath.Join(folder, name)
		_, err := job.Open(path)
		require.EqualError(t, err, path+want)
		require.IsType(t, &source.Error{}, err)
	}
	_, err := job.Open(filepath.Join(folder, "bad.toml", "job.toml"))
	require.ErrorContains(t, err, ": cannot be read: ")
	require.NotContains(t, err.Error(), "stat ")
}

func TestOpenKeepsToItsFolder(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{
		"outside.csv":        someReadings,
		"bench/inside.csv":   someReadings,
		"bench/large.csv":    strings.Repeat("#", 1<<20+1),
		"bench/folder/x.csv": someReadings,
	})
	bench := filepath.Join(folder, "bench")
	for from, to := range map[string]string{
		"in.csv": "inside.csv", "out.csv": filepath.Join("..", "outside.csv"), "away": "..", "loop.csv": "loop.csv",
		"abs.csv": filepath.Join(folder, "outside.csv"),
	} {
		if err := os.Symlink(to, filepath.Join(bench, from)); err != nil {
			t.Skip("no links here: ", err)
		}
	}
	const leaves = "leaves the job's folder: put the file beside the job file and name it from there"
	for name, want := range map[string]string{
		"inside.csv":                         "",
		"./inside.csv":                       "",
		"folder/../inside.csv":               "",
		"in.csv":                             "",
		"../outside.csv":                     leaves,
		"folder/../../outside.csv":           leaves,
		filepath.Join(folder, "outside.csv"): leaves,
		filepath.Join(bench, "inside.csv"):   leaves,
		"out.csv":                            leaves,
		"abs.csv":                            leaves,
		"away/outside.csv":                   leaves,
		"none.csv":                           "not found in the job's folder: check the name",
		"none/none.csv":                      "not found in the job's folder: check the name",
		"folder":                             "is a folder: name a file in it",
		".":                                  "is a folder: name a file in it",
		"large.csv":                          "is larger than 1 MB: expected a text file somebody typed",
	} {
		path := filepath.Join(bench, "job.toml")
		require.NoError(t, os.WriteFile(path, []byte("[[cylinder]]\nnumber = 1\nreadings = '"+name+"'\n"), 0o666))
		_, err := job.Open(path)
		trusted, trustedErr := job.OpenTrusting(path)
		if want == "" || want == leaves {
			require.NoError(t, trustedErr, name)
			require.FileExists(t, trusted.Cylinders[0].Readings[0].File)
		} else {
			require.Error(t, trustedErr, name)
		}
		if want == "" {
			require.NoError(t, err, name)
			continue
		}
		require.Error(t, err, name)
		require.True(t, strings.HasPrefix(err.Error(), path+":3:12: readings = "), err)
		require.True(t, strings.HasSuffix(err.Error(), ": "+want), err)
	}
}

// A pipe would keep the job waiting for ever, and so would a link to itself.
func TestOpenTakesPlainFilesOnly(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no devices in folders")
	}
	folder := disktest.Folder(t, map[string]string{"job.toml": "[[cylinder]]\nnumber = 1\nreadings = \"loop.csv\"\n"})
	require.NoError(t, os.Symlink("loop.csv", filepath.Join(folder, "loop.csv")))
	_, err := job.Open(filepath.Join(folder, "job.toml"))
	require.ErrorContains(t, err, `job.toml:3:12: readings = "loop.csv": cannot be read: `)

	j := "[[cylinder]]\nnumber = 1\nreadings = \"null\"\n"
	device := filepath.Join(t.TempDir(), "job.toml")
	require.NoError(t, os.WriteFile(device, []byte(j), 0o666))
	if err := disktest.MakePipe(filepath.Join(filepath.Dir(device), "null")); err != nil {
		t.Skip("no pipes here: ", err)
	}
	_, err = job.Open(device)
	require.EqualError(t, err, device+`:3:12: readings = "null": is a pipe, not a plain file: save what it holds as a file, and name that`)
}

func TestErrorIsOneLine(t *testing.T) {
	e := &source.Error{File: "a\nb.toml", Line: 3, Column: 7, Problem: "odd\x1b[31m\u0085"}
	require.EqualError(t, e, "a?b.toml:3:7: odd?[31m?")
	e = &source.Error{File: "job.toml", Line: 3, Column: 0, Problem: "odd"}
	require.EqualError(t, e, "job.toml:3: odd")
	e = &source.Error{File: "job.toml", Column: 5, Problem: "odd"}
	require.EqualError(t, e, "job.toml: odd")
}
