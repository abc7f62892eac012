package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
)

// begun is begin with answers, at a terminal or through a pipe.
func begun(t *testing.T, terminal bool, answers string, args ...string) (stdout, stderr string, err error) {
	t.Helper()
	var out, errs bytes.Buffer
	err = runBegin(args, newConsole(strings.NewReader(answers), &out, &errs, terminal))
	return out.String(), errs.String(), err
}

// Through a pipe the flags say it all: the job reads back as what they said, the
// cautions come beside, and find says what to fill in.
func TestBeginByFlags(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "bench")
	out, errs, err := begun(t, false, "", dir, "--stroke", "3.2", "--rod", "5,25", "--bore", "79 mm", "--pin-offset", "0", "--unit", "in",
		"--gauge", "borescope", "--gauge-counts", "up", "--counts", "against", "--wraps", "90", "--protractor-step", "1",
		"--lash", "0.004", "--lash-known-to", "0", "--scale-known-to", "0.1", "--name", `Bob's "old" one \ two`, "--title", "T")
	require.NoError(t, err)
	require.Contains(t, errs, "Hydraulic lock")
	require.Contains(t, out, "job.toml")
	require.Contains(t, out, "Caution: turn by hand only")
	j, err := job.OpenBlank(filepath.Join(dir, "job.toml"))
	require.NoError(t, err)
	want := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Borescope)}
	want.Engine = evidence.Engine{Name: `Bob's "old" one \ two`, Bore: 79, Stroke: 81.28, Rod: 133.35, OffsetStated: true, KnownTo: evidence.DefaultKnownTo(true)}
	want.Protractor.Sense, want.Protractor.Scale, want.Protractor.Step = evidence.Against, evidence.Quadrants, geometry.Degree
	want.Gauge.Counts, want.Gauge.ScaleKnownTo, want.Gauge.LashKnownTo = evidence.Up, 0.1, 0
	want = inInches(want, 0.02, 0.02)
	want.Gauge.Lash, want.Gauge.LashKnownTo = 0.004*geometry.Inch, 0
	require.InDelta(t, float64(want.Gauge.Lash), float64(j.Setup.Gauge.Lash), 1e-9)
	require.InDelta(t, 81.28, float64(j.Setup.Engine.Stroke), 1e-9)
	require.InDelta(t, 133.35, float64(j.Setup.Engine.Rod), 1e-9)
	want.Gauge.Lash, want.Engine.Stroke, want.Engine.Rod = j.Setup.Gauge.Lash, j.Setup.Engine.Stroke, j.Setup.Engine.Rod
	require.Equal(t, want, j.Setup)
	require.Equal(t, "T", j.Title)
	require.Equal(t, "in", j.Unit)

	code, out, errs := ev("find", filepath.Join(dir, "job.toml"))
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "no readings below the header row")
}

// What nobody says is unknown, and the job is a job all the same.
func TestBeginWithNothing(t *testing.T) {
	for _, unit := range []string{"mm", "in"} {
		dir := t.TempDir()
		_, _, err := begun(t, false, "", dir, "--unit", unit)
		require.NoError(t, err)
		j, err := job.OpenBlank(filepath.Join(dir, "job.toml"))
		require.NoError(t, err)
		require.Equal(t, evidence.Engine{KnownTo: evidence.DefaultKnownTo(false)}, j.Setup.Engine)
		want := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
		if unit == "in" {
			want = inInches(want, 0.0005, 0.001)
		}
		require.Equal(t, want.Protractor, j.Setup.Protractor)
		require.Equal(t, want.Gauge, j.Setup.Gauge)
		text, err := os.ReadFile(filepath.Join(dir, "job.toml"))
		require.NoError(t, err)
		if _, lines, _ := strings.Cut(string(text), "[engine]"); unit == "in" {
			require.NotContains(t, lines, "mm", "an inch job is in inches")
		}
		for line := range strings.Lines(string(text)) {
			require.LessOrEqual(t, len(line), 80, line)
		}
		uncommented := strings.NewReplacer("# name =", "name =", "# bore =", "bore =", "# stroke =", "stroke =", "# rod =", "rod =", "# pin_offset", "pin_offset",
			"# bore_offset", "bore_offset", "# known_to =", "known_to =", "# [[mark]]", "[[mark]]", "# on =", "on =", "# read =", "read =",
			"# should_be =", "should_be =", "# limit =", "limit =", "# source =", "source =").Replace(string(text))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "job.toml"), []byte(uncommented), 0o600))
		j, err = job.OpenBlank(filepath.Join(dir, "job.toml"))
		require.NoError(t, err, "what is commented out is good too")
		require.InDelta(t, 81.4, float64(j.Setup.Engine.Stroke), 0.2) // 3.2 in
		require.InEpsilon(t, float64(evidence.DefaultKnownTo(true).Offset), float64(j.Setup.Engine.KnownTo.Offset), 0.02)
		require.InEpsilon(t, float64(evidence.DefaultKnownTo(false).Stroke), float64(j.Setup.Engine.KnownTo.Stroke), 0.02)
		require.Equal(t, "flywheel", j.Marks[0].On)
	}
}

