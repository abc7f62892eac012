package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evendrop/cmd/internal/answer/find/picture"

	"github.com/stretchr/testify/require"
)

const builder = "../../examples/builder/job.toml"

// The page is written beside the answer, is small enough for a message, and is soon
// made.
func TestPage(t *testing.T) {
	for job, most := range map[string]int{diagnostician: 81_920, builder: 81_920} { // a lobe has two pictures
		file := filepath.Join(t.TempDir(), "page.html")
		began := time.Now()
		code, out, errs := ev("find", job, "--page", file)
		took := time.Since(began)
		require.Equal(t, answered, code, errs)
		_, plain, _ := ev("find", job)
		require.Equal(t, plain, out, "the answer is the same")
		page, err := os.ReadFile(file)
		require.NoError(t, err)
		require.True(t, strings.HasPrefix(string(page), "<!doctype html>"))
		require.Less(t, len(page), most)
		require.Less(t, took, time.Second, "some 30 ms alone; the rest is room for a busy machine")

		code, out, errs = ev("find", job, "--page", file)
		require.Equal(t, failed, code)
		require.Equal(t, plain, out, "the answer is none the worse")
		require.Contains(t, errs, "--replace")
		require.NotContains(t, errs, "Written")
		code, _, errs = ev("find", job, "--page", file, "--replace")
		require.Equal(t, answered, code, errs)
		require.Equal(t, "Written: "+file+"\n", errs)
	}
}

// Every picture by its name is a well-formed drawing of its own, with title and
// description; the curve is the one drawn when none is named.
func TestPictures(t *testing.T) {
	dir := t.TempDir()
	drawn := map[string]string{}
	for _, name := range append([]string{""}, picture.Names...) {
		file := filepath.Join(dir, "p"+name+".svg")
		args := []string{"find", diagnostician, "--picture", file}
		switch name {
		case picture.Lobes, picture.Lean:
			args[1] = builder
		case picture.Observations, picture.Cylinders, picture.Throws:
			args[1] = otherEvidence(t)
		case picture.Crowns: // cylinder 3 has none, and then none is compared
			args[1] = otherEvidence(t)
			before, rest, _ := strings.Cut(mustRead(t, args[1]), "[[cylinder]]\nnumber = 3")
			_, after, _ := strings.Cut(rest, "[[mark]]")
			require.NoError(t, os.WriteFile(args[1], []byte(before+"[[mark]]"+after), 0o600))
		}
		if name != "" {
			args = append(args, "--of", name)
		}
		code, _, errs := ev(args...)
		require.Equal(t, answered, code, errs)
		svg, err := os.ReadFile(file)
		require.NoError(t, err)
		names, _ := elements(t, string(svg))
		require.Equal(t, []string{"svg", "title", "desc", "style"}, names[:4])
		drawn[name] = string(svg)
	}
	require.Equal(t, drawn["curve"], drawn[""])
	require.Len(t, drawn, 1+len(picture.Names))
	for name, svg := range drawn {
		for other, another := range drawn {
			require.True(t, name == other || name == "" || other == "" || svg != another)
		}
	}
}

// The picture of a cylinder is that one's.
func TestPictureOfACylinder(t *testing.T) {
	dir := t.TempDir()
	lesson := filepath.Join(dir, "lesson")
	code, _, errs := ev("rehearse", lesson)
	require.Equal(t, answered, code, errs)
	job := filepath.Join(lesson, "job.toml")
	text, err := os.ReadFile(job)
	require.NoError(t, err)
	text = append(text, "[[cylinder]]\nnumber = 4\nthrow = 180\nreadings = \"cylinder-1.csv\"\n"...)
	require.NoError(t, os.WriteFile(job, text, 0o600))
	file := filepath.Join(dir, "four.svg")
	code, _, errs = ev("find", job, "--picture", file, "--cylinder", "4")
	require.Equal(t, answered, code, errs)
	svg, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Contains(t, string(svg), "<title>Cylinder 4: The readings")

	code, _, errs = ev("find", job, "--picture", file, "--cylinder", "3", "--replace")
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "--cylinder 3: the job has no such cylinder: expected 1 or 4\n")
}

