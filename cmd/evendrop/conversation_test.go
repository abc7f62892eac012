package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/record"
)

// echoed is what a terminal shows: each answer ends the line of its question.
func echoed(errs string) string {
	return strings.NewReplacer("]: ", "]: \n", "y or n: ", "y or n: \n", "> ", "> \n").Replace(errs)
}

// unfolded is text with the lines of each item of a list joined.
func unfolded(text string) string { return strings.ReplaceAll(text, "\n  ", " ") }

// uncommented is a job file whose lines to be filled in are filled in as they stand.
func uncommented(text string) string {
	var out []string
	for line := range strings.Lines(text) {
		bare, _ := strings.CutPrefix(line, "# ")
		if strings.HasPrefix(bare, "[") || strings.Contains(bare, " = ") {
			line = bare
		}
		out = append(out, line)
	}
	return strings.Join(out, "")
}

// Conversations, and the job that comes of each: what it holds, and what waits in it to be
// filled in, which fits the protractor as it was described.
func TestConversations(t *testing.T) {
	const in = geometry.Inch
	for _, c := range []struct {
		says  string // what was typed, with | between lines
		unit  string
		setup func(*evidence.Setup)
		waits []string
		lacks []string
	}{
		{"||||||||||", "mm", func(*evidence.Setup) {}, []string{`# name = "locking pin hole"`}, []string{"stops", "dwell", "views"}},
		{"Old four|81.4||133||rose|356 and 4||||n", "mm", func(s *evidence.Setup) {
			s.Engine.Name, s.Engine.Stroke, s.Engine.Rod = "Old four", 81.4, 133
		}, nil, []string{"not tried"}},
		{"|81.4|79|133|no|fell|4 -4|y|dial and stop|fell|2 and flats", "mm", func(s *evidence.Setup) {
			s.Engine.Stroke, s.Engine.Bore, s.Engine.Rod, s.Engine.OffsetStated = 81.4, 79, 133, true
			s.Protractor.Sense, s.Protractor.Scale, s.Gauge.Counts = evidence.Against, evidence.Halves, evidence.Up
		}, []string{"# stops = [[31.5, -24]]", `# name = "pulley notch"`, `# name = "cam lock flats"`, `# in = "mm chord"`}, []string{"locking pin", "dwell", "views"}},
		{"|3.2 in|y|3 1/8|5.25|pin 0.03||-4 and 4||scope|n|y|1", "in", func(s *evidence.Setup) {
			*s = inInches(*s, 0.02, 0.02)
			s.Engine.Stroke, s.Engine.Bore, s.Engine.Rod = 3.2*in, 3.125*in, 5.25*in
			s.Engine.OffsetStated, s.Engine.PinOffset = true, 0.03*in
			s.Protractor.Scale, s.Gauge.Kind, s.Gauge.ScaleKnownTo = evidence.Halves, evidence.Borescope, 0.15
		}, nil, []string{"dwell", "mm"}},
		{"|3.2 in|n||133||rose|4 BTDC and 4 ATDC|||rod, scope, dwell|y|all", "mm", func(s *evidence.Setup) {
			s.Engine.Stroke, s.Engine.Rod = 81.28, 133
			s.Protractor.Scale, s.Gauge = evidence.Quadrants, evidence.DefaultGauge(evidence.DepthRod)
		}, []string{`# dwell = [{ still = "6.2 BTDC", moves = "9.1 ATDC"`, `# views = [{ before = "8.1 BTDC"`, `# read = ["3.8 ATDC"`}, []string{"stops"}},
		{"||||pin 0.00001 mm||||||", "mm", func(s *evidence.Setup) { s.Engine.OffsetStated, s.Engine.PinOffset = true, 0.00001 }, []string{}, nil}, // no exponent on the way
		{"||||||356 and 364||stop|", "mm", func(s *evidence.Setup) { s.Protractor.Scale = evidence.Cycle }, []string{"# stops = "}, []string{"not tried"}},
		{"x|back|Other|?|81.4|back|82||back||140|?||rose|5 and 3|back|n|5 and 3|n||90|d||1 2", "mm", func(s *evidence.Setup) {
			s.Engine.Name, s.Engine.Stroke, s.Engine.Rod, s.Protractor.Scale = "Other", 82, 140, evidence.Quadrants
		}, []string{`# name = "locking pin hole"`, `# name = "pulley notch"`, `# read = ["3.8 ATDC", "3.9 ATDC"]`}, []string{"cam"}},
	} {
		dir := filepath.Join(t.TempDir(), "bench")
		typed := "y\n" + strings.ReplaceAll(c.says, "|", "\n") + "\n\nn\n"
		out, errs, err := begun(t, true, typed, dir)
		require.NoError(t, err, errs)
		require.Contains(t, errs, "Start reading now? y or n [y]: ", c.says)
		within80(t, echoed(errs))
		within80(t, out)
		file := filepath.Join(dir, "job.toml")
		j, err := job.OpenBlank(file)
		require.NoError(t, err)
		require.Equal(t, c.unit, j.Unit, c.says)
		want := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
		c.setup(&want)
		want.Engine.KnownTo = evidence.DefaultKnownTo(want.Engine.OffsetStated)
		sameSetup(t, want, j.Setup, c.says)
		text := mustRead(t, file)
		within80(t, text)
		for _, waits := range c.waits {
			require.Contains(t, text, waits, c.says)
		}
		_, lines, _ := strings.Cut(text, "[engine]")
		for _, lacks := range c.lacks {
			require.NotContains(t, lines, lacks, c.says)
		}
		require.NoError(t, os.WriteFile(file, []byte(uncommented(text)), 0o600))
		_, err = job.OpenBlank(file)
		require.NoError(t, err, "what waits fits once it is filled in: %s\n%s", c.says, uncommented(text))
	}
}

