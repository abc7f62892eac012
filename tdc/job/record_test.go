package job_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/record/recordtest"
	"evendrop/tdc/job/source"
)

const (
	aSheet  = "[sheet]\nshop = \"Mill Lane Garage\"\ncustomer = \" J. Smith\"\nvehicle = \"AB12 CDE\"\nodometer = 84_200\norder = \"4711\"\nby = \"K\"\n"
	aPhoto  = "[[photo]]\nfile = \"pin.jpg\"\nshows = \"the pin against the edge of its hole\"\n"
	another = "[[photo]]\nfile = \"photos/belt.png\"\n"
)

// withPhotos is a job's folder with a sheet and two photos.
func withPhotos(t *testing.T) string {
	t.Helper()
	return disktest.Folder(t, map[string]string{
		"job.toml": someJob + aSheet + aPhoto + another, "bench/one.csv": someReadings,
		"pin.jpg": string(recordtest.FromPhone(48, 32)), "photos/belt.png": string(recordtest.PNG(16, 9)),
	})
}

// A sheet and photos are read by whatever road, and without what a camera adds to them.
func TestSheetAndPhotos(t *testing.T) {
	folder := withPhotos(t)
	for road, path := range roads(t, folder) {
		for _, open := range []func(string) (job.Job, error){job.Open, job.OpenTrusting} {
			j, err := open(path)
			require.NoError(t, err, road)
			require.Equal(t, record.Sheet{Shop: "Mill Lane Garage", Customer: "J. Smith", Vehicle: "AB12 CDE", Odometer: "84_200", Order: "4711", By: "K"}, j.Sheet)
			require.Len(t, j.Photos, 2)
			pin, belt := j.Photos[0], j.Photos[1]
			require.Equal(t, "pin.jpg", pin.File)
			require.Equal(t, "the pin against the edge of its hole", pin.Shows)
			require.Equal(t, []int{32, 48, 16, 9}, []int{pin.Width, pin.Height, belt.Width, belt.Height}, road)
			require.Equal(t, record.PNG, belt.Kind)
			require.NotContains(t, string(pin.Data), recordtest.Place)
		}
	}
	j, err := job.OpenFS(os.DirFS(folder), "job.toml")
	require.NoError(t, err)
	require.Equal(t, recordtest.PNG(16, 9), j.Photos[1].Data)
}

// At the bench a photo may still have to be taken, and none is read again at every line.
func TestPhotosAreNotLookedAtAtTheBench(t *testing.T) {
	folder := withPhotos(t)
	require.NoError(t, os.Remove(filepath.Join(folder, "pin.jpg")))
	path := filepath.Join(folder, "job.toml")
	j, err := job.OpenBlank(path)
	require.NoError(t, err)
	require.Equal(t, []record.Photo{{File: "pin.jpg", Shows: "the pin against the edge of its hole"}, {File: "photos/belt.png"}}, j.Photos)
	j, err = job.Amended(path, []byte(someJob+another))
	require.NoError(t, err)
	require.Equal(t, []record.Photo{{File: "photos/belt.png"}}, j.Photos)
	_, err = job.Open(path)
	require.EqualError(t, err, path+`:12:8: file = "pin.jpg": not found in the job's folder: check the name`)
}

// The day of a job and the day of its sheet are one.
func TestDateOfSheet(t *testing.T) {
	for text, want := range map[string]string{
		"date = 2026-11-26\n" + aCylinder:                                  "2026-11-26",
		aCylinder + "[sheet]\ndate = \"2026-11-26\"\n":                     "2026-11-26",
		"date = 2026-11-26\n" + aCylinder + "[sheet]\ndate = 2026-11-26\n": "2026-11-26",
		"date = 2026-11-26\n" + aCylinder + "[sheet]\ndate = \"\"\n":       "2026-11-26",
		"[sheet]\ndate = 2026-11-26\n" + aCylinder + "":                    "2026-11-26",
		aCylinder: "",
	} {
		j, err := job.Parse("job.toml", []byte(text), shelf)
		require.NoError(t, err, text)
		require.Equal(t, want, j.Date, text)
		require.Equal(t, want, j.Sheet.Date, text)
		require.True(t, j.Sheet.Empty())
	}
	require.Equal(t, `job.toml:7:8: date = "2026-11-27": the job has date = "2026-11-26" at its top: expected the same day, or leave out one of the two`,
		refused(t, "date = 2026-11-26\n"+aCylinder+"[sheet]\ndate = \"2026-11-27\"\n"))
}

