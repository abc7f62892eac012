package main

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job"
)

// storyLift is the lift on the valve of an invented lobe at a crank angle on the
// protractor: a cycloid either side of its nose, 110 deg after TDC at 3.4 deg. A cycloid
// is what a textbook of cams has (s = h (x - sin 2 pi x / 2 pi)).
func storyLift(angle float64) float64 {
	const top, flank = 9.0, 140.0
	x := max(0, 1-math.Abs(angle-113.4)/flank)
	return top * (x - math.Sin(2*math.Pi*x)/(2*math.Pi))
}

// storyLines is a diagnostician's job, typed: the piston's dwell through a borescope both
// ways, a dial, and three marks, of which the flywheel's has slipped by 3.1 deg.
func storyLines() (lines []string) {
	lines = append(lines, "dwell -4.8 11.9", "b", "dwell 11.8 -4.9", "f")
	for _, u := range []float64{-24, -18, -12, 12, 18, 24} {
		lines = append(lines, read(u, "f"))
	}
	lines = append(lines, "b")
	for _, u := range []float64{24, 18, 12, -12, -18, -24} {
		lines = append(lines, read(u, "b"))
	}
	return append(lines, "mark pin; flywheel; 6.5; 0; 1", "mark notch; pulley; 3.5; 0; 1", "mark flats; inlet cam; off .2 cam deg;; 1.5")
}

// askedLines is the same at a terminal, where what is left out of a mark is asked for.
func askedLines() []string {
	lines := storyLines()
	return append(lines[:len(lines)-3], "mark pin on flywheel 6.5", "", "1", "mark notch on pulley 3.5", "", "1",
		"mark flats on inlet cam .2 cam deg late", "", "21", "", "", "1.5")
}

// read is a reading as the instruments show it, to half a tenth of a degree and a
// hundredth of a millimetre.
func read(u float64, turn string) string {
	fields := strings.Fields(typedReading(u, turn))
	return strings.TrimSuffix(fields[1], "0") + " " + fields[2][:len(fields[2])-1]
}

// lobeLines is a lobe of that engine's inlet cam, typed after the marks.
func lobeLines() (lines []string) {
	for i, angle := range []float64{10, 14, 60, 113, 166, 212, 216} {
		line := fmt.Sprintf("%g %.2f", angle, storyLift(angle))
		if i == 0 {
			line = "lift inlet: " + line
		}
		lines = append(lines, line)
	}
	return append(lines, "card inlet: 110 ATDC at 1")
}

// typedAll is a story typed through a pipe, and the job that came of it.
func typedAll(t *testing.T, lines []string) (out string, j job.Job) {
	t.Helper()
	jobFile, _ := newJob(t)
	out, errs, err := jotting(t, jobFile, lines...)
	require.NoError(t, err, errs)
	j, err = job.Open(jobFile)
	require.NoError(t, err)
	return out, j
}

// The whole job is done in jot alone, through a pipe: what slipped is named, and what find
// says of the files is what jot said last.
func TestStoryInJot(t *testing.T) {
	lines := storyLines()
	const before = "evendrop begin bench --stroke 81.4 --rod 133\nevendrop jot bench\n"
	keys := len(before) + max(len(strings.Join(lines, "\n")), len(strings.Join(askedLines(), "\n"))) + 1
	lobe := len(strings.Join(lobeLines(), "\n")) + 1
	t.Logf("%d lines, %d keystrokes from nothing to the verdict, and %d for the lobe", len(lines), keys, lobe)
	require.Less(t, keys, 350)
	out, j := typedAll(t, append(lines, lobeLines()...))
	require.Len(t, j.Cylinders[0].Dwell, 2)
	require.Len(t, j.Cylinders[0].Readings, 12)
	require.Len(t, j.Marks, 3)
	require.Len(t, j.Lobes[0].Readings, 7)
	f, err := find.Of(j)
	require.NoError(t, err)
	require.Contains(t, f.Headline(), "flywheel on crank", f.Headline())
	last := unwrapped(out[strings.LastIndex(out, "\n\n"):] + out)
	require.Contains(t, last, f.Headline())
	page, err := f.Text(80)
	require.NoError(t, err)
	finding, _, _ := strings.Cut(unwrapped(string(page)), " - ")
	require.Contains(t, unwrapped(out), finding)
}

// Killed at any moment of the story, what was answered is in the files, which make a job,
// and the next sitting goes on. EVENDROP_KILLS asks for more.
func TestStoryKilled(t *testing.T) {
	const seed = 18
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	lines := append(storyLines(), lobeLines()...)
	midway := 0
	for range kills(t) {
		jobFile, readings := newJob(t)
		c := commandLine("jot", jobFile)
		c.Stdin = strings.NewReader(strings.Join(lines, "\n") + "\n")
		out, err := c.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, c.Start())
		said := bufio.NewScanner(out)
		for range rng.IntN(80) { // lines that it says
			said.Scan()
		}
		time.Sleep(time.Duration(rng.IntN(int(10 * time.Millisecond))))
		_ = c.Process.Kill() // it may have ended already
		_ = c.Wait()
		j, err := job.OpenBlank(jobFile)
		require.NoError(t, err)
		text, err := os.ReadFile(jobFile)
		require.NoError(t, err)
		if strings.Contains(string(text), "[[lobe]]") {
			require.NotEmpty(t, j.Lobes[0].Readings, "a lobe has a reading as soon as the job names it")
		}
		if len(j.Cylinders[0].Readings) == 12 && len(j.Lobes) == 0 {
			midway++ // among the marks
		}
		_, errs, err := jotting(t, jobFile, "340 4.1", "done")
		require.NoError(t, err, errs)
		_, err = os.Stat(readings)
		require.NoError(t, err)
		left, err := filepath.Glob(filepath.Join(filepath.Dir(jobFile), "[!.]*")) // a draft may be left between two system calls
		require.NoError(t, err)
		require.LessOrEqual(t, len(left), 3, "%v", left)
	}
	t.Logf("killed among the marks %d times", midway)
}

// What jot says at its end of any story, in any order and with things taken back, is what
// find says of the files.
func TestJotAndFindAgree(t *testing.T) {
	const seed, stories = 1818, 20
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	judged := 0
	for range stories {
		var lines []string
		for i, n := 0, 6+rng.IntN(8); i < n; i++ {
			side := float64(1 - 2*(i%2))
			lines = append(lines, read(side*(8+18*rng.Float64()), "f"))
		}
		for _, more := range [][]string{
			{"stop -27.6 34.4"}, {"dwell -4.8 11.9"}, {"mark pin; flywheel; 6.5; 0; 1"}, {"mark notch on pulley 3.5 should be unknown"},
			{"mark flats; inlet cam; off .2 cam deg;; 1.5"}, {"undo"}, {"undo", "redo"}, lobeLines(), {"piston"}, {"cylinder 1"},
		} {
			if rng.IntN(2) == 0 {
				lines = append(lines, more...)
			}
		}
		lines = append(lines, "look")
		out, j := typedAll(t, lines)
		f, err := find.Of(j)
		require.NoError(t, err)
		if f.Headline() != "" {
			judged++
			require.Contains(t, unwrapped(out), f.Headline(), "%q", lines)
		}
		require.Contains(t, unwrapped(out), words.NewBench(j.Setup, j.Unit).ReadsWithin(f.Results[0].TDC), "%q", lines)
	}
	require.Greater(t, judged, stories/3)
}