// Who wants a sheet for a customer is asked what it says, and it stands in the job; who does
// not has lines that wait.
func TestBeginWithASheet(t *testing.T) {
	before := "y\n" + strings.Repeat("\n", 11)
	for typed, want := range map[string]record.Sheet{
		"y\nMill Lane Garage\nJ. \u202eSmith\nAB12 CDE\n84,200 miles\nshop \"9\"\nK. Lee\n":        {Shop: "Mill Lane Garage", Customer: "J. \u202eSmith", Vehicle: "AB12 CDE", Odometer: "84,200 miles", Order: `shop "9"`, By: "K. Lee"},
		"yes\n?\n\nSmith\nback\nback\nMill\nJones\n\n\nskip\n" + strings.Repeat("x", 101) + "\n\n": {Shop: "Mill", Customer: "Jones"},
		"perhaps\nn\n":          {},
		"y\na\nback\nback\nn\n": {},
		"y\n\n\n\n\n\n\n":       {},
	} {
		dir := filepath.Join(t.TempDir(), "bench")
		_, errs, err := begun(t, true, before+typed+"n\n", dir)
		require.NoError(t, err, errs)
		within80(t, echoed(errs))
		require.Contains(t, errs, "Start reading now?")
		file := filepath.Join(dir, "job.toml")
		j, err := job.OpenBlank(file)
		require.NoError(t, err)
		require.Equal(t, want, j.Sheet, typed)
		text := mustRead(t, file)
		within80(t, text)
		require.Equal(t, want.Empty(), strings.Contains(text, "# [sheet]\n"))
		require.NoError(t, os.WriteFile(file, []byte(uncommented(text)), 0o600))
		j, err = job.OpenBlank(file)
		require.NoError(t, err, text)
		require.Equal(t, []record.Photo{{File: "pin.jpg", Shows: "the pin against the edge of its hole"}}, j.Photos)
		for _, key := range record.Keys[:6] {
			require.NotEmpty(t, *j.Sheet.At(key), "each waits to be filled in")
		}
	}
}

// sameSetup compares set-ups; what went through inches is the same to the nanometre.
func sameSetup(t *testing.T, want, got evidence.Setup, says string) {
	t.Helper()
	for _, l := range []struct{ want, got *geometry.Length }{
		{&want.Engine.Stroke, &got.Engine.Stroke}, {&want.Engine.Bore, &got.Engine.Bore}, {&want.Engine.Rod, &got.Engine.Rod}, {&want.Engine.PinOffset, &got.Engine.PinOffset},
	} {
		require.InDelta(t, float64(*l.want), float64(*l.got), 1e-6, says)
		*l.got = *l.want
	}
	require.Equal(t, want, got, says)
}

// At the end it goes on at the bench with the job that was made, when that is wanted.
func TestBeginGoesOnReading(t *testing.T) {
	for answer, reads := range map[string]bool{"": true, "y": true, "maybe\nyes": true, "n": false} {
		dir := filepath.Join(t.TempDir(), "bench")
		_, errs, err := begun(t, true, "y"+strings.Repeat("\n", 13)+answer+"\n340 4.10\n341 3.9 # wobbly\ndone\n", dir)
		require.NoError(t, err)
		require.Equal(t, reads, strings.Contains(mustRead(t, filepath.Join(dir, "cylinder-1.csv")), "340,4.10"), answer)
		require.Equal(t, strings.HasPrefix(answer, "maybe"), strings.Contains(errs, "type y to type readings now"))
	}
	dir := filepath.Join(t.TempDir(), "bench") // an end of input there loses nothing
	_, _, err := begun(t, true, "y"+strings.Repeat("\n", 13), dir)
	require.NoError(t, err)
	require.FileExists(t, filepath.Join(dir, "job.toml"))
}

// A stop alone, or dwell, is an answer before there is any reading; filled in, find has
// its TDC: contacts at 331.5 and 24 are half-way at 357.75.
func TestBeginWithAStop(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "bench")
	_, _, err := begun(t, true, "y\n\n81.4\n\n133\n\nrose\n356 4\n\nstop\n\n\nn\n", dir)
	require.NoError(t, err)
	file := filepath.Join(dir, "job.toml")
	code, _, errs := ev("find", file)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "no readings below the header row", "nothing is read yet")
	text := strings.Replace(mustRead(t, file), "# stops = [[328.5, 24]]", "stops = [[331.5, 24]]", 1)
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	require.Contains(t, answerOf(t, "find", file), "True TDC is at 357.8 ")
}

