package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
)

// ev runs a command line.
func ev(args ...string) (code int, stdout, stderr string) {
	return evIn(0, args...)
}

// evIn runs a command line on a terminal of so many columns.
func evIn(columns int, args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	c := newConsole(strings.NewReader(""), &out, &errs, false)
	c.width = form.Width(columns)
	code = run(args, c)
	return code, out.String(), errs.String()
}

const diagnostician = "../../examples/diagnostician/job.toml"

func TestAloneSaysWhatToTypeFirst(t *testing.T) {
	code, out, errs := ev()
	require.Equal(t, answered, code)
	require.Contains(t, out, "Type one of these first:\n\n  evendrop begin ")
	require.Empty(t, errs)
}

// A terminal has 80 columns, by common practice.
func TestHelpFitsATerminal(t *testing.T) {
	help := [][]string{{}}
	for _, c := range commands() {
		help = append(help, []string{c.name, "--help"})
	}
	for _, args := range help {
		code, out, errs := ev(args...)
		require.Equal(t, answered, code, errs)
		for line := range strings.Lines(out) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, line)
		}
	}
}

// 348.6 and 11.8 lie either side of the protractor's zero: half-way is 0.2,
// not 180.2 (a fact of arithmetic on the circle).
func TestHalve(t *testing.T) {
	for _, c := range []struct {
		args []string
		want float64
	}{
		{[]string{"348.6", "11.8"}, 0.2},
		{[]string{"350", "20"}, 5},
		{[]string{"33.5", "356.5"}, 15},
		{[]string{"-5.2", "9.1", "--wraps", "180"}, 1.95},
		{[]string{"12 BTDC", "9 ATDC", "--wraps", "90"}, -1.5},
		{[]string{"117.4 ATDC", "77.6 ATDC", "--wraps", "180"}, 97.5},
		{[]string{"12", "BBDC", "9", "abdc", "--wraps", "90"}, 178.5},
	} {
		code, out, errs := ev(append([]string{"halve", "--as", "json"}, c.args...)...)
		require.Equal(t, answered, code, errs)
		var got struct {
			TDC float64 `json:"tdc_deg"`
		}
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		require.InDelta(t, c.want, got.TDC, 1e-9, c.args)
	}
	code, out, _ := ev("halve", "348.6", "11.8")
	require.Equal(t, answered, code)
	require.Contains(t, out, "TDC is at 0.2 ")
}