// inInches is a set-up whose usual lengths are round ones in inches: the gauge's step and
// error, and what no flag states.
func inInches(s evidence.Setup, step, bound geometry.Length) evidence.Setup {
	s.Gauge.Step, s.Gauge.Error = step*geometry.Inch, bound*geometry.Inch
	s.Gauge.Lash, s.Gauge.LashKnownTo = 0.0025*geometry.Inch, 0.0025*geometry.Inch
	s.Protractor.OffCentre, s.Protractor.Radius = 0.02*geometry.Inch, 4*geometry.Inch
	return s
}

// What somebody states in millimetres stays as stated in a job in inches, though it is
// what a metric job takes for usual.
func TestBeginKeepsStatedMillimetres(t *testing.T) {
	dir := t.TempDir()
	_, _, err := begun(t, false, "", dir, "--unit", "in", "--gauge-step", "0.01 mm", "--stroke", "81.4 mm", "--lash-known-to", "0.06 mm")
	require.NoError(t, err)
	j, err := job.OpenBlank(filepath.Join(dir, "job.toml"))
	require.NoError(t, err)
	g := j.Setup.Gauge
	require.Equal(t, []float64{0.01, 81.4, 0.06}, []float64{g.Step.Millimetres(), j.Setup.Engine.Stroke.Millimetres(), g.LashKnownTo.Millimetres()})
	require.InDelta(t, 0.001, g.Error.Inches(), 1e-12)
}

// On a terminal the cautions are acknowledged first, then each question is asked
// until its answer makes sense.
func TestBeginByQuestions(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "bench")
	answers := "maybe\nyes\nOld four\nlong\n81.4\n\n20 mm\n133\n\nsideways\nfell\n\n400\n180\nrod\n\n\n\nn\n"
	_, errs, err := begun(t, true, answers, dir)
	require.NoError(t, err)
	require.Contains(t, errs, "suspect engine with the starter")
	require.Contains(t, errs, "nothing is written before that")
	require.Contains(t, unwrapped(errs), `"long" is not a length: type it as in 81.4`)
	require.Contains(t, errs, "too short")
	require.Contains(t, unwrapped(errs), "type y or rose, or n or fell")
	require.Less(t, strings.Index(errs, "suspect engine"), strings.Index(errs, "Engine's name"))
	require.Less(t, strings.Index(errs, "Stroke in mm"), strings.Index(errs, "Bore, mm"))
	j, err := job.OpenBlank(filepath.Join(dir, "job.toml"))
	require.NoError(t, err)
	require.Equal(t, "Old four", j.Setup.Engine.Name)
	require.Zero(t, j.Setup.Engine.Bore)
	require.EqualValues(t, 81.4, j.Setup.Engine.Stroke)
	require.EqualValues(t, 133, j.Setup.Engine.Rod)
	require.Equal(t, evidence.Against, j.Setup.Protractor.Sense)
	require.Equal(t, evidence.Halves, j.Setup.Protractor.Scale)
	require.Equal(t, evidence.DepthRod, j.Setup.Gauge.Kind)
	require.Equal(t, evidence.Down, j.Setup.Gauge.Counts)

	// --yes acknowledges; what flags say is not asked; an end of input writes nothing
	_, errs, err = begun(t, true, "\n\n\n\n", filepath.Join(t.TempDir(), "b"), "--yes", "--name", "x", "--stroke", "80", "--rod", "130",
		"--counts", "with", "--wraps", "360", "--gauge", "dial", "--gauge-counts", "up")
	require.NoError(t, err)
	require.NotContains(t, errs, "will you keep to them")
	for _, asked := range []string{"Stroke", "Connecting rod", "number rise", "Piston read by", "before and after"} {
		require.NotContains(t, errs, asked)
	}
	left := filepath.Join(t.TempDir(), "c")
	for _, answers := range []string{"", "yes\nName\n", "y\n\n81.4\nback\n"} {
		_, _, err = begun(t, true, answers, left)
		require.ErrorIs(t, err, errNoAnswer)
		require.NoDirExists(t, left)
	}
	_, _, err = begun(t, true, "y\nName\nquit\n", left)
	require.ErrorIs(t, err, errLeft)
	require.NoDirExists(t, left)
}

