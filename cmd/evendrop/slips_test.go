package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What people slip in, and what to type instead.
func TestSlipsOfTheCommandLine(t *testing.T) {
	dir := bystander(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"find", at("cylinder-1.csv")}, failed, "is a readings file by its name: name the job file, or type evendrop find --readings"},
		{[]string{"find", "--readings", at("job.toml")}, failed, "is a job file by its name, not a readings file: type evendrop find"},
		{[]string{"find", at("known-good.toml")}, failed, "this is a known-good file: type evendrop find JOB --against"},
		{[]string{"find", at("job.toml"), "--picture", at("p.png")}, wrongUse, "pictures are SVG: name it"},
		{[]string{"find", at("job.toml"), "--page", at("p.pdf")}, wrongUse, "pages are HTML: name it"},
		{[]string{"find", "--readings", at("cylinder-1.csv"), "--pin", "abc"}, wrongUse, `--pin "abc": expected an angle`},
		{[]string{"edges", at("capture.csv"), "--crank", "Krank", "--cam", "Cam", "--wheel", "60-2"}, failed,
			`capture.csv:2: no column is headed "Krank": expected one of Time, Crank, Cam, or a column's number`},
		{[]string{"edges", at("capture.csv"), "--crank", "2", "--cam", "3", "--wheel", "60-2", "--picture", at("e.jpg")}, wrongUse, "pictures are SVG"},
		{[]string{"edges", at("none.csv"), "--crank", "2", "--cam", "3", "--wheel", "60-2"}, failed, "none.csv: not found: check the name of the capture"},
		{[]string{"convert", "1", "tooth", "--pitches", "60-x"}, wrongUse, "or a wheel such as 60-2"},
		{[]string{"rehearse", at("job.toml/x")}, failed, "cannot be made"},
	} {
		code, out, errs := ev(c.args...)
		require.Equal(t, c.code, code, "%v: %s", c.args, errs)
		require.Empty(t, out)
		require.Contains(t, errs, c.says, c.args)
	}
	code, _, errs := ev("find", at("job.toml"), "--page", at("p.html"), "--picture", at("p.svg"), "--cylinder", "9")
	require.Equal(t, wrongUse, code, errs)
	require.NoFileExists(t, at("p.html"))
	for _, args := range [][]string{{"1", "tooth", "--pitches", "60-2"}, {"1tooth", "--pitches", "60"}, {"12", "cam", "--on", "cam"}} {
		code, out, errs := ev(append([]string{"convert"}, args...)...)
		require.Equal(t, answered, code, errs)
		require.Regexp(t, `crank deg +(6|24)\s`, strings.ReplaceAll(out, "degrees", "deg"), args)
	}
}

// bystander is a copy of the example; its folder's name has a blank and a letter
// outside ASCII.
func bystander(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "bench für two")
	require.NoError(t, os.CopyFS(dir, os.DirFS(filepath.Dir(diagnostician))))
	return dir
}

// found is what find says of readings and more of a job, on one line.
func found(t *testing.T, readings, more string) string {
	t.Helper()
	return answerOf(t, "find", wrote(t, readings, more))
}

// wrote is a job of readings and more, written.
func wrote(t *testing.T, readings, more string) (path string) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	path = filepath.Join(dir, "job.toml")
	text := "[engine]\nstroke = \"86 mm\"\nrod = \"146 mm\"\n[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n"
	if strings.HasPrefix(more, "unit") {
		text, more = more+text, ""
	}
	require.NoError(t, os.WriteFile(path, []byte(text+more), 0o600))
	return path
}

// exactly is depths of a piston of 86 mm stroke and a rod of 146 at 35 to 11 deg either
// side of TDC: 9.76 to 1.02 mm, by the law of cosines.
const exactly = "angle,depth\n325,9.76\n331,7.17\n337,4.52\n343,2.49\n349,1.02\n11,1.02\n17,2.49\n23,4.52\n29,7.17\n35,9.76\n"

// turned is the rows of exactly, turned one way.
func turned(turn string) (rows string) {
	lines := strings.Split(strings.TrimSpace(exactly), "\n")[1:]
	if turn == "backward" {
		slices.Reverse(lines)
	}
	for _, line := range lines {
		rows += line + "," + turn + "\n"
	}
	return rows
}

