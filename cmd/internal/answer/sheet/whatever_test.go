package sheet_test

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job"
	"evendrop/tdc/job/jobtest"
	"evendrop/tdc/mark"
)

// Whatever the job, the sheet is one that a customer takes in: a dozen words, four numbers,
// each with its ± and its state in words, nothing of the workshop's; and it is never calm
// where something is outside, open, or weakened.
func TestWhateverTheJob(t *testing.T) {
	jobs, seed := 120, 190
	if testing.Short() {
		jobs = 30
	}
	t.Logf("jobs of seeds %d to %d", seed, seed+jobs-1)
	seen := map[doc.State]int{}
	for n := range jobs {
		dir := t.TempDir()
		drawn := jobtest.Jobs().Example(seed + n)
		require.NoError(t, drawn.Write(dir))
		j, err := job.Open(filepath.Join(dir, jobtest.JobFile))
		require.NoError(t, err)
		a, err := find.Of(j)
		if err != nil {
			continue // the job says nothing of TDC
		}
		d, err := find.Page{Answer: a}.Front(nil)
		require.NoError(t, err)
		f := front{d, a}
		h := f.finding()
		seen[h.State]++
		require.LessOrEqual(t, len(strings.Fields(h.Text)), 12, "%d: %s", seed+n, h.Text)
		require.NotRegexp(t, token, f.plain(t), "seed %d", seed+n)
		calm(t, f, seed+n)
		oneAnswer(t, f, seed+n)
		require.LessOrEqual(t, len(f.numbers()), 4)
		for _, number := range f.numbers() {
			require.NotEmpty(t, number.Word, "seed %d: %s", seed+n, number.What)
			require.NotEmpty(t, number.Half, "seed %d: %s", seed+n, number.What)
		}
	}
	require.Len(t, seen, 4, "every state: %v", seen)
}

// oneAnswer tells that a sheet blames a part only where a single explanation of one joint a
// slip is likely, and counts teeth only where the interval holds them.
func oneAnswer(t *testing.T, f front, seed int) {
	t.Helper()
	likely, _, _ := f.Diagnosis.Ranked()
	blames := strings.Contains(f.finding().Text, "appear")
	for _, n := range f.numbers() {
		blames = blames || n.Likely
		require.LessOrEqual(t, utf8.RuneCountInString(legible.Undirected(n.What)), 40, "seed %d", seed)
		for _, note := range n.Notes {
			if count := teeth(note); count > 0 {
				value, err := strconv.ParseFloat(n.Value, 64)
				require.NoError(t, err)
				half, err := strconv.ParseFloat(strings.TrimSuffix(n.Half, "°"), 64)
				require.NoError(t, err)
				const rounding = 0.11 // of both, to a tenth at worst where a tooth is told
				require.InDelta(t, count*360/float64(f.Job.Drive.CrankSprocket), value, half+rounding, "seed %d: %s", seed, note)
			}
		}
	}
	if blames {
		require.Len(t, likely, 1, "seed %d: %s", seed, f.finding().Text)
		for _, slip := range likely[0].Slips {
			require.Len(t, slip.Joints, 1, "seed %d: %s", seed, f.finding().Text)
		}
	}
}

// teeth is how many a note counts; 0 of another note.
func teeth(note string) float64 {
	text, is := strings.CutPrefix(note, "as much as ")
	if !is {
		return 0
	}
	if text == "one tooth" {
		return 1
	}
	n, _ := strconv.Atoi(strings.Fields(text)[0])
	return float64(n)
}

// calm tells that a sheet is so only where it may be.
func calm(t *testing.T, f front, seed int) {
	t.Helper()
	fine := f.Results[0].CannotTell == nil && len(f.Called(mark.Outside))+len(f.Called(mark.TooClose))+len(f.Again) == 0 && f.Diagnosis.Tried == 0
	for _, throw := range f.Throws {
		fine = fine && !throw.Verdict.Open() && !throw.CrownVerdict.Open()
	}
	if f.finding().State == doc.Within {
		require.True(t, fine, "seed %d", seed)
	}
	warned := 0
	for _, r := range f.Results {
		warned += len(f.Warnings(r))
	}
	if warned > 0 {
		require.Contains(t, f.plain(t), "Before you rely on this, read the ", "seed %d", seed)
	}
}
