package job_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/tdc/job"
	"evendrop/tdc/job/archive"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/jobtest"
	"evendrop/tdc/job/source"
)

const someJob = "[[cylinder]]\nnumber = 1\nreadings = \"bench/one.csv\"\n"

// roads are the ways to name one job: its file, its folder, a zip of it with a folder at its
// top and without, its file in the zip, a zip that is called something else.
func roads(t *testing.T, folder string) map[string]string {
	t.Helper()
	at := t.TempDir()
	for name, before := range map[string]string{"a.zip": "", "b.ZIP": "bench/", "c": "x y/"} {
		disktest.Zip(t, folder, before, filepath.Join(at, name))
	}
	return map[string]string{
		"file": filepath.Join(folder, "job.toml"), "folder": folder, "folder/": folder + "/", "zip": filepath.Join(at, "a.zip"),
		"zip with a folder": filepath.Join(at, "b.ZIP"), "zip without a name": filepath.Join(at, "c"),
		"file in a zip": filepath.Join(at, "a.zip", "job.toml"), "folder in a zip": filepath.Join(at, "b.ZIP", "bench"),
	}
}

// By whatever road a job is read, it is the same job.
func TestEveryRoad(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{"job.toml": someJob, "bench/one.csv": someReadings})
	want, err := job.Open(filepath.Join(folder, "job.toml"))
	require.NoError(t, err)
	for road, path := range roads(t, folder) {
		for _, open := range []func(string) (job.Job, error){job.Open, job.OpenTrusting, job.OpenBlank} {
			j, err := open(path)
			require.NoError(t, err, road)
			require.True(t, job.Same(want, j), road)
			require.Equal(t, "job.toml", filepath.Base(j.File), road)
			require.Equal(t, filepath.Join(filepath.Dir(j.File), "bench", "one.csv"), j.Cylinders[0].Readings[0].File, road)
		}
		file, err := job.OnDisk(path)
		if strings.Contains(road, "zip") {
			require.EqualError(t, err, path+": a zip is only read, and nothing is written into it: unpack it first, and name its folder")
			continue
		}
		require.NoError(t, err)
		require.Equal(t, filepath.Join(folder, "job.toml"), file)
	}
}

// The same of invented jobs, from memory too.
func TestEveryRoadOfInventedJobs(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		folder := t.TempDir()
		require.NoError(rt, jobtest.Jobs().Draw(rt, "job").Write(folder))
		want, err := job.Open(filepath.Join(folder, "job.toml"))
		require.NoError(rt, err)
		zip := filepath.Join(t.TempDir(), "a.zip")
		disktest.Zip(t, folder, "", zip)
		j, err := job.Open(zip)
		require.NoError(rt, err)
		require.True(rt, job.Same(want, j))
		j, err = job.OpenFS(os.DirFS(folder), "job.toml")
		require.NoError(rt, err)
		require.True(rt, job.Same(want, j))
	})
}

// Whatever is wrong with a job, a zip of it says the same, and where in the zip.
func TestZipSaysTheSame(t *testing.T) {
	for name, files := range map[string]map[string]string{
		"toml":        {"job.toml": "stroke = 81,4\n"},
		"readings":    {"job.toml": someJob, "bench/one.csv": "angle,depth\n1,deep\n"},
		"none":        {"job.toml": someJob},
		"a folder":    {"job.toml": someJob, "bench/one.csv/x": ""},
		"large":       {"job.toml": someJob, "bench/one.csv": strings.Repeat("#", 1<<20+1)},
		"large job":   {"job.toml": strings.Repeat("#", 1<<20+1)},
		"outside":     {"job.toml": strings.Replace(someJob, "bench/one.csv", "../one.csv", 1)},
		"far outside": {"job.toml": strings.Replace(someJob, "bench/one.csv", "bench/../../one.csv", 1), "bench/x": ""},
		"absolute":    {"job.toml": strings.Replace(someJob, "bench/one.csv", "/etc/passwd", 1)},
		"itself":      {"job.toml": strings.Replace(someJob, "bench/one.csv", ".", 1)},
		"known-good":  {"job.toml": "[[from]]\ntitle = \"a\"\n"},
		"lifts": {"job.toml": aCylinder + "[[lobe]]\nname = \"a\"\non = \"cam\"\nvalve = \"inlet\"\nlift = 1\nreadings = \"l.csv\"\n",
			"l.csv": "angle,lift\n1,deep\n"},
		"stops": {"job.toml": "[[cylinder]]\nnumber = 1\nstops = \"s.csv\"\n", "s.csv": "rising,falling\n1,x\n"},
	} {
		folder := disktest.Folder(t, files)
		_, want := job.Open(filepath.Join(folder, "job.toml"))
		require.Error(t, want, name)
		for road, path := range roads(t, folder) {
			_, err := job.Open(path)
			require.IsType(t, &source.Error{}, err, road)
			above := map[string]string{"zip with a folder": filepath.Join(path, "bench"), "zip without a name": filepath.Join(path, "x y"), "file in a zip": filepath.Dir(path), "file": folder, "folder/": folder}[road]
			if above == "" {
				above = path
			}
			require.Equal(t, strings.ReplaceAll(want.Error(), folder, above), err.Error(), "%s by %s", name, road)
		}
	}
}