func TestSlipsOfMarks(t *testing.T) {
	mark := "[[mark]]\nname = \"notch\"\non = \"pulley\"\nlimit = 1\nread = "
	out := found(t, exactly, mark+"[3, 5, 3, 5]\n")
	require.Contains(t, out, "The readings lie 2.0 deg apart: read again. A decimal is written with a point")
	require.NotContains(t, found(t, exactly, mark+"[3.5, 4.0]\n"), "readings lie")
	require.Contains(t, found(t, exactly, mark+"[203.5]\n"), "first check what was read and typed")
}

func TestSlipsOfReadings(t *testing.T) {
	// inches typed into a job in mm
	out := found(t, "angle,depth\n325,.384\n331,.282\n337,.178\n343,.098\n349,.040\n11,.040\n17,.098\n23,.178\n29,.282\n35,.384\n", "")
	require.Contains(t, out, `they look like inches. Name their column depth_in, or write unit = "in"`)
	require.NotContains(t, out, "The gauge shows")
	code, _, errs := ev("find", wrote(t, exactly, "unit = \"in\"\n"))
	require.Equal(t, failed, code)
	require.Contains(t, errs, "they look like millimetres taken as inches")
	// an inch job is answered in inches
	out = found(t, "angle,depth\n325,.384\n331,.282\n337,.178\n343,.098\n349,.040\n11,.040\n17,.098\n23,.178\n29,.282\n35,.384\n", "unit = \"in\"\n")
	require.Regexp(t, `the gauge should show 0\.03\d* ± 0\.00\d* in at`, out)
	// a dial gauge's turn, and where it was
	both := "angle,depth,turn\n" + turned("forward") + turned("backward")
	out = found(t, strings.Replace(both, "23,4.52", "23,5.52", 1), "")
	require.Contains(t, out, "line 9 (23 deg, forward) does not fit")
	require.Contains(t, out, "One turn of a dial gauge is 1 mm.")
	out = found(t, strings.Replace(both, "23,4.52", "23,5.52", 1), "[gauge]\nkind = \"rod\"\nstep = 0.01\nerror = 0.02\n")
	require.Contains(t, out, "line 9 (23 deg, forward) does not fit")
	require.NotContains(t, out, "dial gauge")
	// turned back, and not said
	contrary := exactly + "35,9.76\n29,7.17\n23,4.52\n17,2.49\n11,1.02\n349,1.02\n"
	out = found(t, contrary, "")
	require.Contains(t, out, "line 12 (35 deg, forward) and the 5 readings below it go against turning forward")
	require.NotContains(t, found(t, exactly, ""), "go against")
	require.NotContains(t, found(t, exactly+"35,9.76\n29,7.17\n23,4.52\n", ""), "go against") // may be chance
}

