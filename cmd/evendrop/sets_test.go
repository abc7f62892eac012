package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
)

// setsJob is a job of a petrol four read in two sets, TDC at 4 and then at 94 deg on the
// protractor, and a pin 20.6 deg after it in both; more is added to the job file.
func setsJob(t *testing.T, more string) (job, readings string) {
	t.Helper()
	dir := t.TempDir()
	job, readings = filepath.Join(dir, "job.toml"), filepath.Join(dir, "r.csv")
	require.NoError(t, os.WriteFile(job, []byte(`title = "two sets"
[engine]
stroke = 86.0
rod = 146.0
pin_offset = 0.0
bore_offset = 0.0
[protractor]
off_centre = 0.0
[gauge]
lash = 0.0
lash_known_to = 0.02
[[cylinder]]
number = 1
readings = "r.csv"
[[mark]]
name = "pin"
on = "flywheel"
read = 24.5
should_be = 20.0
limit = 0.6
`+more), 0o600))
	var text strings.Builder
	text.WriteString("angle,depth,set\n")
	for set, top := range []float64{4, 94} {
		for _, line := range atTop(t, top) {
			fmt.Fprintf(&text, "%s,%d\n", strings.Replace(line, " ", ",", 1), set+1)
		}
	}
	require.NoError(t, os.WriteFile(readings, []byte(text.String()), 0o600))
	return job, readings
}

// atTop is readings of an 86 by 146 mm engine with TDC at top deg, as they are typed.
func atTop(t *testing.T, top float64) (lines []string) {
	t.Helper()
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	for _, u := range []float64{-25, -21, -17, -13, -9, 9.5, 13.5, 17.5, 21.5, 25.5} {
		lines = append(lines, fmt.Sprintf("%.1f %.2f", top+u, float64(crank.Drop(geometry.Angle(u)*geometry.Degree))))
	}
	return lines
}

const pinAgain = "[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = 115.0\nset = 2\n"

// inSets is find's JSON, as far as sets go.
type inSets struct {
	Cylinders []struct {
		TDC  tdcOut `json:"tdc"`
		Sets []struct {
			Set      int
			TDC      tdcOut
			Readings int
		}
		Readings []struct{ Line, Set int }
	}
	Marks []struct {
		Name     string
		Read     float64 `json:"read_deg"`
		Expanded float64 `json:"expanded_uncertainty_deg"`
		Verdict  *string
		Settle   *string `json:"to_settle"`
		Sets     []struct {
			Set      int
			Read     float64 `json:"read_deg"`
			Expanded float64 `json:"expanded_uncertainty_deg"`
		}
	}
}

type tdcOut struct {
	Protractor float64 `json:"protractor_deg"`
}

func foundIn(t *testing.T, job string) (out inSets) {
	t.Helper()
	code, text, errs := ev("find", job, "--as", "json")
	require.Equal(t, answered, code, errs)
	require.NoError(t, json.Unmarshal([]byte(text), &out))
	return out
}

// A job of two sets: TDC is that of the last, each set's is told, and the mark that was
// read in both is one, known better than by either.
func TestFindInSets(t *testing.T) {
	job, _ := setsJob(t, pinAgain)
	out := foundIn(t, job)
	c := out.Cylinders[0]
	require.InDelta(t, 94, c.TDC.Protractor, 0.1)
	require.Len(t, c.Sets, 2)
	require.Equal(t, 1, c.Sets[0].Set)
	require.InDelta(t, 4, c.Sets[0].TDC.Protractor, 0.1)
	require.Equal(t, 10, c.Sets[0].Readings)
	require.Equal(t, c.TDC, c.Sets[1].TDC)
	require.Len(t, c.Readings, 20)
	require.Equal(t, 1, c.Readings[9].Set)
	require.Equal(t, 2, c.Readings[10].Set)
	require.Equal(t, 12, c.Readings[10].Line)
	require.Len(t, out.Marks, 1)
	m := out.Marks[0]
	require.InDelta(t, 20.75, m.Read, 0.1)
	require.Len(t, m.Sets, 2)
	require.InDelta(t, 20.5, m.Sets[0].Read, 0.1)
	require.InDelta(t, 21, m.Sets[1].Read, 0.1)
	require.Less(t, m.Expanded, 0.8*m.Sets[0].Expanded)

	_, text, _ := ev("find", job, "--details", "--every-reading")
	flat := strings.Join(strings.Fields(text), " ")
	require.Regexp(t, `True TDC is at 94\.\d+ ± \S+ deg on the protractor as it is set now, in set 2 \(95 %\)`, flat)
	require.Regexp(t, `Set 1, before the protractor was moved: TDC at [34]\.\d+ ± \S+ deg \(95 %\), by 10 readings\.`, flat)
	require.Contains(t, flat, "set 1: 10 readings, turned forward; r.csv")
	require.Contains(t, flat, "read in sets 1 and 2")
	require.Equal(t, 1, strings.Count(text, "\n pin "), "the table has it once")
	page := filepath.Join(filepath.Dir(job), "p.html")
	code, _, errs := ev("find", job, "--page", page)
	require.Equal(t, answered, code, errs)
	html, err := os.ReadFile(page)
	require.NoError(t, err)
	require.Contains(t, string(html), "Set 1, before the protractor was moved")
	require.Contains(t, string(html), "Every reading of set 1")
	_, csv, _ := ev("find", job, "--as", "csv")
	require.Contains(t, csv, "\ntdc of earlier set,1,set 1,")
	require.Equal(t, 1, strings.Count(csv, "\nmark,"))

	alone := filepath.Join(filepath.Dir(job), "alone.toml")
	data, err := os.ReadFile(job)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(alone, bytes.Replace(data, []byte(pinAgain), nil, 1), 0o600))
	settle := *foundIn(t, alone).Marks[0].Settle
	require.Contains(t, settle, "A finer protractor, or the mark read in set 2 as well, would help.")
	require.Contains(t, *m.Settle, "or this one moved on the crank and mark and piston read again as set 3, would help.")
	good := filepath.Join(filepath.Dir(job), "good.toml")
	code, kept, errs := ev("keep", job, good)
	require.Equal(t, answered, code, errs)
	require.Contains(t, kept, "One mark of one engine")
	code, _, errs = ev("recheck", job, alone)
	require.Equal(t, answered, code, errs)
	code, _, errs = ev("find", alone, "--against", good)
	require.Equal(t, answered, code, errs)
}

