package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/session"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/plan"
)

// asCommand makes the test's own process the command.
const asCommand = "EVENDROP_TEST_AS_COMMAND"

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) != "" {
		main()
	}
	os.Exit(m.Run())
}

// commandLine is the command as another process.
func commandLine(args ...string) *exec.Cmd {
	self, err := os.Executable()
	if err != nil {
		panic(err)
	}
	c := exec.Command(self, args...)
	c.Env = append(os.Environ(), asCommand+"=1")
	return c
}

// newJob is a job file of an invented engine with no readings yet.
func newJob(t *testing.T) (jobFile, readings string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "bench")
	require.NoError(t, runBegin([]string{dir, "--stroke", "81.4", "--rod", "133"}, newConsole(strings.NewReader(""), io.Discard, io.Discard, false)))
	return filepath.Join(dir, "job.toml"), filepath.Join(dir, "cylinder-1.csv")
}

// jotting is jot fed with lines, through a pipe.
func jotting(t *testing.T, jobFile string, lines ...string) (stdout, stderr string, err error) {
	t.Helper()
	var out, errs bytes.Buffer
	err = runJot([]string{jobFile}, newConsole(strings.NewReader(strings.Join(lines, "\n")+"\n"), &out, &errs, false))
	return out.String(), errs.String(), err
}

// typedReading is a line of jot for a crank at u deg of the invented engine, TDC at
// 3.4 deg on the protractor, without errors but for lash of 0.06 mm.
func typedReading(u float64, turn string) string {
	const r, l = 40.7, 133.0
	sin, cos := math.Sincos(u * math.Pi / 180)
	depth := 5 + r + l - r*cos - math.Sqrt(l*l-r*r*sin*sin)
	if (u > 0) == (turn == "f") {
		depth -= 0.03
	} else {
		depth += 0.03
	}
	return fmt.Sprintf("%s %.2f %.3f", turn, geometry.Angle((u+3.4)*math.Pi/180).Positive().Degrees(), depth)
}

var answerLine = regexp.MustCompile(`(?m)^ *(\d+)  (Kept|TDC)`)

// A whole sitting: TDC from the third reading on, what was meant found, the change
// said, a mistyped reading asked about, taken back and typed anew, turning said.
func TestJotSitting(t *testing.T) {
	jobFile, readings := newJob(t)
	var lines []string
	for _, u := range []float64{-25, -16, 15} {
		lines = append(lines, typedReading(u, "f"))
	}
	out, _, err := jotting(t, jobFile, lines...)
	require.NoError(t, err)
	require.Contains(t, out, "  1  Kept.")
	require.Contains(t, out, "  3  TDC 3.4")
	require.Contains(t, out, "Next: about")
	require.Contains(t, out, "falling side, turning forward")

	// the next sitting goes on, its first line odd by 1 mm
	mistyped := strings.Replace(typedReading(24, "f"), " 9.", " 10.", 1)
	require.NotEqual(t, mistyped, typedReading(24, "f"))
	lines = []string{mistyped + " # in a hurry", "undo", typedReading(24, "f"), "# new pointer", typedReading(25, "b"), typedReading(-20, "b"), "list", "plot", "next", "done", "1 1"}
	out, errs, err := jotting(t, jobFile, lines...)
	require.NoError(t, err)
	require.Contains(t, out, "  4  TDC")
	require.Regexp(t, `moved [+-]?0\.`, out)
	require.Regexp(t, `does not fit, or one before it is wrong: it is off by \+1\.\d+ mm, \d+\s+times its expected error\. The gauge should show near 9\.5\d mm here, and 10\.5\d mm was typed\. k keeps it`,
		unwrapped(out))
	require.Contains(t, out, "Undone: reading 27.4 10.")
	require.Contains(t, errs, "turn back only where the maker allows it")
	require.Contains(t, errs, "Caution: turn by hand only")
	require.Contains(t, out, "C read backward")
	require.NotContains(t, out, "  7  TDC", "done ends it")
	require.Contains(t, out, "6 readings in")

	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Contains(t, string(text), "\n# undone: 27.40,10.")
	require.Contains(t, string(text), ",in a hurry\n")
	require.Contains(t, string(text), "\n# new pointer\n28.40,")
	code, found, errs := ev("find", jobFile, "--as", "json")
	require.Equal(t, answered, code, errs)
	var got struct {
		Cylinders []struct {
			TDC struct {
				Protractor float64 `json:"protractor_deg"`
			} `json:"tdc"`
		} `json:"cylinders"`
	}
	require.NoError(t, json.Unmarshal([]byte(found), &got))
	require.InDelta(t, 3.4, got.Cylinders[0].TDC.Protractor, 0.01) // the lines are rounded to 0.01 deg and 0.001 mm
}