// A file made known-good of the job itself is no test of it, and that is said.
func TestAgainstItself(t *testing.T) {
	dir := bystander(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	code, _, errs := ev("keep", at("job.toml"), at("own.toml"))
	require.Equal(t, answered, code, errs)
	_, out, _ := ev("find", at("job.toml"), "--against", at("own.toml"))
	require.Contains(t, unwrapped(out), "can only agree with itself: this tests nothing")
	_, out, _ = ev("find", at("job.toml"), "--against", at("known-good.toml"))
	require.NotContains(t, out, "this tests nothing")
	job, err := os.ReadFile(at("job.toml"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(at("again.toml"), []byte(strings.Replace(string(job), "in doubt", "another day", 1)), 0o600))
	_, out, _ = ev("find", at("again.toml"), "--against", at("own.toml")) // as sure of TDC, and another job
	require.NotContains(t, out, "this tests nothing")
	text, err := os.ReadFile(at("healthy-2.toml"))
	require.NoError(t, err)
	other := strings.Replace(string(text), "1.6 petrol four", "1.8 petrol four", 1)
	require.NotEqual(t, string(text), other)
	require.NoError(t, os.WriteFile(at("healthy-2.toml"), []byte(other), 0o600))
	_, out, _ = ev("keep", at("healthy-1.toml"), at("healthy-2.toml"), at("two.toml"))
	require.Contains(t, unwrapped(out), "keep engines of one family only")
	_, out, _ = ev("recheck", at("healthy-1.toml"), at("healthy-2.toml"))
	require.Contains(t, unwrapped(out), "make sure that it is one engine")
}

// Pairs that do not agree are named, and what the ± is made of.
func TestHalveNamesWhatDoesNotAgree(t *testing.T) {
	_, out, _ := ev("halve", "350", "10", "345", "15", "348", "16")
	out = unwrapped(out)
	require.Contains(t, out, "95 %, by the scatter of the midpoints")
	require.Contains(t, out, "The midpoints lie up to 2.0 deg apart, more than the protractor explains, pair 3 farthest from the others")
	for _, c := range [][]string{
		{"pair 3, 26 deg from the others", "350", "10", "345", "15", "12", "40"},
		{"pair 3, 104 deg from the others", "350", "10", "351", "11", "90", "120"},
		{"half-way is 0 for pair 1 and 105 for pair 2. One of them is wrong: read a third", "350", "10", "90", "120"},
		{"One is of the piston's lowest point: that is BDC", "350", "10", "171", "189"},
		{"pair 2: 10 and 10 are the same angle on this protractor", "350", "10", "10", "10"},
		{"pair 1: 10 and 10.5 are the same angle", "10", "10.5"},
	} {
		code, out, errs := ev(append([]string{"halve"}, c[1:]...)...)
		require.Equal(t, failed, code, c)
		require.Empty(t, out)
		require.Contains(t, errs, c[0])
	}
	_, out, _ = ev("halve", "348.5", "11.5", "341", "19")
	require.Contains(t, unwrapped(out), "the protractor's own error alone")
	require.NotContains(t, out, "apart")
}

// A dwell seen both ways differs by lash, the same amount each way, and no pair of it
// is wrong: (354.5 + 8) / 2 = 1.25 forward and (5.5 + 351.5) / 2 = 358.5 back, TDC
// half-way at 359.875 and each 1.375 from it (arithmetic).
func TestHalveBothWays(t *testing.T) {
	code, out, errs := ev("halve", "354.5", "8", "5.5", "351.5")
	require.Equal(t, answered, code, errs)
	out = unwrapped(out)
	require.Contains(t, out, "TDC is at 359.9 ± 0.4 deg")
	require.Contains(t, out, "Turned forward the midpoints come 1.4 deg late, turned back as much early: lash and the eye's lag do that, and it cancels.")
	require.NotContains(t, out, "wrong")
	require.NotContains(t, out, "Turned one way only")
	_, out, _ = ev("halve", "354.5", "8", "5.5", "351.5", "--as", "json")
	require.Regexp(t, `"tdc_deg": 359\.87(5|499999)`, out)
	require.Regexp(t, `"lag_deg": 1\.37(5|499999)`, out)
	// with numbers that grow against the crank the later angle is the smaller
	_, out, _ = ev("halve", "5.5", "352", "355", "8.5", "--counts", "against")
	require.Contains(t, unwrapped(out), "Turned forward the midpoints come 1.5 deg late")
	_, out, _ = ev("halve", "8", "354.5", "351.5", "5.5")
	require.Contains(t, unwrapped(out), "lash does the opposite. Check that each pair is in the order it was read")
	// each typed with the smaller angle first: nobody said which was turned back
	for _, args := range [][]string{{"354.5", "8", "351.5", "5.5"}, {"354.5", "8", "354.5", "8.5", "351.5", "5.5", "351.5", "5"}} {
		_, out, _ = ev(append([]string{"halve"}, args...)...)
		out = unwrapped(out)
		require.Regexp(t, `TDC is at 359\.9 ± 2\.[35] deg`, out)
		require.Contains(t, out, "Type a pair turned back with its later angle first")
		require.NotContains(t, out, "one of the two pairs is wrong")
	}
}

// A plan that never turns back does not send anybody back, and the page tells where
// to go back and see.
func TestPlanOneWayNeverGoesBack(t *testing.T) {
	_, out, _ := ev("plan", diagnostician, "--one-way")
	out = unwrapped(out)
	require.Contains(t, out, "go on forward once round and come up to it again: never back")
	require.NotContains(t, out, "Go back some 30 deg")
	_, out, _ = ev("plan", diagnostician)
	require.Contains(t, unwrapped(out), "Go back some 30 deg and come up to it again the same way, where the maker allows turning back")
}

// Undo brings the turn back too, and angles that go the wrong way are asked about.
func TestJotMindsTheTurn(t *testing.T) {
	jobFile, readings := newJob(t)
	_, errs, err := jotting(t, jobFile, "b 20 3.1", "f 23.5 3.78", "undo", "17 2.5")
	require.NoError(t, err)
	require.Contains(t, errs, "Turning backward, as in the reading before.")
	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Contains(t, string(text), "17,2.5,backward")

	jobFile, _ = newJob(t)
	_, errs, err = jotting(t, jobFile, "340 4.1", "345 2.3", "350 1", "10 1", "15 2.3", "20 4.1")
	require.NoError(t, err)
	require.NotContains(t, errs, "the other way")
	out, _, err := jotting(t, jobFile, "18 3.3", "16 2.6", "14 2")
	require.NoError(t, err)
	require.Contains(t, unwrapped(out), "The last angles go against turning forward")
}

// Jot says when it is enough.
func TestJotSaysEnough(t *testing.T) {
	out, errs, err := jotting(t, filepath.Join(bystander(t), "job.toml"), "next") // 24 readings
	require.NoError(t, err, errs)
	require.Contains(t, unwrapped(out), "More readings will hardly help.")
	jobFile, readings := newJob(t)
	require.NoError(t, os.WriteFile(readings, []byte("angle,depth,turn\n"+turned("forward")), 0o600))
	out, _, err = jotting(t, jobFile, "next")
	require.NoError(t, err)
	require.NotContains(t, out, "hardly")
}

// Two settings of the pointer in one file are no piston's readings.
func TestTwoPointersAreNoAnswer(t *testing.T) {
	rows := "angle,depth\n"
	for i, line := range strings.Split(strings.TrimSpace(exactly), "\n")[1:] {
		angle, depth, _ := strings.Cut(line, ",")
		at, err := strconv.Atoi(angle)
		require.NoError(t, err)
		rows += fmt.Sprintf("%d,%s\n%d,%s\n", (at+37*(i%2))%360, depth, (at+37*((i+1)%2))%360, depth)
	}
	require.Contains(t, found(t, rows, ""), "True TDC cannot be determined from these readings")
}

// What would lose somebody's work, or makes no sense, is refused in words.
func TestSlipsThatWouldCost(t *testing.T) {
	dir := bystander(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	capture := []string{"edges", at("capture.csv"), "--crank", "2", "--cam", "3", "--wheel", "60-2"}
	require.NoError(t, os.WriteFile(at("freedom.toml"), []byte("[[mark]]\nname = \"pulley notch\"\non = \"pulley\"\nshould_be = 0\nstandard_uncertainty = 0.1\ndegrees_of_freedom = 0.001\n"), 0o600))
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{append(slices.Clone(capture), "--picture", at("capture.csv"), "--replace"), wrongUse, "pictures are SVG"},
		{[]string{"find", at("job.toml"), "--page", at("job.toml"), "--replace"}, wrongUse, "pages are HTML"},
		{[]string{"find", at("job.toml"), "--page", at("cylinder-1.csv"), "--replace"}, wrongUse, "pages are HTML"},
		{[]string{"rehearse", at("q"), "--answer", at("q/job.toml"), "--replace"}, wrongUse, "the job itself is written there"},
		{[]string{"rehearse", at("q"), "--seed", "18446744073709551615"}, wrongUse, "expected a whole number from 0 to 9223372036854775807"},
		{append(slices.Clone(capture), "--time-unit", "us"), failed, "rev/min: check --time-unit or type how many samples there are a second, as in --rate 50000"},
		{append(slices.Clone(capture), "--time-unit", "s"), failed, "rev/min: check --time-unit or type how many samples there are a second, as in --rate 50000"},
		{[]string{"convert", "1", "teeth", "--pitches", "999999999"}, wrongUse, "expected the number of teeth"},
		{[]string{"find", at("job.toml"), "--against", at("freedom.toml")}, failed, "degrees_of_freedom = 0.001: expected a number of 1 or more"},
	} {
		code, out, errs := ev(c.args...)
		require.Equal(t, c.code, code, "%v: %s", c.args, errs)
		require.Empty(t, out)
		require.Contains(t, errs, c.says, c.args)
	}

	jobFile, _ := newJob(t)
	_, errs, err := jotting(t, jobFile, "340 4", strings.Repeat("9", 70_000), "350 1")
	require.ErrorContains(t, err, "a line is longer than 64 KB: nothing below it was read")
	require.NotContains(t, err.Error(), "bufio")
	require.NotContains(t, errs, "no end")
	var said bytes.Buffer
	jobFile, _ = newJob(t)
	require.NoError(t, runJot([]string{jobFile}, newConsole(strings.NewReader("345 1.9\n350 .8"), io.Discard, &said, false)))
	require.Contains(t, said.String(), "The last line has no end: make sure that it is whole.")

	// a stated size of next to nothing is none
	more := "[protractor]\noff_centre = 1e-160\n[gauge]\nlash_known_to = 1e-200\n"
	require.NotContains(t, found(t, exactly, more), "cannot be determined")
}
