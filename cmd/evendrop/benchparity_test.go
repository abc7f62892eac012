package main

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	border "evendrop/cmd/internal/bench"
	"evendrop/tdc/job/jobtest"
)

// benchAt is a core with a folder's files open, as a page has it.
func benchAt(t *testing.T, folder string, cylinder int) (*border.Core, border.Response) {
	t.Helper()
	c := &border.Core{Version: version()}
	var files []border.File
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		require.NoError(t, err)
		files = append(files, border.File{Name: e.Name(), Text: string(data)})
	}
	return c, benchAsk(t, c, border.Request{Action: border.Open, Files: files, Cylinder: cylinder})
}

// benchAsk gives a core a request, whose response is no panic.
func benchAsk(t *testing.T, c *border.Core, r border.Request) (out border.Response) {
	t.Helper()
	text, err := json.Marshal(r)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(c.Do(text), &out))
	require.Empty(t, out.Panic)
	return out
}

// findSaid is what find says as JSON, as far as the page says it too.
type findSaid struct {
	Cylinders []struct {
		TDC struct {
			Protractor float64    `json:"protractor_deg"`
			Interval   [2]float64 `json:"interval95_deg"`
			AgreeTo    float64    `json:"readings_expanded_deg"`
		} `json:"tdc"`
		CannotTell *string `json:"cannot_tell"`
		Readings   []struct {
			Angle    float64 `json:"angle_deg"`
			Depth    float64 `json:"depth_mm"`
			Residual float64 `json:"residual_mm"`
			Weight   float64 `json:"weight"`
			Suspect  bool    `json:"suspect"`
			Line     int     `json:"line"`
			Set      int     `json:"set"`
		} `json:"readings"`
		Warnings []string `json:"warnings"`
	} `json:"cylinders"`
	Marks []struct {
		Name     string   `json:"name"`
		Off      *float64 `json:"off_deg"`
		Expanded float64  `json:"expanded_uncertainty_deg"`
		Limit    *float64 `json:"limit_deg"`
		Verdict  *string  `json:"verdict"`
	} `json:"marks"`
	Headline *string `json:"headline"`
}

// near requires two numbers to be one, but for the last digits of a sum that another way of
// compiling may make in another order.
func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	const digits = 1e-12
	require.InDelta(t, want, got, digits*math.Max(1, math.Abs(want)), what)
}

// sameAsFind requires the page's state, marks and sheet to be what find says of a folder's
// job; false of a job that find refuses.
func sameAsFind(t *testing.T, folder string) bool {
	file := filepath.Join(folder, "job.toml")
	c, opened := benchAt(t, folder, 0)
	require.Empty(t, opened.Error)
	code, out, _ := ev("find", file, "--as", "json")
	if code != answered {
		return false
	}
	var told findSaid
	require.NoError(t, json.Unmarshal([]byte(out), &told))
	first := told.Cylinders[0]
	if at := opened.State.TDC; at != nil && sameSet(first.Readings, opened) {
		near(t, first.TDC.Protractor, at.AtDeg, "TDC")
		near(t, (first.TDC.Interval[1]-first.TDC.Interval[0])/2, at.Half, "its half-width")
		near(t, first.TDC.AgreeTo, at.Agree, "what the readings agree to")
		require.Equal(t, first.CannotTell == nil, at.Sure)
		require.Equal(t, strings.ReplaceAll(strings.Join(first.Warnings, "\n"), folder+"/", ""), strings.Join(opened.State.Warnings, "\n"))
		require.Len(t, opened.State.Readings, len(first.Readings))
		for i, r := range opened.State.Readings {
			want := first.Readings[i]
			require.Equal(t, want.Line, r.Line)
			near(t, want.Angle, r.AngleDeg, "angle")
			near(t, want.Depth, r.DepthMm, "depth")
			if r.Residual != nil {
				near(t, want.Residual, *r.Residual, "residual")
				near(t, want.Weight, *r.Weight, "weight")
				require.Equal(t, want.Suspect, r.Suspect)
			}
		}
	}
	sameMarks(t, c, told)
	sheet := filepath.Join(t.TempDir(), "sheet.html")
	code, _, errs := ev("find", file, "--page", sheet)
	require.Equal(t, answered, code, errs)
	want, err := os.ReadFile(sheet)
	require.NoError(t, err)
	require.Equal(t, unstyled(strings.ReplaceAll(string(want), folder+"/", "")), unstyled(benchAsk(t, c, border.Request{Action: border.Sheet}).Page))
	return true
}