// A picture that is there stays, and the answer is given all the same, unless --replace is
// typed.
func TestPictureStays(t *testing.T) {
	file := filepath.Join(t.TempDir(), "curve.svg")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	code, out, errs := ev("find", diagnostician, "--picture", file)
	require.Equal(t, failed, code)
	require.Contains(t, out, "True TDC is at ")
	require.Contains(t, errs, "already exists: choose another name, or type --replace to overwrite it")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, "mine", string(text))
	code, _, errs = ev("find", diagnostician, "--picture", file, "--replace")
	require.Equal(t, answered, code, errs)
	text, err = os.ReadFile(file)
	require.NoError(t, err)
	require.Contains(t, string(text), "<svg")
}

func TestPageFlagsThatDoNotGoTogether(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--of", "curve"}, "--picture"},
		{[]string{"--cylinder", "1"}, "--picture"},
		{[]string{"--replace"}, "--page"},
		{[]string{"--picture", "x.svg", "--of", "wheel"}, "curve, residuals, midpoints, observations, cylinders, throws, crowns, marks, drive, lobes or lean"},
		{[]string{"--picture", "x", "--page", "x"}, "two"},
		{[]string{"--lobe", "inlet"}, "--picture"},
		{[]string{"--picture", "x.svg", "--of", "lobes", "--lobe", "inlet"}, "--of lean"},
		{[]string{"--picture", "x.svg", "--of", "lean", "--cylinder", "1", "--lobe", "x"}, "leave one out"},
		{[]string{"--picture", "x.svg", "--of", "lean", "--lobe", "inlet"}, "--lobe inlet: the job has no such lobe\n"},
	} {
		code, out, errs := ev(append([]string{"find", diagnostician}, c.args...)...)
		require.Equal(t, wrongUse, code, c.args)
		require.Empty(t, out)
		require.Contains(t, errs, c.says)
	}
	code, _, errs := ev("find", "../../examples/builder/job.toml", "--picture", "x.svg", "--of", "lean", "--lobe", "exhaust")
	require.Equal(t, wrongUse, code)
	require.Contains(t, unwrapped(errs), "--lobe exhaust: the job has no such lobe: expected inlet lobe, cylinder 1")
	code, _, errs = ev("find", "--readings", "../../examples/diagnostician/cylinder-1.csv", "--picture", filepath.Join(t.TempDir(), "m.svg"), "--of", "marks")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "no marks")
}

// A cylinder without a depth has no curve and no table of readings on the page: what it
// was read by stands there, and the cylinders against one another as in the text.
func TestPageOfOtherEvidence(t *testing.T) {
	job, page := otherEvidence(t), filepath.Join(t.TempDir(), "p.html")
	code, text, errs := ev("find", job, "--page", page, "--details")
	require.Equal(t, answered, code, errs)
	said := mustRead(t, page)
	for _, says := range []string{
		"1 × pair of contacts with a stop, 2 × dwell seen", "1 × pair of equal views", "The cylinders compared", "You saw ",
		"Cylinder 1: The readings and the curve fitted to them", "What the curve leaves of the readings", "Cylinder 3: What was seen without a depth",
	} {
		require.True(t, strings.Contains(said, says), says)
	}
	for _, never := range []string{", 0 readings", ">0 readings", "Cylinder 3: The readings", "Cylinder 3: What the curve leaves", "turned ;"} {
		require.False(t, strings.Contains(said, never), never)
	}
	require.Equal(t, 1, strings.Count(said, "it takes 4"))
	require.Equal(t, 1, strings.Count(unwrapped(text), "it takes 4"))
	for name, why := range map[string]string{"curve": "no readings", "residuals": "no readings", "midpoints": "no midpoints of equal drop"} {
		picture := filepath.Join(t.TempDir(), "p.svg")
		code, out, errs := ev("find", job, "--picture", picture, "--of", name, "--cylinder", "3")
		require.Equal(t, failed, code)
		require.Empty(t, out)
		require.Contains(t, errs, "cylinder 3 has "+why+" to draw")
		require.NoFileExists(t, picture)
	}
}
