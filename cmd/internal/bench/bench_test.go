package bench_test

import (
	"encoding/base64"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/bench"
	"evendrop/tdc/job/record/recordtest"
)

// ask gives a core a request that has to be answered.
func ask(t testing.TB, c *bench.Core, r bench.Request) bench.Response {
	t.Helper()
	out := asked(t, c, r)
	require.Empty(t, out.Error, "%+v", r)
	return out
}

// asked gives a core a request.
func asked(t testing.TB, c *bench.Core, r bench.Request) (out bench.Response) {
	t.Helper()
	text, err := json.Marshal(r)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(c.Do(text), &out))
	require.Empty(t, out.Panic, "%+v", r)
	return out
}

// kept is what a page keeps of a job: its files, as they changed.
type kept map[string]bench.File

func (k kept) take(changed []bench.File) {
	for _, f := range changed {
		k[f.Name] = f
	}
}

func (k kept) list() (files []bench.File) {
	for _, f := range k {
		files = append(files, f)
	}
	return files
}

// at is a job opened in a core.
func at(t testing.TB, files kept) (*bench.Core, bench.Response) {
	t.Helper()
	c := &bench.Core{Version: "evendrop (test)"}
	out := ask(t, c, bench.Request{Action: bench.Open, Files: files.list()})
	files.take(out.Changed)
	return c, out
}

const little = "title = \"Bench engine\"\n[engine]\nstroke = 86\nrod = 146\n\n[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"  # as typed\n"

func littleJob() kept { return kept{"job.toml": {Name: "job.toml", Text: little}} }

// reading is a line of a reading with the crank at u deg after TDC, which is at 5 on the
// protractor, turned forward, without errors but for lash of 0.06 mm.
func reading(u float64) string {
	const r, l = 43.0, 146.0
	sin, cos := math.Sincos(u * math.Pi / 180)
	depth := r + l - r*cos - math.Sqrt(l*l-r*r*sin*sin) - math.Copysign(0.03, u)
	text, _ := json.Marshal([]float64{math.Round(math.Mod(u+365, 360)*100) / 100, math.Round(depth*1000) / 1000})
	return "f " + strings.NewReplacer("[", "", "]", "", ",", " ").Replace(string(text))
}

// said is everything that was said, in one line.
func said(out bench.Response) string {
	var parts []string
	for _, s := range out.Said {
		parts = append(parts, s.Parts...)
	}
	return strings.Join(parts, " ")
}

// types types lines, keeps what changed, and is the last response.
func types(t testing.TB, c *bench.Core, files kept, lines ...string) (out bench.Response) {
	t.Helper()
	for _, line := range lines {
		out = ask(t, c, bench.Request{Action: bench.Type, Line: line, Revision: out.Revision})
		files.take(out.Changed)
	}
	return out
}

// A page has neither commands nor a job file to write in: what nobody answered is answered by
// making the job again, and the marks that were named have buttons, all in one line.
func TestBegunOnAPage(t *testing.T) {
	lines := []string{"Bench engine", "86", "", "146", "", "", "", "", "dial", "y", "locking pin hole, pulley notch", "n"}
	out := ask(t, &bench.Core{}, bench.Request{Action: bench.Begin, Lines: lines})
	require.True(t, out.Interview.Done)
	require.Contains(t, said(out), "where the number falls, make the job again, and answer that it fell.")
	require.Contains(t, said(out), "in line: locking pin hole and pulley notch.")
	require.NotContains(t, said(out), "evendrop cautions")
}