// Where the next best reading asks for turning back, the caution is said; with
// --one-way it never asks.
func TestJotCautionsBeforeItAsksToTurnBack(t *testing.T) {
	var lines []string
	for _, u := range []float64{-30, -26, -21, -16, -11, 11, 16, 21, 26, 30} {
		lines = append(lines, typedReading(u, "f"))
	}
	jobFile, _ := newJob(t)
	out, errs, err := jotting(t, jobFile, lines...)
	require.NoError(t, err)
	require.Contains(t, out, "turning backward")
	require.Equal(t, 1, strings.Count(errs, "turn back only where the maker allows it"))

	jobFile, _ = newJob(t)
	var stdout, stderr bytes.Buffer
	require.NoError(t, runJot([]string{jobFile, "--one-way"}, newConsole(strings.NewReader(strings.Join(lines, "\n")), &stdout, &stderr, false)))
	require.NotContains(t, stdout.String(), "backward")
	require.NotContains(t, stderr.String(), "turn back")
}

// A sitting goes on turning the way that the last one ended.
func TestJotGoesOnTurning(t *testing.T) {
	jobFile, readings := newJob(t)
	for _, line := range []string{"b 11.8 4.1", "10.2 3.9"} {
		_, _, err := jotting(t, jobFile, line)
		require.NoError(t, err)
	}
	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Contains(t, string(text), "10.2,3.9,backward")
}

// A file that lacks both the turn and the note is widened for both at once.
func TestJotWidensForTurnAndNote(t *testing.T) {
	jobFile, readings := newJob(t)
	require.NoError(t, os.WriteFile(readings, []byte("angle,depth\n348,1.2\n"), 0o600))
	_, errs, err := jotting(t, jobFile, "b 11.8 0.70 # wobbly")
	require.NoError(t, err, errs)
	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Equal(t, "angle,depth,turn,note\n348,1.2,,\n11.8,0.70,backward,wobbly\n", string(text))
}

// Lines that are not understood leave the file alone and end in status 1; the
// readings beside them are kept.
func TestJotSaysWhatItDidNotUnderstand(t *testing.T) {
	jobFile, readings := newJob(t)
	out, errs, err := jotting(t, jobFile, "hello", "340 4.1", "350", "undo", "undo")
	require.ErrorIs(t, err, session.ErrNotUnderstood)
	require.Contains(t, errs, `"hello" is not a reading`)
	require.Contains(t, errs, "There is no reading to undo")
	require.Contains(t, out, "No readings in")
	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Contains(t, string(text), "# undone: 340,4.1,forward")
}

// Each answer and each page fits 80 columns.
func TestJotFitsTheTerminal(t *testing.T) {
	jobFile, _ := newJob(t)
	lines := []string{typedReading(-25, "f"), typedReading(-16, "f"), typedReading(15, "f"), "f 20 19 # quite far off, and a note that is long enough", "list",
		"undo", typedReading(20, "b"), "help", "list", "plot"}
	out, errs, err := jotting(t, jobFile, lines...)
	require.NoError(t, err)
	_, plan, _ := ev("plan", jobFile, "--target", "0.2")
	for line := range strings.Lines(out + errs + plan) {
		if !strings.Contains(line, os.TempDir()) { // a long folder's name
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, line)
		}
	}
}

