package sheet_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/recheck"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/scenes"
	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// front is a sheet and the answer that it is of.
type front struct {
	doc.Document
	find.Answer
}

// of is the sheet of a job file.
func of(t *testing.T, file string) front {
	t.Helper()
	j, err := job.Open(file)
	require.NoError(t, err)
	a, err := find.Of(j)
	require.NoError(t, err)
	d, err := find.Page{Answer: a}.Front(nil)
	require.NoError(t, err)
	return front{d, a}
}

// scene is a sheet of one of the scenes.
func scene(t *testing.T, name string) front {
	t.Helper()
	for _, s := range scenes.All() {
		if s.Name == name {
			dir, err := s.Write(t.TempDir())
			require.NoError(t, err)
			if s.Repair {
				return repaired(t, dir)
			}
			return of(t, filepath.Join(dir, scenes.JobFile))
		}
	}
	t.Fatalf("no scene %s", name)
	return front{}
}

// repaired is the sheet of before and after.
func repaired(t *testing.T, dir string) front {
	t.Helper()
	var jobs [2]job.Job
	for i, name := range []string{scenes.JobFile, scenes.AfterFile} {
		var err error
		jobs[i], err = job.Open(filepath.Join(dir, name))
		require.NoError(t, err)
	}
	r, err := recheck.Of(jobs[0], jobs[1])
	require.NoError(t, err)
	d, err := r.Front()
	require.NoError(t, err)
	return front{d, r.After}
}

// finding is the sheet's heading.
func (f front) finding() doc.Heading { return f.Document[0].(doc.Heading) }

// numbers are the sheet's.
func (f front) numbers() doc.Numbers {
	for _, b := range f.Document {
		if n, is := b.(doc.Numbers); is {
			return n
		}
	}
	return nil
}

// isolates are what keeps a name's direction of writing to itself, as text shows it.
var isolates = regexp.MustCompile(`\\+u206[89]`)

// plain is the sheet in characters.
func (f front) plain(t *testing.T) string {
	t.Helper()
	out, err := text.Markdown(f.Document)
	require.NoError(t, err)
	return isolates.ReplaceAllString(strings.ReplaceAll(string(out), "\n", " "), "")
}

// What a customer reads first of each scene, and how it came out; the engines are invented
// with what is said to be wrong with them.
func TestFindings(t *testing.T) {
	for name, want := range map[string]struct {
		says  string
		state doc.State
	}{
		"01-one-slip":        {"The flywheel appears to have turned 2.6° on the crank.", doc.Outside},
		"02-stop-only":       {"Everything checked here is within its limit.", doc.Within},
		"05-eight-in-inches": {"Outside their limits: cylinder 3's piston height and cylinder 6's throw.", doc.Outside},
		"07-long-names":      {"3 marks are outside their limits; not every cause is known yet.", doc.Outside},
		"09-nothing-off":     {"Everything checked here is within its limit.", doc.Within},
		"10-cannot-tell":     {"These readings do not show where the piston is highest.", doc.TooClose},
		"11-too-close":       {"2 of them are too close to their limits to call.", doc.TooClose},
		"12-repaired":        {"Measured again: every mark checked is within its limit.", doc.Within},
		"13-tooth-late":      {"Inlet flats: 17.1° late, as much as one tooth.", doc.Outside},
	} {
		h := scene(t, name).finding()
		require.Equal(t, want.says, legible.Undirected(h.Text), name)
		require.Equal(t, want.state, h.State, name)
	}
}

// Of several movements the one whose part is known is named, though another's is open.
func TestKnownPart(t *testing.T) {
	said := regexp.MustCompile(`That agrees with ([^;]*° (late|early)); for the rest see what to look at next\.`).FindStringSubmatch(scene(t, "07-long-names").plain(t))
	require.NotEmpty(t, said)
	require.NotContains(t, said[1], " or ")
	for _, name := range []string{"01-one-slip", "09-nothing-off", "11-too-close", "13-tooth-late"} {
		require.NotContains(t, scene(t, name).plain(t), "for the rest see")
	}
}

// The customer is told what must not be done.
func TestNever(t *testing.T) {
	for name, says := range map[string]string{
		"01-one-slip":    "Do not time the engine by the marks that are outside.",
		"10-cannot-tell": "Do not time the engine by these readings.",
		"13-tooth-late":  "Do not start the engine before the drive is looked at.",
	} {
		require.Contains(t, scene(t, name).plain(t), says, name)
	}
	require.NotContains(t, scene(t, "09-nothing-off").plain(t), "Do not")
}