// unstyled is a sheet without its style sheet: the command's has the rules that it needs, the
// page's has all, since the page knows it by them.
func unstyled(sheet string) string {
	return regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(sheet, "")
}

// sameSet tells whether the set that the page reads on is the last that was read.
func sameSet[R any](readings []R, opened border.Response) bool {
	return len(readings) == 0 || len(readings) == len(opened.State.Readings)
}

func sameMarks(t *testing.T, c *border.Core, told findSaid) {
	t.Helper()
	marks := benchAsk(t, c, border.Request{Action: border.MarksOf}).Marks
	headline := ""
	if told.Headline != nil {
		headline = *told.Headline
	}
	require.Contains(t, marks.Headline, headline)
	beside := strings.Replace(marks.Headline, headline, "", 1) // of cylinders, and where TDC is in doubt
	require.Regexp(t, `^(Cylinder \d+'s (throw|crown) .*)?( Before you suspect a part, .*)?$`, beside)
	all := append(marks.Marks, marks.Measured...)
	require.Len(t, all, len(told.Marks))
	for i, m := range told.Marks {
		require.Equal(t, m.Name, all[i].Name)
		near(t, m.Expanded, all[i].Half, m.Name)
		if m.Off == nil {
			continue
		}
		near(t, *m.Off, all[i].At, m.Name)
		require.Equal(t, m.Verdict != nil, all[i].State != "none")
		if m.Verdict != nil {
			require.Equal(t, *m.Verdict, all[i].Verdict)
			near(t, *m.Limit, all[i].Allowed, m.Name)
		}
		require.LessOrEqual(t, marks.From, all[i].At-all[i].Half)
		require.GreaterOrEqual(t, marks.To, all[i].At+all[i].Half)
	}
}

