package session_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/record/recordtest"
)

// refuses types a line that is not understood, after which the job file is as it was.
func refuses(t *testing.T, s *session.Session, file, line string) string {
	t.Helper()
	before := fileOf(t, file)
	all, _, err := s.Obey(line)
	require.NoError(t, err, line)
	require.ErrorIs(t, s.Fault(), session.ErrNotUnderstood, line)
	require.Equal(t, before, fileOf(t, file), line)
	return unwrapped(words(all, session.Remark))
}

// A sheet is kept in the job file as far as it is typed, in one line or in several; undo
// takes it out again, redo brings it back.
func TestSheet(t *testing.T) {
	s, file := atBench(t, engine)
	said := types(t, s, `sheet customer J. Smith; vehicle = "AB12 CDE"; Order: #4711`)
	require.Contains(t, said, "Kept: for the sheet, customer J. Smith; vehicle AB12 CDE; order #4711.")
	first := engine + "\n[sheet]\ncustomer = \"J. Smith\"\nvehicle = \"AB12 CDE\"\norder = \"#4711\"\n"
	require.Equal(t, first, fileOf(t, file))
	types(t, s, "sheet customer Jones", "sheet order none", `sheet by K "the wrench" Lee`)
	want := record.Sheet{Customer: "Jones", Vehicle: "AB12 CDE", By: `K "the wrench" Lee`}
	require.Equal(t, want, s.Job.Sheet)
	require.Contains(t, fileOf(t, file), "# before: customer = \"J. Smith\"\ncustomer = \"Jones\"\n")
	require.Contains(t, fileOf(t, file), "# undone:\n# order = \"#4711\"\n")
	require.Contains(t, types(t, s, "sheet vehicle AB12 CDE"), "Nothing of the sheet was changed.")
	require.Contains(t, types(t, s, "undo"), `Undone: for the sheet, by K "the wrench" Lee.`)
	require.Contains(t, types(t, s, "undo"), "Undone: for the sheet, order none.")
	require.Equal(t, "#4711", s.Job.Sheet.Order)
	types(t, s, "undo", "undo")
	require.Equal(t, record.Sheet{}, s.Job.Sheet)
	require.NotContains(t, "\n"+fileOf(t, file), "\n[sheet]", "the whole of it is a comment")
	types(t, s, "redo", "redo", "redo", "redo")
	require.Equal(t, want, s.Job.Sheet)
	j, err := job.OpenBlank(file)
	require.NoError(t, err)
	require.Equal(t, want, j.Sheet)
}

// Alone it asks for all of it at a terminal, with what is there already for Enter; whoever
// leaves changes nothing.
func TestSheetAsks(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, "sheet by K; date 2026-11-26")
	require.Contains(t, types(t, s, "sheet"), "What is your shop called? [none]")
	require.Equal(t, "sheet", s.Prompt())
	require.Contains(t, types(t, s, "Mill Lane Garage"), "Who is the customer? [none]")
	by := types(t, s, "J. Smith # 2", "", "84,200", "none")
	require.Contains(t, by, "Who does the work? [K]")
	require.Contains(t, types(t, s, ""), "Kept: for the sheet, shop Mill Lane Garage; customer J. Smith # 2; odometer 84,200.")
	want := record.Sheet{Shop: "Mill Lane Garage", Customer: "J. Smith # 2", Odometer: "84,200", By: "K", Date: "2026-11-26"}
	require.Equal(t, want, s.Job.Sheet)
	before := fileOf(t, file)
	types(t, s, "sheet", "Other")
	_, remark := said(t, s, "cancel")
	require.Equal(t, "Left out: the sheet is not kept.", remark)
	require.Equal(t, before, fileOf(t, file))
	require.Contains(t, types(t, s, "sheet", strings.Repeat("x", 101)), "What is your shop called?", "asked again")
	types(t, s, "", "", "", "", "", "none")
	want.By = ""
	require.Equal(t, want, s.Job.Sheet)
	types(t, s, "undo")
	require.Equal(t, "K", s.Job.Sheet.By)
}

func TestSheetRefuses(t *testing.T) {
	for line, says := range map[string]string{
		"sheet customer":                         "sheet goes with what it is to say: type for example sheet customer J. Smith; vehicle AB12 CDE",
		"sheet customer a; ;":                    "sheet goes with what it is to say",
		`sheet customer = ""`:                    "sheet goes with what it is to say",
		"sheet colour red":                       `"colour" is not on a sheet: expected "shop", "customer", "vehicle", "odometer", "order", "by" or "date"`,
		"sheet custmer a":                        `"custmer" is not on a sheet: did you mean "customer"?`,
		"sheet shop " + strings.Repeat("x", 101): "a sheet has room for 100 characters there: type it shorter",
	} {
		s, file := atBench(t, engine)
		require.Contains(t, refuses(t, s, file, line), says, line)
	}
	s, file := atBench(t, "date = 2026-11-25\n"+engine) // the job is of another day
	all, _, err := s.Obey("sheet date 2026-11-26")
	require.NoError(t, err)
	require.Contains(t, unwrapped(words(all, session.Remark)), `This was not kept: `+file)
	require.Equal(t, "date = 2026-11-25\n"+engine, fileOf(t, file))
	s, file = atBench(t, engine) // through a pipe nobody is asked
	s.Patient = false
	require.Contains(t, refuses(t, s, file, "sheet"), "sheet goes with what it is to say")
}