// A mark on a cam is given in degrees of the cam as well, half as many, and in teeth where it
// is whole teeth; one on the crank is not. What no mark sees is said, and so is the caution.
func TestOtherwiseSaid(t *testing.T) {
	f := scene(t, "13-tooth-late")
	for _, n := range f.numbers() {
		switch legible.Undirected(n.What) {
		case "Inlet flats":
			require.Equal(t, []string{"at the cam 8.6 ± 0.4°", "as much as one tooth"}, n.Notes)
			require.Equal(t, "17.1", n.Value)
			require.Equal(t, "late", n.Way)
		case "Locking pin hole":
			require.Empty(t, n.Notes)
		}
	}
	require.Contains(t, f.plain(t), "Not checked here: ")
	require.Contains(t, f.plain(t), caution.Sheet)
}

// Two slips that all marks agree with are said, though of one of them the joint is open, and
// so is a cam that stands a tooth late whose mark nobody gave a limit: it may bend valves.
func TestSeveralMovedAndNoLimit(t *testing.T) {
	file := filepath.Join(t.TempDir(), scenes.JobFile)
	require.NoError(t, os.WriteFile(file, []byte(`title = "x"
[engine]
stroke = 86
rod = 146
[drive]
layout = "two cams"
crank_sprocket = 21
[[cylinder]]
number = 1
stops = [[-31.0, 31.0], [-31.0, 31.0]]
`), 0o600))
	for _, m := range []string{
		"name = \"pin hole\"\non = \"flywheel\"\nread = [3.1, 3.1]\nlimit = 1\n", "name = \"pulley notch\"\non = \"pulley\"\nread = [0.1, 0.1]\nlimit = 2\n",
		"name = \"gap\"\non = \"crank wheel\"\nread = [-80.9]\nshould_be = -84\nlimit = 1.5\n",
		"name = \"inlet flats\"\non = \"inlet cam\"\noff = 17.1\nin = \"crank degrees\"\nknown_to = 1\n",
		"name = \"exhaust flats\"\non = \"exhaust cam\"\noff = 1.5\nin = \"crank degrees\"\nknown_to = 1\nlimit = 2\n",
	} {
		f, err := os.OpenFile(file, os.O_APPEND|os.O_WRONLY, 0)
		require.NoError(t, err)
		_, err = f.WriteString("[[mark]]\n" + m)
		require.NoError(t, err)
		require.NoError(t, f.Close())
	}
	f := of(t, file)
	require.Equal(t, "2 movements explain the marks, one as much as one tooth.", f.finding().Text)
	said := f.plain(t)
	require.Contains(t, said, "That agrees with 2 movements: flywheel on crank")
	require.Contains(t, said, "drive to inlet sprocket")
	require.Contains(t, said, "Which of the parts joined by or it was is not yet known")
	require.Contains(t, said, "Do not start the engine before the drive is looked at.")
	var named []string
	for _, n := range f.numbers() {
		named = append(named, legible.Undirected(n.What))
	}
	require.Contains(t, named, "Inlet flats", "before what is only close to its limit")
	require.NotContains(t, named, "Exhaust flats")
}

// A headline names what of cylinders is outside, and how many may be either is not left out.
func TestMarksAndCylinders(t *testing.T) {
	a := scene(t, "01-one-slip").Answer
	crown := mark.JudgedThrow{CrownVerdict: mark.Outside, Verdict: mark.TooClose}
	throw := mark.JudgedThrow{CrownVerdict: mark.Within, Verdict: mark.Outside}
	for _, c := range []struct {
		throws []mark.JudgedThrow
		says   string
		others string
	}{
		{[]mark.JudgedThrow{crown}, "3 things are outside their limits, piston heights among them.", "One other is too close to call."},
		{[]mark.JudgedThrow{throw}, "3 things are outside their limits, crank throws among them.", "within."},
		{[]mark.JudgedThrow{throw, crown, crown}, "5 things are outside their limits, throws and piston heights among them.", "2 others are too close to call."},
	} {
		a.Throws = append([]mark.JudgedThrow{{}}, c.throws...)
		for i := range a.Throws {
			a.Throws[i].Cylinder, a.Throws[i].Crown = i+1, &tdc.Estimated{Value: 0.2, Expanded: 0.1}
		}
		d, err := find.Page{Answer: a}.Front(nil)
		require.NoError(t, err)
		f := front{d, a}
		require.Equal(t, c.says, f.finding().Text)
		require.Contains(t, f.plain(t), c.others)
	}
}

// Nothing is turned against a pin or a stop that is still in: they come out before the two
// turns.
func TestPinsOutBeforeTheTurns(t *testing.T) {
	said := scene(t, "09-nothing-off").plain(t)
	out, turns := strings.Index(said, "Take out every pin, stop and gauge"), strings.Index(said, "Turn two full turns by hand")
	require.Positive(t, out)
	require.Less(t, out, turns, said)
}

