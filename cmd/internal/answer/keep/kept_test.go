package keep

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/mark"
)

// engine is a healthy engine in a file, its one mark so many degrees after TDC.
func engine(t *testing.T, file, name string, at float64) found.All {
	t.Helper()
	setup := answertest.Setup()
	result := answertest.Result(t, setup, 0)
	f := found.All{Job: job.Job{Title: file, File: file, Setup: setup}}
	f.Results = append(f.Results, result)
	f.Job.Cylinders = []evidence.Cylinder{{Number: 1, Readings: []evidence.Reading{{Angle: geometry.Angle(at) * geometry.Degree, File: file}}}}
	var err error
	f.Marks, err = mark.Judge(setup, result, mark.Drive{}, []mark.Mark{
		{Name: name, On: "crank", Read: []geometry.Angle{geometry.Angle(at) * geometry.Degree}, Limit: 2 * geometry.Degree, HasLimit: true},
	})
	require.NoError(t, err)
	return f
}

// kept is what is kept of engines.
func kept(t *testing.T, engines ...found.All) Kept {
	t.Helper()
	k := Kept{knownGood: knowngood.File{File: "good.toml"}, jobs: engines}
	var marks [][]mark.Healthy
	for _, f := range engines {
		marks = append(marks, mark.Keep(f.Marks))
		k.knownGood.From = append(k.knownGood.From, knowngood.Condition{Title: f.Job.Title})
	}
	var err error
	k.knownGood.Marks, err = mark.Combine(marks...)
	require.NoError(t, err)
	return k
}

// said is the answer's text on one line.
func said(t *testing.T, k Kept) string {
	t.Helper()
	text, err := form.Of(k).Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// Whatever a mark is called, all forms hold.
func TestNamesHarmNothing(t *testing.T) {
	for _, name := range answertest.Hostile {
		f := engine(t, "job.toml", name, 1)
		answertest.Holds(t, name, form.Of(kept(t, f, f)))
	}
}

// One engine has no scatter, and that one is no measure of others is not hidden by a
// sentence about several; two that differ by far more than measuring explains have it.
func TestScatter(t *testing.T) {
	one := kept(t, engine(t, "a.toml", "pin", 1))
	text := said(t, one)
	require.Contains(t, text, "One mark of one engine kept in good.toml.")
	require.NotContains(t, text, "another healthy engine:")
	require.Nil(t, one.marks()[0].Scatter)
	two := kept(t, engine(t, "a.toml", "pin", 0), engine(t, "b.toml", "pin", 1.2))
	require.Contains(t, said(t, two), "One mark of 2 engines")
	require.Contains(t, said(t, two), "± is what to expect of another healthy engine")
	m := two.marks()[0]
	require.NotNil(t, m.Scatter)
	require.InDelta(t, (two.jobs[0].Marks[0].Angle+two.jobs[1].Marks[0].Angle).Degrees()/2, m.ShouldBe, 5e-3, "the mean of two that are known all but alike: a protractor differs more from itself farther from TDC, here by one part in a hundred")
	require.Greater(t, m.Expanded, *m.Scatter, "scatter is in the ± of another engine")
	require.Equal(t, 2, m.Engines)
	require.InDelta(t, 2, *m.Limit, 0)
}

// The file's name is one that the command in the sentence can be typed with.
func TestCommandCanBeTyped(t *testing.T) {
	k := kept(t, engine(t, "a.toml", "pin", 1))
	k.knownGood.File = "my good.toml"
	require.Contains(t, said(t, k), "evendrop find JOB --against 'my good.toml'")
}

// What speaks against calling an engine healthy is said, with whose it is.
func TestDoubts(t *testing.T) {
	a, b := engine(t, "a.toml", "pin", 0), engine(t, "b.toml", "pin", 0.5)
	require.Empty(t, kept(t, a, b).doubts())
	a.Job.Setup.Engine.Name, b.Job.Setup.Engine.Name = "red", "blue"
	require.Contains(t, strings.Join(kept(t, a, b).doubts(), " "), "b.toml: its engine is called blue, and that of a.toml red")
	twin := engine(t, "c.toml", "pin", 0)
	twin.Job.Cylinders = a.Job.Cylinders
	require.Contains(t, strings.Join(kept(t, a, twin).doubts(), " "), "a.toml and c.toml have the same readings")
	off := engine(t, "d.toml", "pin", 4)
	require.Equal(t, mark.Outside, off.Marks[0].Verdict)
	doubt := strings.Join(kept(t, off).doubts(), " ")
	require.Regexp(t, `d\.toml: the pin is 4\.\d+ ± \S+ deg late, and its limit is 2 deg \(outside\)`, doubt)
	require.Contains(t, said(t, kept(t, off)), "Make sure that this engine is healthy")
}

// Every form has the same numbers.
func TestFormsAgree(t *testing.T) {
	k := kept(t, engine(t, "a.toml", "pin", 0), engine(t, "b.toml", "pin", 1.2))
	data, err := k.JSON()
	require.NoError(t, err)
	var out keptJSON
	require.NoError(t, json.Unmarshal(data, &out))
	require.Equal(t, "good.toml", out.File)
	require.Equal(t, 2, out.Engines)
	require.Equal(t, []string{}, out.Doubts)
	data, err = k.CSV()
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	require.NoError(t, err)
	m := out.Marks[0]
	require.Equal(t, []string{"pin", fmt.Sprint(m.ShouldBe), fmt.Sprint(m.Uncertainty), fmt.Sprint(m.Expanded), fmt.Sprint(*m.Scatter), "2", "2"}, rows[1])
	one := kept(t, engine(t, "a.toml", "pin", 0))
	data, err = one.CSV()
	require.NoError(t, err)
	require.Contains(t, string(data), ",,1,2\n", "a scatter that is unknown is an empty cell")
}

// An inch job keeps angles alone: nothing in it is in millimetres.
func TestNoMillimetresInAnInchJob(t *testing.T) {
	f := engine(t, "a.toml", "pin", 4)
	f.Job.Unit = "in"
	require.NotRegexp(t, `\bmm\b`, said(t, kept(t, f)))
}