// What is wrong with sets is told with its place and what to type.
func TestSetsRefused(t *testing.T) {
	job, _ := setsJob(t, strings.Replace(pinAgain, "set = 2", "set = 3", 1))
	code, out, errs := ev("find", job)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, `job.toml:25:7: mark "pin": it is of set 3, and cylinder 1 has no readings of that set. Write the set that it was read in, or read the piston in set 3 as well`)
	job, readings := setsJob(t, pinAgain)
	data, err := os.ReadFile(readings)
	require.NoError(t, err)
	rows := strings.SplitAfter(string(data), "\n")
	write := func(text string) {
		require.NoError(t, os.WriteFile(readings, []byte(text), 0o600))
	}
	write(strings.Join(rows[:13], ""))
	code, _, errs = ev("find", job)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "r.csv: set 2: too few readings for TDC, 2: take at least 3")
	write(string(data) + rows[1])
	code, _, errs = ev("find", job)
	require.Equal(t, failed, code)
	require.Contains(t, errs, `r.csv:22:12: set "1": the reading above is of set 2: expected 2, or 3 from where the protractor was moved`)
}

// Cylinders are held against one another on the last setting that all were read on.
func TestThrowsOnOneSet(t *testing.T) {
	job, _ := setsJob(t, "[[cylinder]]\nnumber = 2\nthrow = 180.0\nreadings = \"r2.csv\"\n")
	write := func(set string, top float64) {
		text := "angle,depth,set\n"
		for _, line := range atTop(t, top) {
			text += strings.Replace(line, " ", ",", 1) + "," + set + "\n"
		}
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(job), "r2.csv"), []byte(text), 0o600))
	}
	for set, top := range map[string]float64{"1": 184, "2": 274} {
		write(set, top)
		code, out, errs := ev("find", job)
		require.Equal(t, answered, code, errs)
		require.Regexp(t, fmt.Sprintf(`\n 1 +%d\.\d+ +-\s`, int(top)-180), out, set)
		require.Regexp(t, fmt.Sprintf(`\n 2 +(%d\.0|%d\.9)\d* +[-+]?0\.0`, int(top), int(top)-1), out, set)
	}
	write("3", 4)
	code, _, errs := ev("find", job)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "job.toml: no set of readings has all cylinders in it, so their throws cannot be compared")
}

// jot keeps a set in the file, goes on in it, and find finds it.
func TestJotInSets(t *testing.T) {
	job, readings := setsJob(t, pinAgain)
	require.NoError(t, os.WriteFile(readings, []byte("angle,depth\n"), 0o600))
	jot := func(lines ...string) (code int, out, errs string) {
		var o, e bytes.Buffer
		code = run([]string{"jot", job}, newConsole(strings.NewReader(strings.Join(lines, "\n")+"\n"), &o, &e, false))
		return code, o.String(), e.String()
	}
	code, _, errs := jot(atTop(t, 4)...)
	require.Equal(t, answered, code, errs)
	second := atTop(t, 94)
	code, out, errs := jot(append([]string{"set 2"}, second[:4]...)...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, errs, "Readings are of set 2 from here on.")
	require.Contains(t, out, "14 readings, 4 in set 2")
	code, out, errs = jot(second[4:]...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, strings.Join(strings.Fields(errs), " "), "These readings go on in set 2, as the last one")
	require.Contains(t, unwrapped(out), "r.csv: true TDC is at 94.00")
	require.Contains(t, unwrapped(out), "20 readings, 10 in set 2 in ")
	code, _, errs = jot("set 5", "100 1")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "set 5: the readings so far are of set 2")
	require.Len(t, foundIn(t, job).Cylinders[0].Readings, 20, "the line below a set that was refused counts as none")
}

// A plan says what more readings cannot, and what can.
func TestPlanNamesSets(t *testing.T) {
	job, _ := setsJob(t, "")
	code, out, errs := ev("plan", job)
	require.Equal(t, answered, code, errs)
	require.Contains(t, strings.Join(strings.Fields(out), " "), "More readings do not shrink that error, a finer protractor does. "+
		"For the marks another setting helps too: move the protractor on the crank by a good part of a turn, and read marks and piston again as set 2.")
}