// The page says of every example what find says of it, and to the byte the same sheet.
func TestPageAndFindAgreeOnExamples(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/*.toml")
	require.NoError(t, err)
	jobs := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		if !strings.Contains(string(text), "[[cylinder]]") {
			continue
		}
		folder := t.TempDir()
		require.NoError(t, os.CopyFS(filepath.Join(folder, "all"), os.DirFS(filepath.Dir(file))))
		require.NoError(t, os.Rename(filepath.Join(folder, "all", filepath.Base(file)), filepath.Join(folder, "all", "job.toml")))
		require.True(t, sameAsFind(t, filepath.Join(folder, "all")), file)
		sameWhenExported(t, filepath.Join(folder, "all"))
		jobs++
	}
	require.GreaterOrEqual(t, jobs, 4)
}

// sameWhenExported requires the command to say of the page's zip what it says of a folder.
func sameWhenExported(t *testing.T, folder string) {
	t.Helper()
	c, _ := benchAt(t, folder, 0)
	packed, err := base64.StdEncoding.DecodeString(benchAsk(t, c, border.Request{Action: border.Export}).Zip)
	require.NoError(t, err)
	zip := filepath.Join(t.TempDir(), "exported.zip")
	require.NoError(t, os.WriteFile(zip, packed, 0o600))
	code, want, _ := ev("find", folder, "--details")
	require.Equal(t, answered, code)
	code, got, errs := ev("find", zip, "--details")
	require.Equal(t, answered, code, errs)
	require.Equal(t, want, got)
}

// The page says of invented jobs what find says of them, and what jot says as their readings
// are typed; the files come out byte for byte alike.
func TestPageAndCommandAgree(t *testing.T) {
	jobs, everyTyped := 200, 5
	if testing.Short() {
		jobs, everyTyped = 25, 2
	}
	found, typed := 0, 0
	for seed := range jobs {
		j := jobtest.Jobs().Example(seed)
		folder := filepath.Join(t.TempDir(), strconv.Itoa(seed))
		require.NoError(t, j.Write(folder))
		if sameAsFind(t, folder) {
			found++
		}
		if seed%everyTyped == 0 && sameAsJot(t, folder, j.Cylinders[seed%len(j.Cylinders)]) {
			typed++
		}
	}
	t.Logf("%d jobs, %d answered by find, %d typed", jobs, found, typed)
	require.Greater(t, found, jobs*3/4)
	require.GreaterOrEqual(t, typed, jobs/everyTyped/4)
}

// sameAsJot types a cylinder's readings into jot and into the page; false of one that has
// none, or very many.
func sameAsJot(t *testing.T, folder string, cylinder jobtest.Cylinder) bool {
	const many = 40
	if len(cylinder.Typed) == 0 || len(cylinder.Typed) > many {
		return false
	}
	require.NoError(t, os.Remove(filepath.Join(folder, cylinder.ReadingsFile)))
	c, opened := benchAt(t, folder, cylinder.Number)
	lines := append(cylinder.Typed, "next", "undo", "redo", "# a remark", "look")
	sameWords(t, c, opened, filepath.Join(folder, "job.toml"), cylinder.Number, lines)
	return true
}

// sameWords types lines into jot and into a page that was opened, and requires the same to
// be said and kept.
func sameWords(t *testing.T, c *border.Core, opened border.Response, file string, cylinder int, lines []string) {
	t.Helper()
	said, kept := opened.Said, map[string]string{}
	take := func(changed []border.File) {
		for _, f := range changed {
			kept[f.Name] = f.Text
		}
	}
	take(opened.Changed)
	var last border.Response
	for _, line := range lines {
		for one := range strings.SplitSeq(line, "\n") {
			last = benchAsk(t, c, border.Request{Action: border.Type, Line: one})
			require.Empty(t, last.Error)
			said = append(said, last.Said...)
			take(last.Changed)
		}
	}
	var stdout, stderr strings.Builder
	args := []string{file}
	if cylinder > 0 {
		args = append(args, "--cylinder", strconv.Itoa(cylinder))
	}
	err := runJot(args, newConsole(strings.NewReader(strings.Join(lines, "\n")+"\n"), &stdout, &stderr, true))
	require.NoError(t, err, stderr.String())
	left := map[bool]string{true: unwrapped(stdout.String()), false: unwrapped(stderr.String())} // of answers, and beside them
	for is, text := range left {
		left[is] = strings.ReplaceAll(text, filepath.Dir(file)+"/", "") // the page knows no folder
	}
	for _, s := range said {
		for _, part := range s.Parts {
			part = strings.Replace(unwrapped(part), "All cautions: Job, Cautions.", "All cautions: evendrop cautions", 1) // it has a button, no commands
			is := s.Kind != "remark"
			at := strings.Index(left[is], part)
			require.GreaterOrEqual(t, at, 0, "%q is not in what jot says from here: %.300s", part, left[is])
			left[is] = left[is][at+len(part):]
		}
	}
	for name, text := range kept {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(file), name))
		require.NoError(t, err)
		require.Equal(t, string(data), text, name)
	}
}

// The whole story of jot, marks and a lobe in it, is said and kept by the page alike.
func TestPageSaysTheStory(t *testing.T) {
	jobFile, _ := newJob(t)
	c, opened := benchAt(t, filepath.Dir(jobFile), 0)
	lines := append(askedLines(), lobeLines()...)
	lines = append(lines, "piston", "list", "undo", "undo", "redo", "stop -27.6 34.4", "fix 2 f 352 1.3", "strike 3", "5 99", "k", "look")
	sameWords(t, c, opened, jobFile, 0, lines)
}

// A job that the page's questions make is the one that begin's make, to the byte.
func TestPageBeginsAsBegin(t *testing.T) {
	for i, answers := range [][]string{
		{"", "", "", "", "", "", "", "", "", "", "", "", ""},
		{"Bench engine", "86", "86", "146", "no", "y", "340 and 20", "y", "dial", "y", "1,2"},
		{"", "3.2 in", "y", "", "5.25", "0.02", "n", "", "90", "borescope", "y", "n", "flats"},
		{"Ünïcode ölf", "81.4 mm", "bogus", "?", "79", "133", "back", "134", "-1", "y", "10 BTDC and 10 ATDC", "y", "180", "stop, dwell", "", "pin"},
	} {
		dir := filepath.Join(t.TempDir(), "bench")
		lines := append([]string{"y"}, answers...)
		for range 30 {
			lines = append(lines, "")
		}
		lines = append(lines, "n")
		c := newConsole(strings.NewReader(strings.Join(lines, "\n")+"\nn\n"), &strings.Builder{}, &strings.Builder{}, true)
		_ = runBegin([]string{dir}, c) // it may go on to read, and the lines end there
		want, err := os.ReadFile(filepath.Join(dir, "job.toml"))
		require.NoError(t, err)
		page := &border.Core{}
		var out border.Response
		asked := answers
		for range 60 {
			out = benchAsk(t, page, border.Request{Action: border.Begin, Lines: asked})
			require.Empty(t, out.Error, fmt.Sprint(i))
			if out.Interview.Done {
				break
			}
			asked = append(asked[:len(asked):len(asked)], "")
		}
		require.True(t, out.Interview.Done)
		require.Len(t, out.Changed, 2)
		require.Equal(t, string(want), out.Changed[1].Text, fmt.Sprint(i))
	}
}