// A crank that cannot be turned yet does not stop the questions; what is open is said
// and stands in the job.
func TestBeginBeforeTheCrankTurns(t *testing.T) {
	for answer, said := range map[string]bool{"": true, "fell": false, "rose": false} {
		dir := filepath.Join(t.TempDir(), "bench")
		out, errs, err := begun(t, true, "y\n\n\n\n\n\n"+answer+"\n\n\n\n\n\n\nn\n", dir)
		require.NoError(t, err)
		require.Contains(t, errs, "number rise? y or n [not tried]: ")
		require.Equal(t, said, strings.Contains(unwrapped(out), "Which way the protractor counts is not stated yet, and early and late depend on it."))
		text := mustRead(t, filepath.Join(dir, "job.toml"))
		require.Equal(t, said, strings.Contains(text, "# not tried: with or against"), text)
		within80(t, text)
		_, err = job.OpenBlank(filepath.Join(dir, "job.toml"))
		require.NoError(t, err)
	}
	out, _, err := begun(t, false, "", filepath.Join(t.TempDir(), "bench"))
	require.NoError(t, err)
	require.Contains(t, unwrapped(out), "Which way the protractor counts is not stated yet")
}

// Nothing is overwritten, and nothing half done is left.
func TestBeginRefuses(t *testing.T) {
	dir := t.TempDir()
	for _, file := range []string{"job.toml", "cylinder-1.csv"} {
		there := filepath.Join(dir, file)
		require.NoError(t, os.WriteFile(there, []byte("mine"), 0o600))
		_, _, err := begun(t, false, "", dir)
		require.ErrorContains(t, err, "overwrites nothing")
		text, err := os.ReadFile(there)
		require.NoError(t, err)
		require.Equal(t, "mine", string(text))
		left, err := os.ReadDir(dir)
		require.NoError(t, err)
		require.Len(t, left, 1)
		_, _, err = begun(t, false, "", there)
		require.ErrorContains(t, err, "is a file")
		require.NoError(t, os.Remove(there))
	}
	for _, c := range []struct{ args, says string }{
		{"", "one folder"}, {"a b", "one folder"}, {"a --stroke 80 --rod 20", "too short"}, {"a --gauge ruler", "expected dial"},
		{"a --readings r.csv", "is for find"}, {"a --pin 3", "is for find"},
	} {
		code, out, errs := ev(append([]string{"begin"}, strings.Fields(c.args)...)...)
		require.Equal(t, wrongUse, code, c.args)
		require.Empty(t, out)
		require.Contains(t, errs, c.says)
	}
	require.NoDirExists(t, "a")
}