// Whose car it was is no part of what was measured.
func TestSameWhoeverItWasFor(t *testing.T) {
	with, err := job.Open(withPhotos(t))
	require.NoError(t, err)
	without, err := job.Open(disktest.Folder(t, map[string]string{"job.toml": someJob, "bench/one.csv": someReadings}))
	require.NoError(t, err)
	require.True(t, job.Same(with, without))
}

func TestRefuseSheetAndPhotos(t *testing.T) {
	photos := ""
	for i := range 13 {
		photos += fmt.Sprintf("[[photo]]\nfile = \"%d.jpg\"\n", i)
	}
	for text, says := range map[string]string{
		"[[phto]]\nfile = 1\n":                                   `1:1: phto: unknown key; did you mean "photo"?`,
		"[seet]\n":                                               `1:1: seet: unknown key; did you mean "sheet"?`,
		"[[sheet]]\n":                                            "1:1: [[sheet]]: there is only one: write [sheet]",
		"[photo]\nfile = \"a\"\n":                                "1:1: [photo]: there may be more than one: write [[photo]]",
		"[photo]\nfile = \"a\"\n[photo]\n":                       "3:1: [photo]: there may be more than one: write [[photo]]",
		"[sheet]\ncustmer = \"a\"\n":                             `2:1: custmer: unknown key; did you mean "customer"?`,
		"[sheet]\nshop = 12\n":                                   `2:8: shop = 12: expected a text in quotes, as in "text"`,
		"[sheet]\norder = true\n":                                `2:9: order = true: expected a text in quotes, as in "text"`,
		"[sheet]\nby = \"a\\u001b[31m\"\n":                       `2:6: by = "a\x1b[31m": expected one line of text, without control characters`,
		"[sheet]\ndate = \"yesterday\"\n":                        `2:8: date = "yesterday": expected a day of the calendar as year-month-day, such as 2026-11-25`,
		"[sheet]\nby = \"" + strings.Repeat("a", 1_001) + "\"\n": "expected a text of at most 1000 characters",
		"[[photo]]\nshows = \"a\"\n":                             `1:1: [[photo]]: file is missing: type for example file = "pin.jpg"`,
		"[[photo]]\nfile = \"\"\n":                               `2:8: file = "": expected a name`,
		"[[photo]]\nfile = \"a\\nb.jpg\"\n":                      "expected one line of text, without control characters",
		"[[photo]]\nfil = \"a\"\n":                               `2:1: fil: unknown key; did you mean "file"?`,
		"[[photo]]\nfile = \"none.jpg\"\n":                       `2:8: file = "none.jpg": not found in the job's folder: check the name`,
	} {
		require.Contains(t, refused(t, text), says, text)
	}
	picture := func(name string) ([]byte, error) {
		if strings.HasSuffix(name, ".jpg") {
			return recordtest.JPEG(2, 2), nil
		}
		return shelf(name)
	}
	for text, says := range map[string]string{
		photos:          "25:1: [[photo]]: more than 12 photos: leave out those that show the least",
		aPhoto + aPhoto: `5:8: file = "pin.jpg": another photo has this file: leave out one of the two`,
	} {
		_, err := job.Parse("job.toml", []byte(text), picture)
		require.ErrorContains(t, err, "job.toml:"+says)
	}
}