// A second jot on the same job is refused in words that say who holds it, and can
// begin when the first has ended, however it did.
func TestTwoJots(t *testing.T) {
	jobFile, readings := newJob(t)
	first := commandLine("jot", jobFile)
	in, err := first.StdinPipe()
	require.NoError(t, err)
	out, err := first.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, first.Start())
	fmt.Fprintln(in, "340 4.1")
	_, err = out.Read(make([]byte, 100))
	require.NoError(t, err)

	code, stdout, stderr := ev("jot", jobFile)
	require.Equal(t, failed, code)
	require.Empty(t, stdout)
	require.Contains(t, stderr, fmt.Sprintf("another evendrop (process %d) is writing it", first.Process.Pid))

	require.NoError(t, first.Process.Kill())
	_ = first.Wait() // it was killed
	answer, _, err := jotting(t, jobFile, "341 3.9")
	require.NoError(t, err)
	require.Contains(t, answer, "  2  Kept")
	_, err = os.Stat(filepath.Join(filepath.Dir(readings), ".cylinder-1.csv.lock"))
	require.ErrorIs(t, err, os.ErrNotExist)
}

// kills is how often jot is killed; EVENDROP_KILLS asks for more.
func kills(t *testing.T) int {
	n := 8
	if text := os.Getenv("EVENDROP_KILLS"); text != "" {
		_, err := fmt.Sscan(text, &n)
		require.NoError(t, err)
	}
	return n
}

// Killed at any moment, with turns and strikings-out among the lines: every reading
// that was answered is in the file, in order, the file parses, and nothing but what
// was typed is in it.
func TestKilledAtAnyMoment(t *testing.T) {
	const seed = 7
	rng := rand.New(rand.NewPCG(seed, 1))
	t.Logf("seed %d", seed)
	midway := 0
	for round := range kills(t) {
		jobFile, readings := newJob(t)
		if round%2 == 0 { // a file that has to be widened for the first turn back
			require.NoError(t, os.WriteFile(readings, []byte("angle,depth\n"), 0o600))
		}
		var lines []string
		var want []sheet.Entry // as the n-th reading should stand
		for i := range 60 {
			u := 30 - float64(i%30)*2 + rng.Float64()
			turn := "f"
			if i > 8 {
				turn = "b"
			}
			lines = append(lines, typedReading(u, turn))
			fields := strings.Fields(lines[len(lines)-1])
			want = append(want, sheet.Entry{Angle: fields[1], Depth: fields[2]})
		}
		c := commandLine("jot", jobFile)
		c.Stdin = strings.NewReader(strings.Join(lines, "\n") + "\n")
		var out bytes.Buffer
		c.Stdout = &out
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(rng.IntN(int(250 * time.Millisecond))))
		_ = c.Process.Kill() // it may have ended already
		_ = c.Wait()

		matches := answerLine.FindAllString(out.String(), -1)
		kept, err := job.OpenReadings(readings, bench(), "mm")
		if len(matches) > 0 {
			require.NoError(t, err)
		}
		if len(matches) > 0 && len(matches) < len(lines) {
			midway++
		}
		require.GreaterOrEqual(t, len(kept), len(matches))
		require.LessOrEqual(t, len(kept), len(matches)+1)
		for i, r := range kept {
			written, err := measure.ParseAngle(want[i].Angle)
			require.NoError(t, err)
			require.InDelta(t, float64(written.Angle), float64(r.Angle), 1e-12)
		}
		_, _, err = jotting(t, jobFile, "340 4.1") // the next one goes on
		require.NoError(t, err)
	}
	t.Logf("killed between the first answer and the last %d times", midway)
	require.Positive(t, midway)
}

// BenchmarkAnswer is one reading and its answer with so many before it, the disk's part too:
// in sweeps of a dozen, such as fit, and such as no piston can have shown.
func BenchmarkAnswer(b *testing.B) {
	for _, n := range []int{24, 200} {
		for name, off := range map[string]float64{"fit": 0, "none": 1} {
			b.Run(fmt.Sprintf("%d/%s", n, name), func(b *testing.B) { answers(b, n, off) })
		}
	}
}