// A job in memory is read as one on a disk is: there need be none.
func TestOpenFS(t *testing.T) {
	fsys := fstest.MapFS{"a/job.toml": {Data: []byte(someJob)}, "a/bench/one.csv": {Data: []byte(someReadings)}, "one.csv": {Data: []byte(someReadings)},
		"b/job.toml": {Data: []byte(strings.Replace(someJob, "bench/one.csv", "../one.csv", 1))}, "c/one.csv": {Data: []byte(someReadings)}}
	for _, name := range []string{"a", "a/job.toml"} {
		j, err := job.OpenFS(fsys, name)
		require.NoError(t, err)
		require.Equal(t, filepath.FromSlash("a/job.toml"), j.File)
		require.Equal(t, filepath.FromSlash("a/bench/one.csv"), j.Cylinders[0].Readings[0].File)
	}
	for name, says := range map[string]string{
		"b":              `job.toml:3:12: readings = "../one.csv": leaves the job's folder: put the file beside the job file and name it from there`,
		"c":              "job.toml: not found: check the name",
		"d.toml":         "d.toml: not found: check the name",
		"c/one.csv":      "one.csv: is a readings file by its name: name the job file",
		"../a/job.toml":  "job.toml: not found: check the name",
		"a/bench/../../": ": not found: check the name",
	} {
		_, err := job.OpenFS(fsys, name)
		require.ErrorContains(t, err, says, name)
		require.IsType(t, &source.Error{}, err)
	}
}

// A zip that stands for no job says what is in it; one that is broken is refused by every
// road. Trust lets nobody out of a zip.
func TestZipsRefused(t *testing.T) {
	at := t.TempDir()
	zip := func(name string, files map[string]string) string {
		path := filepath.Join(at, name)
		disktest.Zip(t, disktest.Folder(t, files), "", path)
		return path
	}
	after := zip("after.zip", map[string]string{"after.toml": strings.Replace(someJob, "bench/one.csv", "../one.csv", 1), "r.csv": ""})
	broken := filepath.Join(at, "broken.zip")
	require.NoError(t, os.WriteFile(broken, []byte("title = \"a\"\n"), 0o666))
	require.NoError(t, os.WriteFile(filepath.Join(at, "one.csv"), []byte(someReadings), 0o666))
	for path, says := range map[string]string{
		after:                              ": has no job.toml, at its top or in its one folder; it has after.toml and r.csv: name the job file, such as " + filepath.Join(after, "after.toml"),
		filepath.Join(after, "r.csv"):      ": is a readings file by its name: name the job file",
		filepath.Join(after, "x.toml"):     ": not found: check the name",
		filepath.Join(after, "after.toml"): `:3:12: readings = "../one.csv": leaves the job's folder: put the file beside the job file and name it from there`,
		broken:                             ": is not a zip that can be read: zip the folder again",
		filepath.Join(at, "none.zip"):      ": not found: check the name",
	} {
		for _, open := range []func(string) (job.Job, error){job.Open, job.OpenTrusting} {
			_, err := open(path)
			require.EqualError(t, err, path+says)
		}
	}
	_, err := job.OnDisk(broken)
	require.ErrorContains(t, err, "is not a zip")
	_, err = job.Open(filepath.Join(broken, "job.toml"))
	require.ErrorContains(t, err, "cannot be read")
	blank := zip("blank.zip", map[string]string{"job.toml": someJob})
	j, err := job.OpenBlank(blank)
	require.NoError(t, err)
	require.Empty(t, j.Cylinders[0].Readings)
}

// libraries are what the libraries say, which nobody can do anything about.
var libraries = regexp.MustCompile("flate: |zip: (not a|checksum|unsupported|insecure)")

// Whatever is in a zip, it is a job or refused in words, and no file of it leads out.
func FuzzZip(f *testing.F) {
	for _, before := range []string{"", "bench/", "../", "/"} {
		path := filepath.Join(f.TempDir(), "a.zip")
		folder := f.TempDir()
		for name, text := range map[string]string{"job.toml": "[[cylinder]]\nnumber = 1\nreadings = \"one.csv\"\n", "one.csv": someReadings} {
			require.NoError(f, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o666))
		}
		disktest.Zip(f, folder, before, path)
		data, err := os.ReadFile(path)
		require.NoError(f, err)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		fsys, err := archive.Open(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			require.NotRegexp(t, libraries, err.Error())
			return
		}
		at, err := archive.Find(fsys, job.FileName)
		if err != nil {
			require.IsType(t, &archive.Lacking{}, err)
			return
		}
		j, err := job.OpenFS(fsys, at)
		if err != nil {
			require.IsType(t, &source.Error{}, err)
			require.NotRegexp(t, libraries, err.Error())
			return
		}
		require.NotEmpty(t, j.Cylinders)
	})
}