// What is named as a photo and is none is refused where it is named, on the disk as in a
// zip; a large one before it is read.
func TestRefusePhotoFiles(t *testing.T) {
	const leaves = "leaves the job's folder: put the file beside the job file and name it from there"
	job1 := "[[cylinder]]\nnumber = 1\nreadings = \"one.csv\"\n[[photo]]\nfile = '%s'\n"
	for name, c := range map[string]struct{ data, says string }{
		"empty.jpg":        {"", "is empty: copy the picture"},
		"IMG_0001.HEIC":    {recordtest.HEIC, "is a HEIC picture, as many phones take them, and not every browser shows one. Save it as JPEG"},
		"page.jpg":         {"<script>", "is neither a JPEG nor a PNG picture, whatever its name says: save"},
		"cut.jpg":          {string(recordtest.JPEG(48, 32)[:500]), "is a picture that was cut short: copy"},
		"large.jpg":        {string(recordtest.JPEG(2, 2)) + strings.Repeat("a", record.MostBytes), "is larger than 5 MB: make the picture smaller, as a phone can"},
		"bomb.png":         {string(recordtest.Claiming(60_000, 60_000)), "is 60000 by 60000 pixels, more than 12,000 a side or 64 million in all"},
		"folder/x.jpg/y":   {"", ""},
		"../outside.jpg":   {"", leaves},
		"none.jpg":         {"", "not found in the job's folder: check the name"},
		"\u202egpj.elcric": {"", "not found in the job's folder: check the name"},
	} {
		files := map[string]string{"job.toml": fmt.Sprintf(job1, strings.TrimSuffix(name, "/y")), "one.csv": someReadings}
		if says := c.says; !strings.HasPrefix(says, "not found") && says != leaves {
			files[name] = c.data
		}
		if c.says == "" {
			c.says = "is a folder: name a file in it"
		}
		folder := disktest.Folder(t, files)
		for road, path := range roads(t, folder) {
			_, err := job.Open(path)
			require.IsType(t, &source.Error{}, err, "%s by %s", name, road)
			require.ErrorContains(t, err, "job.toml:5:8: file = ", road)
			require.ErrorContains(t, err, ": "+c.says, road)
		}
	}
}

// A photo elsewhere is read only of a job that is trusted; nothing that is no file is waited
// for, and of a file that is far too large no more is read than it may have.
func TestHostilePhotos(t *testing.T) {
	folder := withPhotos(t)
	path := filepath.Join(folder, "job.toml")
	pin := filepath.Join(folder, "pin.jpg")
	elsewhere := filepath.Join(t.TempDir(), "a.jpg")
	require.NoError(t, os.WriteFile(elsewhere, recordtest.JPEG(5, 4), 0o666))
	place := func(make func() error) {
		require.NoError(t, os.Remove(pin))
		if err := make(); err != nil {
			t.Skip("not on this system: ", err)
		}
	}
	place(func() error { return os.Symlink(elsewhere, pin) })
	_, err := job.Open(path)
	require.ErrorContains(t, err, `file = "pin.jpg": leaves the job's folder`)
	j, err := job.OpenTrusting(path)
	require.NoError(t, err)
	require.Equal(t, 5, j.Photos[0].Width)
	place(func() error { return os.Symlink("/etc/passwd", pin) })
	_, err = job.Open(path)
	require.ErrorContains(t, err, `file = "pin.jpg": leaves the job's folder`)
	_, err = job.OpenTrusting(path)
	require.ErrorContains(t, err, "is neither a JPEG nor a PNG picture")
	require.NotContains(t, err.Error(), "root")
	place(func() error { return disktest.MakePipe(pin) })
	_, err = job.Open(path)
	require.ErrorContains(t, err, "is a pipe, not a plain file")
	place(func() error {
		if err := os.WriteFile(pin, recordtest.JPEG(5, 4), 0o666); err != nil {
			return err
		}
		return os.Truncate(pin, 1<<30)
	})
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err = job.Open(path)
	runtime.ReadMemStats(&after)
	require.ErrorContains(t, err, "is larger than 5 MB")
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4*record.MostBytes), "bytes: of a buffer that may grow twice")
}

// A file system that says less of a file than it holds is read no further than a photo goes.
func TestPhotoOfAnyFileSystem(t *testing.T) {
	fsys := fstest.MapFS{
		"job.toml": {Data: []byte(someJob + aPhoto)}, "bench/one.csv": {Data: []byte(someReadings)},
		"pin.jpg": {Data: append(recordtest.JPEG(5, 4), make([]byte, record.MostBytes)...)},
	}
	_, err := job.OpenFS(fsys, "job.toml")
	require.ErrorContains(t, err, `job.toml:5:8: file = "pin.jpg": is larger than 5 MB`)
	fsys["pin.jpg"] = &fstest.MapFile{Data: recordtest.JPEG(5, 4)}
	j, err := job.OpenFS(fsys, "job.toml")
	require.NoError(t, err)
	require.Equal(t, 5, j.Photos[0].Width)
}