// The invented engine of the example was made with TDC at 3.4 deg and its pin
// 2.8 deg late of it.
func TestDiagnosticianExample(t *testing.T) {
	code, out, errs := ev("find", diagnostician, "--as", "json", "--strict")
	require.Equal(t, notFine, code, errs)
	var got struct {
		Cylinders []struct {
			TDC struct {
				Interval [2]float64 `json:"interval95_deg"`
			} `json:"tdc"`
		} `json:"cylinders"`
		Marks []struct{ Verdict string } `json:"marks"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Less(t, got.Cylinders[0].TDC.Interval[0], 3.4)
	require.Greater(t, got.Cylinders[0].TDC.Interval[1], 3.4)
	require.Equal(t, "outside", got.Marks[0].Verdict)
	require.Equal(t, "within", got.Marks[1].Verdict)
}

func TestEveryForm(t *testing.T) {
	for _, as := range flags.Formats {
		code, out, errs := ev("find", diagnostician, "--as", as, "--every-reading")
		require.Equal(t, answered, code, errs)
		require.Contains(t, out, "locking pin hole", as)
	}
}

// A wrong command line is status 2, a bad file status 1, each with one line on
// stderr and nothing on stdout.
func TestBadInput(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	write("f.csv", "angle,depth\n340,3\n350,0.9\n5,0.3\n15,2\n")
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"fnd"}, wrongUse, "no command"},
		{[]string{"find"}, wrongUse, "find needs a job file"},
		{[]string{"find", diagnostician, "--as", "pdf"}, wrongUse, "expected text, markdown, json or csv"},
		{[]string{"find", diagnostician, "--stroke", "80"}, wrongUse, "does not go with a job file"},
		{[]string{"halve", "1"}, wrongUse, "pairs of angles"},
		{[]string{"halve", "1", "x"}, wrongUse, "x"},
		{[]string{"find", filepath.Join(dir, "none.toml")}, failed, "none.toml"},
		{[]string{"find", write("a.toml", "[engine]\nstroek = 81.4\n")}, failed, "a.toml:2:1"},
		{[]string{"find", write("b.toml", "[engine]\nstroke = 80\nrod = 20\n")}, failed, "b.toml:3:"},
		{[]string{"find", "--readings", write("c.csv", "angle,depth\n1,2\n3,x\n")}, failed, "c.csv:3:"},
		{[]string{"find", write("g.toml", "[[cylinder]]\nnumber = 2\nreadings = \"f.csv\"\n[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [1]\n")},
			failed, "number = 1"},
		{[]string{"halve", "--wraps", "90", "-12 BTDC", "3 ATDC"}, wrongUse, "-12 has both"},
		{[]string{"find", "--readings", write("d.csv", "angle,depth\n1,2\n")}, failed, "at least 3"},
	} {
		code, out, errs := ev(c.args...)
		require.Equal(t, c.code, code, c.args)
		require.Empty(t, out, c.args)
		require.Contains(t, errs, c.says, c.args)
		require.Equal(t, 1, bytes.Count([]byte(errs), []byte("\n")), errs)
	}
}

// Without stroke and rod equal drop answers as always.
func TestUnknownEngine(t *testing.T) {
	code, out, errs := ev("find", "--readings", "../../examples/diagnostician/cylinder-1.csv")
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "equal drop")
	require.Contains(t, out, "stroke is unknown")
}

// An angle typed with its side means the same on every scale, and is answered so.
func TestSidesTypedAreSidesAnswered(t *testing.T) {
	file := filepath.Join(t.TempDir(), "sides.csv")
	require.NoError(t, os.WriteFile(file, []byte("angle,depth\n24.6 BTDC,10.00\n18.6 BTDC,6.27\n12.6 BTDC,3.34\n7.6 BTDC,1.58\n3.6 BTDC,0.64\n"+
		"10.4 ATDC,0.64\n14.4 ATDC,1.58\n19.4 ATDC,3.34\n25.4 ATDC,6.27\n31.4 ATDC,10.00\n"), 0o600))
	answers := map[string]bool{}
	for _, scale := range [][]string{{"180", "with"}, {"180", "against"}, {"90", "with"}, {"90", "against"}} {
		code, out, _ := ev("find", "--readings", file, "--stroke", "86", "--rod", "146", "--wraps", scale[0], "--counts", scale[1])
		require.Zero(t, code)
		require.Regexp(t, `True TDC is at 3\.\d+ ATDC ±`, out, "%v", scale)
		answers[out] = true
	}
	require.Len(t, answers, 1, "the side says it all: neither scale nor counting matters")
}

// Trials say the same for the same seed, and too few of them are refused.
func TestTrials(t *testing.T) {
	code, first, errs := ev("find", diagnostician, "--trials", "2000", "--seed", "5")
	require.Equal(t, answered, code, errs)
	require.Contains(t, first, "2000 trials of the whole job (JCGM 101, seed 5)")
	_, again, _ := ev("find", diagnostician, "--trials", "2000", "--seed", "5")
	require.Equal(t, first, again)
	_, other, _ := ev("find", diagnostician, "--trials", "2000", "--seed", "6", "--as", "json")
	require.Contains(t, other, `"shortest95_deg"`)
	code, out, errs := ev("find", diagnostician, "--trials", "10")
	require.Equal(t, wrongUse, code)
	require.Empty(t, out)
	require.Contains(t, errs, "such as 100000")
}

// full is a disk with no room left.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// An answer that could not be written fails in words, help and version too.
func TestFullDiskIsSaid(t *testing.T) {
	for _, args := range [][]string{nil, {"help"}, {"version"}, {"cautions"}, {"find", "--help"}, {"find", diagnostician}, {"halve", "348.6", "11.8"}} {
		var errs bytes.Buffer
		require.Equal(t, failed, run(args, newConsole(strings.NewReader(""), full{}, &errs, false)), args)
		require.Contains(t, errs.String(), "no space left", args)
	}
}

// An engine that hardly moves its piston cannot be planned for, and that is said.
func TestPlanOfAnEngineThatHardlyMoves(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.toml")
	require.NoError(t, os.WriteFile(path, []byte("[engine]\nstroke = 1e-5\nrod = 99999\n[[cylinder]]\nnumber = 1\nstops = [[-30, 30]]\n"), 0o600))
	code, out, errs := ev("plan", path)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "the piston moves too little")
}

// hostile are characters that do something to a terminal: escapes, a bell, and the
// controls of writing direction.
const hostile = "\x1b[31m\a\u009b\u202e\u2066\u200f\u061c\u2028"

// No name, argument or title steers the terminal, in an answer or in an error.
func TestNothingSteersTheTerminal(t *testing.T) {
	dir := t.TempDir()
	text := strings.NewReplacer(
		`title = "`, "title = \"\u202e\u2066\u061c ", `name = "locking pin hole"`, "name = \"pin \u202eשלום\u2069 مرحبا\u200f\"", `source = "`, "source = \"\u2067",
	).Replace(mustRead(t, diagnostician))
	job := filepath.Join(dir, "job\x1b\u202e.toml")
	require.NoError(t, os.WriteFile(job, []byte(text), 0o600))
	readings := strings.Replace(mustRead(t, story+"cylinder-1.csv"), "\n", "\n# \u202e\n", 1)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), []byte(readings), 0o600))
	good := filepath.Join(dir, "good\u202e.toml")
	t.Chdir(t.TempDir()) // begin and rehearse make a folder of any name
	calls := [][]string{{hostile}, {"help", hostile}, {"find", job, "--" + hostile}, {"find", "-" + hostile}, {"find", job, "--trials", hostile}}
	for _, as := range flags.Formats {
		calls = append(calls, []string{"find", job, "--every-reading", "--as", as}, []string{"keep", job, good, "--replace", "--as", as},
			[]string{"find", job, "--against", good, "--as", as}, []string{"recheck", job, job, "--as", as})
	}
	for _, c := range commands() {
		calls = append(calls, []string{c.name, hostile}, []string{c.name, hostile, hostile, hostile}, []string{c.name, "--as", hostile}, []string{c.name, "a" + hostile + ".toml", job})
	}
	shown := 0
	for _, args := range calls {
		_, out, errs := ev(args...)
		for _, said := range []string{out, errs} {
			require.True(t, utf8.ValidString(said))
			for _, r := range said {
				require.False(t, r != '\n' && (unicode.IsControl(r) || unicode.In(r, unicode.Bidi_Control, unicode.Zl)), "%q in %q of %q", r, said, args)
			}
		}
		if args[0] != "begin" && args[0] != "jot" { // begin prints the cautions first, jot in the folder that it made last
			require.LessOrEqual(t, strings.Count(errs, "\n"), 1, errs)
		}
		shown += strings.Count(out, "שלום") * strings.Count(out, "مرحبا")
	}
	require.Greater(t, shown, 10, "names written from right to left are text")
}