// What was outside before and nobody measured again is named, and no sign says that all is well.
func TestNotMeasuredAgain(t *testing.T) {
	s := scenes.All()[11]
	require.True(t, s.Repair)
	dir, err := s.Write(t.TempDir())
	require.NoError(t, err)
	var jobs [2]job.Job
	for i, name := range []string{scenes.JobFile, scenes.AfterFile} {
		jobs[i], err = job.Open(filepath.Join(dir, name))
		require.NoError(t, err)
	}
	r, err := recheck.Of(jobs[0], jobs[1])
	require.NoError(t, err)
	r.Before.Throws = []mark.JudgedThrow{{Throw: tdc.Throw{Cylinder: 3}, CrownVerdict: mark.Outside}}
	d, err := r.Front()
	require.NoError(t, err)
	f := front{d, r.After}
	require.Equal(t, "Measured again, but not all that was outside its limit.", f.finding().Text)
	require.Equal(t, doc.Unjudged, f.finding().State)
	const left = "Outside before, and not measured again: cylinder 3's piston height."
	require.Contains(t, f.plain(t), left)
	said, err := form.Of(r).Text(form.Widest)
	require.NoError(t, err)
	require.Contains(t, strings.Join(strings.Fields(string(said)), " "), left)
}

// What is outside before and after is still outside, and the sheet says so.
func TestStillOutside(t *testing.T) {
	s := scenes.All()[0]
	dir, err := s.Write(t.TempDir())
	require.NoError(t, err)
	j, err := job.Open(filepath.Join(dir, scenes.JobFile))
	require.NoError(t, err)
	r, err := recheck.Of(j, j)
	require.NoError(t, err)
	d, err := r.Front()
	require.NoError(t, err)
	f := front{d, r.After}
	require.Equal(t, "Measured again: 2 marks are still outside their limits.", f.finding().Text)
	require.Contains(t, f.plain(t), "Unchanged: ")
}

// A repair's sheet has both states of each mark, the interval of each change, what is
// unchanged, and no TDC on the protractor, which was set up again.
func TestBeforeAndAfter(t *testing.T) {
	f := scene(t, "12-repaired")
	said := f.plain(t)
	require.Regexp(t, `Changed: locking pin hole, \d\.\d ± 0\.\d° earlier`, said)
	require.Contains(t, said, "Unchanged: ")
	require.Contains(t, said, "that slip is gone, to within")
	require.NotContains(t, said, "True top dead centre")
	for _, n := range f.numbers() {
		require.NotNil(t, n.Was, n.What)
	}
	require.Regexp(t, `^\d\.\d° late, outside$`, f.numbers()[0].Was.Says)
	require.Equal(t, doc.Outside, f.numbers()[0].Was.State)
}

// token is what a customer has no use for: names of files and of keys, places in them, what
// is typed, versions.
var token = regexp.MustCompile(`\.(csv|toml|html)\b|\b\w+_\w+\b|\bline \d|--\w|\[\w|\(devel\)|evendrop|chi-square|weight`)

// Who, when, on what and with which instruments stand on the sheet as they were written;
// what nobody wrote is left to be written by hand.
func TestRecord(t *testing.T) {
	dir := t.TempDir()
	s := scenes.All()[0]
	dir, err := s.Write(dir)
	require.NoError(t, err)
	file := filepath.Join(dir, scenes.JobFile)
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	written := strings.NewReplacer("[gauge]", "[gauge]\nnumber = \"12\"", "[protractor]", "[protractor]\nnumber = \"W7\"").Replace(string(raw))
	written += "\n[sheet]\nshop = \"Example Workshop\"\ncustomer = \"B. Example\"\nvehicle = \"Invented saloon\"\nodometer = \"123 000 km\"\norder = \"4711\"\nby = \"A. Example\"\ndate = 2031-03-12\n"
	require.NoError(t, os.WriteFile(file, []byte(written), 0o600))
	said := of(t, file).plain(t)
	for _, is := range []string{"Example Workshop", "Timing check: Invented saloon", "2031-03-12", "B. Example, order no. 4711", "123 000 km", "A. Example", "dial gauge", "no. 12", "no. W7"} {
		require.Contains(t, said, is)
	}
	unnumbered := strings.Replace(written, "order = \"4711\"\n", "", 1)
	require.NoError(t, os.WriteFile(file, []byte(unnumbered), 0o600))
	require.Contains(t, of(t, file).plain(t), "**Customer**: B. Example -")
	bare := scene(t, s.Name)
	for _, b := range bare.Document {
		if facts, is := b.(doc.Facts); is {
			require.Contains(t, facts, doc.Fact{What: "Measured by"})
		}
	}
}