// answers types a reading after n-1 others, each off by up to so many mm, again and again.
func answers(b *testing.B, n int, off float64) {
	dir := b.TempDir()
	require.NoError(b, runBegin([]string{dir, "--stroke", "81.4", "--rod", "133"}, newConsole(strings.NewReader(""), io.Discard, io.Discard, false)))
	file := filepath.Join(dir, "cylinder-1.csv")
	lines := inSweeps(n, off)
	var text strings.Builder
	text.WriteString("angle,depth,turn\n")
	for _, line := range lines[:n-1] {
		fields := strings.Fields(line)
		fmt.Fprintf(&text, "%s,%s,%s\n", fields[1], fields[2], fields[0])
	}
	j, err := job.OpenBlank(filepath.Join(dir, "job.toml"))
	require.NoError(b, err)
	for b.Loop() {
		b.StopTimer()
		require.NoError(b, os.WriteFile(file, []byte(text.String()), 0o600))
		book, _, err := notebook.Open(file, sheet.Depths, j.Setup, j.Unit)
		require.NoError(b, err)
		s := session.Session{Job: j, Number: 1, File: file, Store: book, Ground: plan.Ground{Deepest: 8}, Width: form.Widest}
		b.StartTimer()
		_, _, err = s.Obey(lines[n-1])
		require.NoError(b, err)
		b.StopTimer()
		book.Close()
		b.StartTimer()
	}
}

// inSweeps is n lines of jot, a dozen turning forward, a dozen back and so on, each depth off
// by up to so many mm.
func inSweeps(n int, off float64) (lines []string) {
	rng := rand.New(rand.NewPCG(1, 1))
	for i := range n {
		u, turn := -32+64*(float64(i%12)+0.9*rng.Float64())/12, "f"
		if i/12%2 == 1 {
			u, turn = -u, "b"
		}
		fields := strings.Fields(typedReading(u, turn))
		depth, _ := strconv.ParseFloat(fields[2], 64)
		lines = append(lines, fmt.Sprintf("%s %s %.3f", turn, fields[1], depth+off*(2*rng.Float64()-1)))
	}
	return lines
}

func bench() evidence.Setup {
	return evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
}

// A job with stops and views besides: jot counts them as find does, from before the
// first reading on.
func TestJotCountsOtherEvidence(t *testing.T) {
	jobFile, _ := newJob(t)
	text, err := os.ReadFile(jobFile)
	require.NoError(t, err)
	// stops and views about 3.4 deg, where the readings have TDC too
	text = bytes.Replace(text, []byte("\nnumber = 1\n"), []byte("\nnumber = 1\nstops = [[333.5, 33.5]]\nviews = [{ before = 345, after = 22 }]\n"), 1)
	require.NoError(t, os.WriteFile(jobFile, text, 0o600))
	tdcAt := regexp.MustCompile(`TDC (\S+) ± (\S+) deg`)
	var lines []string
	for _, u := range []float64{-25, -16, 15, 24} {
		lines = append(lines, typedReading(u, "f"))
		out, errs, err := jotting(t, jobFile, lines[len(lines)-1])
		require.NoError(t, err, errs)
		typed := tdcAt.FindStringSubmatch(unwrapped(out))
		require.NotNil(t, typed, out)
		_, found, _ := ev("find", jobFile)
		require.Contains(t, unwrapped(found), fmt.Sprintf("True TDC is at %s ± %s deg", typed[1], typed[2]), len(lines))
	}
}

// Where find says that TDC cannot be determined, jot says so.
func TestJotSaysThatTDCCannotBeTold(t *testing.T) {
	jobFile, _ := newJob(t)
	// of no piston: up and down by millimetres
	out, _, err := jotting(t, jobFile, "f 330 9.9", "f 335 3.0", "f 340 7.9", "f 345 0.5", "f 350 4.0", "f 10 0.2", "f 15 4.0", "f 20 0.9", "f 25 9.5", "f 30 3.5")
	require.NoError(t, err)
	_, found, _ := ev("find", jobFile)
	require.Contains(t, unwrapped(found), "True TDC cannot be determined from these readings: ")
	last := unwrapped(out[strings.Index(out, " 10  "):])
	require.Contains(t, last, "10 TDC cannot be determined from these readings: ")
	require.NotContains(t, last, "true TDC is at")
}