// A photo is looked at as it is typed, once, and named in the job file; undo takes it out.
func TestPhoto(t *testing.T) {
	s, file := atBench(t, engine)
	at := filepath.Dir(file)
	for name, data := range map[string][]byte{"pin.jpg": recordtest.FromPhone(48, 32), "my belt.PNG": recordtest.PNG(16, 9), "odd": recordtest.JPEG(3, 2), "a#1.jpg": recordtest.JPEG(3, 2)} {
		require.NoError(t, os.WriteFile(filepath.Join(at, name), data, 0o600))
	}
	said := types(t, s, "photo pin.jpg the pin, 2 mm off: bolt #3")
	require.Contains(t, said, "Kept: photo pin.jpg, 32 by 48 pixels: the pin, 2 mm off: bolt #3.")
	require.Equal(t, engine+"\n[[photo]]\nfile = \"pin.jpg\"\nshows = \"the pin, 2 mm off: bolt #3\"\n", fileOf(t, file))
	require.Contains(t, types(t, s, `photo my belt.PNG shows = "the belt"`), "Kept: photo my belt.PNG, 16 by 9 pixels: the belt.")
	require.Contains(t, types(t, s, `photo "odd"`), "Kept: photo odd, 3 by 2 pixels.")
	types(t, s, "photo a#1.jpg")
	j, err := job.Open(withReadings(t, file))
	require.NoError(t, err)
	var list []string
	for _, p := range j.Photos {
		list = append(list, fmt.Sprintf("%s %d %s", p.File, p.Width, p.Shows))
	}
	require.Equal(t, []string{"pin.jpg 32 the pin, 2 mm off: bolt #3", "my belt.PNG 16 the belt", "odd 3 ", "a#1.jpg 3 "}, list)
	require.NoError(t, os.Remove(filepath.Join(at, "pin.jpg"))) // which no other line asks for
	types(t, s, sides(t)...)
	require.Contains(t, types(t, s, "undo"), "Undone: reading")
	s, file = atBench(t, engine)
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "pin.jpg"), recordtest.JPEG(3, 2), 0o600))
	types(t, s, "photo pin.jpg")
	require.Contains(t, types(t, s, "undo"), "Undone: photo pin.jpg.")
	require.Empty(t, s.Job.Photos)
	require.Equal(t, engine+"\n# undone:\n# [[photo]]\n# file = \"pin.jpg\"\n", fileOf(t, file))
	types(t, s, "redo")
	require.Equal(t, []record.Photo{{File: "pin.jpg"}}, s.Job.Photos)
}

// withReadings gives a job its first readings file, where it has none in it yet.
func withReadings(t *testing.T, file string) string {
	t.Helper()
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "cylinder-1.csv"), []byte("angle,depth\n340,4.1\n"), 0o600))
	return file
}

// What is no photo that a page shows is refused as it is typed, and nothing is kept.
func TestPhotoRefuses(t *testing.T) {
	const fromCamera = "copy the picture from the phone or camera again"
	for line, says := range map[string]string{
		"photo":                    "photo goes with a file in the job's folder and what it shows: type for example photo pin.jpg the pin against the edge of its hole",
		`photo ""`:                 "photo goes with a file",
		"photo none.jpg":           "none.jpg: not found in the job's folder: check the name",
		"photo IMG 7.HEIC the pin": "IMG 7.HEIC: is a HEIC picture, as many phones take them",
		"photo empty.jpg":          "empty.jpg: is empty: " + fromCamera,
		"photo cut.jpg the pin":    "cut.jpg: is a picture that was cut short: " + fromCamera,
		"photo large.jpg":          "large.jpg: is larger than 5 MB: make the picture smaller",
		"photo bomb.png":           "bomb.png: is 60000 by 60000 pixels",
		"photo away.jpg":           "away.jpg: leaves the job's folder: put the file beside the job file",
		"photo ../a.jpg":           "../a.jpg: leaves the job's folder",
		"photo /etc/passwd":        "/etc/passwd: leaves the job's folder",
		"photo pipe.jpg":           "pipe.jpg: is a pipe, not a plain file",
		"photo job.toml":           "job.toml: is neither a JPEG nor a PNG picture",
		"photo . all":              ".: is a folder: name a file in it",
		"photo \u202egpj.nip":      "not found",
	} {
		s, file := atBench(t, engine)
		at := filepath.Dir(file)
		for name, data := range map[string]string{"IMG 7.HEIC": recordtest.HEIC, "empty.jpg": "", "cut.jpg": string(recordtest.JPEG(48, 32)[:500]), "large.jpg": strings.Repeat("a", record.MostBytes+1), "bomb.png": string(recordtest.Claiming(60_000, 60_000))} {
			require.NoError(t, os.WriteFile(filepath.Join(at, name), []byte(data), 0o600))
		}
		if os.Symlink("/etc/passwd", filepath.Join(at, "away.jpg")) != nil || disktest.MakePipe(filepath.Join(at, "pipe.jpg")) != nil {
			t.Skip("no links or pipes here")
		}
		require.Contains(t, refuses(t, s, file, line), says, line)
	}
	s, file := atBench(t, engine)
	for n := range 13 {
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), fmt.Sprintf("%d.jpg", n)), recordtest.JPEG(1, 1), 0o600))
	}
	for n := range 12 {
		types(t, s, fmt.Sprintf("photo %d.jpg", n))
	}
	require.Contains(t, refuses(t, s, file, "photo 0.jpg again"), "the job has the photo 0.jpg already")
	require.Contains(t, refuses(t, s, file, "photo 12.jpg"), "the job has 12 photos")
}