// What is written to the terminal goes through run or says why not: elsewhere nothing
// makes it legible.
func TestOneWayOut(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		for line := range strings.Lines(mustRead(t, file)) {
			if !strings.Contains(line, "os.Stderr") && !strings.Contains(line, "os.Stdout") {
				continue
			}
			passes := file == "console.go" && strings.Contains(line, "newConsole(os.Stdin, os.Stdout, os.Stderr, ") || strings.Contains(line, "columns(os.Stdout)") ||
				file == "console.go" && (strings.Contains(line, "isTerminal(os.Stderr)") || strings.Contains(line, "c.passing = os.Stderr")) || // a line that is wiped again
				file == "main.go" && strings.Contains(line, "standard output is closed") || file == "stdout_unix.go"
			require.True(t, passes, "%s: %s", file, line)
		}
	}
}

// Of an argument or a name that is far too long the beginning is shown, and what to
// type instead still stands at the end.
func TestLongNamesAreCut(t *testing.T) {
	const most = 1_300
	long := strings.Repeat("A", 100_000)
	words := strings.Repeat("all work ", 10_000)
	t.Chdir(t.TempDir())
	for _, name := range []string{long, words, strings.Repeat("ש", 50_000)} {
		calls := [][]string{{name}, {"help", name}, {"find", "--" + name}, {"find", "x", "--trials", name}, {"find", "--readings", name}, {"halve", name, name}, {"convert", "2", name}}
		for _, c := range commands() {
			calls = append(calls, []string{c.name, name}, []string{c.name, name, name}, []string{c.name, "x", "--as", name}, []string{c.name, "x", name, name, name})
		}
		for _, args := range calls {
			_, out, errs := ev(args...)
			if args[0] == "begin" { // which prints the cautions first
				errs = errs[strings.LastIndex(errs, "\nevendrop: ")+1:]
			}
			require.Less(t, len(out)+utf8.RuneCountInString(errs), most, args[0])
			require.NotEmpty(t, errs)
		}
	}
	_, _, errs := ev("find", long+".toml", long)
	require.Contains(t, errs, "type for example evendrop find job.toml")
}

// The same of names in files.
func TestLongNamesInFiles(t *testing.T) {
	text, dir := mustRead(t, diagnostician), t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), []byte(mustRead(t, story+"cylinder-1.csv")), 0o600))
	job := filepath.Join(dir, "job.toml")
	for _, key := range []string{"title", "name", "on", "source", "readings"} {
		lines := strings.Split(text, "\n")
		for i, line := range lines {
			if strings.HasPrefix(line, key+" = ") {
				times := map[string]int{"title": 20_000, "name": 41, "on": 41, "source": 20_000, "readings": 41}[key] // a name may be 200 characters long
				lines[i] = key + ` = "` + strings.Repeat("long ", times) + `"`
			}
		}
		require.NoError(t, os.WriteFile(job, []byte(strings.Join(lines, "\n")), 0o600))
		code, out, errs := ev("find", job)
		require.Equal(t, failed, code, key)
		require.Empty(t, out)
		require.Contains(t, errs, "characters", key)
		require.Less(t, len(errs), 400)
	}
	capture := filepath.Join(dir, "capture.csv")
	whole := mustRead(t, story+"capture.csv")
	require.NoError(t, os.WriteFile(capture, []byte(strings.Replace(whole, "Cam", strings.Repeat("Cam", 10_000), 1)), 0o600))
	for _, as := range []string{"text", "markdown"} {
		_, out, errs := ev("edges", capture, "--crank", "2", "--cam", "3", "--wheel", "60-2", "--as", as)
		require.Empty(t, errs)
		require.Less(t, len(out), 8_000)
	}
}