// The whole story: questions, readings one of which is mistyped and asked about, a mark that
// asks, the verdict, the sheet.
func TestStory(t *testing.T) {
	c := &bench.Core{Version: "evendrop (test)"}
	files := kept{}
	hello := ask(t, c, bench.Request{Action: bench.Hello})
	require.Len(t, hello.Cautions.List, 14)
	require.NotEmpty(t, hello.Help)
	var lines []string
	answers := map[string]string{"name": "Bench engine", "stroke": "86", "rod": "146", "counts": "y", "gauge": "dial", "marks": "1"}
	var out bench.Response
	for range 40 {
		out = ask(t, c, bench.Request{Action: bench.Begin, Lines: lines})
		if out.Interview.Done {
			break
		}
		require.NotEmpty(t, out.Interview.Text)
		lines = append(lines, answers[out.Interview.Topic])
	}
	require.True(t, out.Interview.Done)
	require.Contains(t, said(out), "Under Marks, once the protractor is read with it in line: locking pin hole", "as the page has it, and no line for a terminal")
	require.NotContains(t, said(out), "asks for what is read")
	require.Contains(t, said(out), "All cautions: Job, Cautions.")
	require.Len(t, out.Changed, 2)
	require.Equal(t, "Bench engine", out.Job.Title)
	files.take(out.Changed)
	require.Nil(t, out.State.TDC)
	require.NotNil(t, out.State.Next)
	require.Empty(t, out.State.Next.Angle)

	for _, u := range []float64{-28, -22, -16, -11, 11, 16} {
		out = types(t, c, files, reading(u))
	}
	require.True(t, out.State.TDC.Sure)
	require.InDelta(t, 5, out.State.TDC.AtDeg, 0.01, "lines are rounded to 0.01 deg and 0.001 mm")
	require.NotEmpty(t, out.State.Next.Angle)
	require.Len(t, out.State.Readings, 6)
	require.Equal(t, "reading 21 2.118, turned forward", out.State.Undo.Says)

	// the decimal point is lost
	wrong := strings.Replace(reading(22), ".", "", 1)
	out = types(t, c, files, wrong)
	require.NotNil(t, out.State.Question, said(out))
	require.Equal(t, "k", out.State.Question.Answers[0].Line)
	require.Equal(t, []int{7}, out.State.Question.About)
	require.Len(t, out.State.Question.Answers, 2)
	out = types(t, c, files, out.State.Question.Answers[1].Line)
	require.Nil(t, out.State.Question)
	require.Equal(t, "3.99 mm", out.State.Readings[6].Depth)
	out = types(t, c, files, "undo")
	require.Equal(t, "3992.00 mm", out.State.Readings[6].Depth)
	require.True(t, out.State.Readings[6].Suspect)
	out = types(t, c, files, out.State.Redo.Line, reading(28))
	require.InDelta(t, 5, out.State.TDC.AtDeg, 0.01)

	out = types(t, c, files, "mark locking pin on flywheel read 9.5 limit 1")
	require.NotNil(t, out.State.Asks)
	for range 20 {
		if out.State.Asks == nil {
			break
		}
		answer := ""
		if out.State.Asks.Usual == "" {
			answer = "1"
		}
		out = types(t, c, files, answer)
	}
	require.Nil(t, out.State.Asks)
	marks := ask(t, c, bench.Request{Action: bench.MarksOf}).Marks
	require.Len(t, marks.Marks, 1)
	require.Equal(t, "outside", marks.Marks[0].State)
	require.Contains(t, marks.Headline, "locking pin")
	require.LessOrEqual(t, marks.From, -marks.Marks[0].Allowed)
	require.GreaterOrEqual(t, marks.To, marks.Marks[0].At+marks.Marks[0].Half)
	require.Contains(t, ask(t, c, bench.Request{Action: bench.Sheet}).Page, "locking pin")
	require.Contains(t, ask(t, c, bench.Request{Action: bench.Picture, Name: "curve"}).Picture, "<svg")
	details := ask(t, c, bench.Request{Action: bench.Details}).Document
	require.Contains(t, details[len(details)-1].Text, "come first.")
	require.Contains(t, details[len(details)-1].Text, "All cautions: Job, Cautions.") // a page has no commands

	// thrown away, and opened again with what was kept
	again, reopened := at(t, files)
	require.Equal(t, out.State.TDC, reopened.State.TDC)
	require.Equal(t, out.State.Readings, reopened.State.Readings)
	zip := ask(t, again, bench.Request{Action: bench.Export}).Zip
	imported := ask(t, &bench.Core{}, bench.Request{Action: bench.Open, Zip: zip})
	back := kept{}
	back.take(imported.Changed)
	require.Equal(t, files, back)
}

// What the gauge should show is told while an angle is typed.
func TestExpect(t *testing.T) {
	files := littleJob()
	c, _ := at(t, files)
	require.Empty(t, ask(t, c, bench.Request{Action: bench.Expect, Line: "20"}).Expected.Gauge, "nothing is read yet")
	types(t, c, files, reading(-28), reading(-20), reading(-12), reading(12), reading(20), reading(28))
	e := ask(t, c, bench.Request{Action: bench.Expect, Line: "27"}).Expected
	require.Equal(t, "3.99 mm", e.Gauge)
	require.Equal(t, "falling", e.Side)
	back := ask(t, c, bench.Request{Action: bench.Expect, Line: "27", Turn: "backward"}).Expected
	require.Greater(t, back.Depth, e.Depth, "the lash is taken up the other way")
	require.Equal(t, bench.Expected{}, *ask(t, c, bench.Request{Action: bench.Expect, Line: "2x"}).Expected)
	require.Contains(t, ask(t, c, bench.Request{Action: bench.Expect, Line: "1000"}).Expected.Says, "is not on a protractor")
}