// A second time in the same folder more goes into the same job, by way of jot; its own
// text stays.
func TestBeginInAJob(t *testing.T) {
	jobFile, readings := newJob(t)
	dir, before := filepath.Dir(jobFile), mustRead(t, jobFile)
	_, errs, err := begun(t, true, "y\ncylinder\n\n180\n250 3\ndone\n", dir)
	require.NoError(t, err, errs)
	require.Contains(t, unwrapped(errs), "is a job already, with one cylinder.")
	require.Contains(t, errs, "forward> cylinder 2\n", "as if it had been typed")
	after := mustRead(t, jobFile)
	require.True(t, strings.HasPrefix(after, before), after)
	j, err := job.OpenBlank(jobFile)
	require.NoError(t, err)
	require.Len(t, j.Cylinders, 2)
	require.InDelta(t, 180, j.Cylinders[1].Throw.Degrees(), 1e-9)
	require.Contains(t, mustRead(t, j.ReadingsFiles[2]), "250,3")
	require.NotContains(t, mustRead(t, readings), "250,3")

	// read on, and another gauge on the same piston
	_, errs, err = begun(t, true, "y\nstop and rod\n251 3.1\nstop 328.5 24\nview 351.9 11.5\n", dir)
	require.NoError(t, err)
	require.Contains(t, errs, "stop 328.5 24 is both contacts")
	require.Contains(t, errs, "view 351.9 11.5 is two angles")
	require.Contains(t, mustRead(t, readings), "251,3.1")
	j, err = job.OpenBlank(jobFile)
	require.NoError(t, err)
	require.Len(t, j.Cylinders[0].Stops, 1)
	require.Len(t, j.Cylinders[0].Views, 1)

	// who leaves leaves it as it is
	after = mustRead(t, jobFile)
	for _, typed := range []string{"n\n", "y\n", "y\ncylinder\n", "y\nquit\n"} {
		_, _, err = begun(t, true, typed, dir)
		require.Error(t, err, typed)
	}
	require.Equal(t, after, mustRead(t, jobFile))

	// flags that describe a new job, and a pipe, are refused as ever
	for _, flags := range [][]string{{"--stroke", "80"}, {"--name", "x"}, {"--gauge", "rod"}, {"--unit", "in"}} {
		_, _, err = begun(t, true, "y\n", append(flags, dir)...)
		require.ErrorContains(t, err, "overwrites nothing")
	}
	_, _, err = begun(t, false, "", dir)
	require.ErrorContains(t, err, "overwrites nothing")
}

// What else is to be read is said as lines of jot, which takes every one of them as it
// stands, whatever the protractor's scale.
func TestBeginsOrders(t *testing.T) {
	for _, scale := range []string{"356 and 4\n", "4 and -4\n", "356 and 364\n", "4 BTDC 4 ATDC\n\n"} {
		dir := filepath.Join(t.TempDir(), "bench")
		out, errs, err := begun(t, true, "y\n\n81.4\n\n133\n\n\n"+scale+"\nstop, dwell, dial and scope\n\n1 2 3, 4, paint on the damper\n\nn\n", dir)
		require.NoError(t, err, errs)
		file := filepath.Join(dir, "job.toml")
		var lines []string
		for _, found := range regexp.MustCompile(`(?m)^- ((?:stop|dwell|view) .*?) is `).FindAllStringSubmatch(out, -1) {
			lines = append(lines, found[1])
		}
		require.Len(t, lines, 3, out)
		for _, found := range regexp.MustCompile(`(?m)^- (mark .*? on .*?) asks for `).FindAllStringSubmatch(unfolded(out), -1) {
			lines = append(lines, found[1]+" read 4 ATDC should be 0 limit 1")
		}
		require.Len(t, lines, 3+4, out)
		require.Contains(t, out, "- mark asks about paint on the damper.")
		_, errs, err = jotting(t, file, lines...)
		require.NoError(t, err, errs)
		j, err := job.OpenBlank(file)
		require.NoError(t, err)
		require.Len(t, j.Marks, 4)
		c := j.Cylinders[0]
		require.Equal(t, []int{1, 1, 1}, []int{len(c.Stops), len(c.Dwell), len(c.Views)})
		require.InDelta(t, -31.5, c.Stops[0].Rising.Signed().Degrees(), 1e-9, "before the top, on the rising side")
	}
}

// On a terminal of 60 columns everything fits, pictures too.
func TestBeginNarrow(t *testing.T) {
	const columns = 60
	var out, errs bytes.Buffer
	c := newConsole(strings.NewReader("y\n?\n\n"+strings.Repeat("?\nzzz\n\n", 9)+"?\n\nn\n"), &out, &errs, true)
	c.width = columns - 1
	require.NoError(t, runBegin([]string{filepath.Join(t.TempDir(), "b")}, c))
	for line := range strings.Lines(echoed(errs.String())) {
		require.LessOrEqual(t, len(strings.TrimSuffix(line, "\n")), columns-1, line)
	}
}