// The past is reckoned a little at a time, and is what stood there then.
func TestHistory(t *testing.T) {
	files := littleJob()
	c, _ := at(t, files)
	var then []bench.TDC
	for _, u := range []float64{-28, -20, -12, 12, 20, 28, 24} {
		if out := types(t, c, files, reading(u)); out.State.TDC != nil {
			then = append(then, *out.State.TDC)
		}
	}
	again, _ := at(t, files)
	h := ask(t, again, bench.Request{Action: bench.HistoryOf}).History
	require.False(t, h.Whole)
	require.Len(t, h.Points, 2, "the last stands there, and one was reckoned")
	for range 5 {
		h = ask(t, again, bench.Request{Action: bench.HistoryOf}).History
	}
	require.True(t, h.Whole)
	require.Len(t, h.Points, len(then))
	for i, p := range h.Points {
		require.Equal(t, then[i].Text, p.Text)
		require.InDelta(t, then[i].Half, p.Half, 1e-12, "the same sum")
		require.InDelta(t, then[i].AtDeg-then[len(then)-1].AtDeg, p.At, 1e-9, "angles pass through radians")
	}
}

// A job's protractor has the keys that its angles need.
func TestScaleKeys(t *testing.T) {
	for wraps, want := range map[string]string{"360": "-", "180": "-", "90": " BTDC, ATDC, BBDC, ABDC"} {
		files := littleJob()
		files["job.toml"] = bench.File{Name: "job.toml", Text: strings.Replace(little, "[[cyl", "[protractor]\nwraps = "+wraps+"\n[[cyl", 1)}
		_, out := at(t, files)
		var keys []string
		for _, k := range out.Job.Scale.Keys {
			keys = append(keys, k.Types)
		}
		require.Equal(t, want, strings.Join(keys, ","), wraps)
		require.Len(t, out.Job.Scale.Examples, 2)
		if wraps == "90" {
			require.Equal(t, []string{"25.0 BTDC", "25.0 ATDC"}, out.Job.Scale.Examples)
		}
	}
}

// A photo is put into the job's folder, named, shown in the sheet, and goes out with the job;
// what is there is not overwritten.
func TestPhoto(t *testing.T) {
	files := littleJob()
	c, _ := at(t, files)
	types(t, c, files, reading(-28), reading(-20), reading(-12), reading(12), reading(20), reading(28))
	jpeg := recordtest.JPEG(2, 1)
	photo := bench.File{Name: "pin.jpg", Base64: base64.StdEncoding.EncodeToString(jpeg)}
	require.Contains(t, said(types(t, c, files, "photo pin.jpg the pin")), "is not in the job's folder")
	out := ask(t, c, bench.Request{Action: bench.Attach, Files: []bench.File{photo}})
	require.Equal(t, []bench.File{photo}, out.Changed)
	files.take(out.Changed)
	require.Contains(t, asked(t, c, bench.Request{Action: bench.Attach, Files: []bench.File{photo}}).Error, "is in the job already")
	require.Contains(t, asked(t, c, bench.Request{Action: bench.Attach, Files: []bench.File{{Name: "job.toml"}}}).Error, "is in the job already")
	require.NotEmpty(t, asked(t, c, bench.Request{Action: bench.Attach, Files: []bench.File{{Name: "../a"}}}).Error)
	types(t, c, files, "photo pin.jpg the pin", "sheet customer J. Smith")
	for _, core := range []*bench.Core{c, func() *bench.Core { again, _ := at(t, files); return again }()} {
		page := ask(t, core, bench.Request{Action: bench.Sheet}).Page
		require.Contains(t, page, "data:image/jpeg;base64,")
		require.Contains(t, page, "J. Smith")
	}
	delete(files, "pin.jpg")
	without, _ := at(t, files)
	require.Contains(t, asked(t, without, bench.Request{Action: bench.Sheet}).Error, "pin.jpg: is not in the job's folder")
}

// A protractor that counts against the running direction is one in the job that the questions
// make, and early and late are by it.
func TestBeginsAgainst(t *testing.T) {
	c := &bench.Core{}
	var lines []string
	answers := map[string]string{"stroke": "86", "rod": "146", "counts": "n", "gauge": "dial"}
	var out bench.Response
	for range 40 {
		out = ask(t, c, bench.Request{Action: bench.Begin, Lines: lines})
		if out.Interview.Done {
			break
		}
		lines = append(lines, answers[out.Interview.Topic])
	}
	require.True(t, out.Interview.Done)
	files := kept{}
	files.take(out.Changed)
	require.Contains(t, files["job.toml"].Text, `counts = "against"`)
}
