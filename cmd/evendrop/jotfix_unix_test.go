//go:build unix

package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// A sitting with corrections: what no longer counts stays beside as a comment, and the rows
// and comments of others stay as they are.
func TestJotCorrects(t *testing.T) {
	jobFile, readings := newJob(t)
	const before = "angle,depth,turn,note\r\n338.4,9.96,,mine\r\n# between\n347.4,70.8,,\r\n18.4,6.78,,\r\n"
	require.NoError(t, os.WriteFile(readings, []byte(before), 0o600))
	out, errs, err := jotting(t, jobFile, "fix 2 347.4 7.08", "strike 3", "fix 1 b 338.5 9.95", "undo", "undo", "redo", "done")
	require.NoError(t, err, errs)
	require.Contains(t, errs, "Going on turning forward, as in the last reading")
	flat := unwrapped(out)
	require.Contains(t, flat, "Reading 2 was 347.4 70.8, turned forward.")
	require.Contains(t, flat, "Struck: reading 3, 18.4 6.78, turned forward. It stays as a comment.")
	require.Contains(t, flat, "Undone: fix 1, of 338.4 9.96, turned forward.")
	require.Contains(t, flat, "Done again: strike 3, 18.4 6.78, turned forward.")
	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Equal(t, "angle,depth,turn,note\r\n338.4,9.96,,mine\r\n# undone: 338.5,9.95,backward,mine\r\n# between\n"+
		"# replaced by the row below: 347.4,70.8,,\r\n347.4,7.08,,\r\n# struck: 18.4,6.78,,\r\n", string(text))
}

// Killed while readings are fixed and struck: the file holds what it held before the last
// line that was typed, or after it.
func TestKilledWhileCorrecting(t *testing.T) {
	const seed = 11
	rng := rand.New(rand.NewPCG(seed, 1))
	t.Logf("seed %d", seed)
	answered := regexp.MustCompile(`(?m)^ *(Reading \d|Struck|Undone)`)
	midway := 0
	for range kills(t) {
		jobFile, readings := newJob(t)
		var text strings.Builder
		text.WriteString("angle,depth\n")
		for i := range 24 {
			text.WriteString(rowOf(typedReading(-30+2.5*float64(i), "f")) + "\n")
		}
		require.NoError(t, os.WriteFile(readings, []byte(text.String()), 0o600))
		first, counts := []string{strings.Fields(typedReading(-30, "f"))[2]}, []int{24}
		var lines []string
		for i := range 20 {
			depth := fmt.Sprintf("9.9%02d", i)
			lines = append(lines, "fix 1 333.4 "+depth, "strike 24", "undo")
			first = append(first, depth, depth, depth)
			counts = append(counts, 24, 23, 24)
		}
		c := commandLine("jot", jobFile)
		c.Stdin = strings.NewReader(strings.Join(lines, "\n") + "\n")
		var out bytes.Buffer
		c.Stdout = &out
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(rng.IntN(int(400 * time.Millisecond))))
		_ = c.Process.Kill() // it may have ended already
		_ = c.Wait()

		done := len(answered.FindAllString(out.String(), -1))
		if done > 0 && done < len(lines) {
			midway++
		}
		kept, err := job.OpenReadings(readings, bench(), "mm")
		require.NoError(t, err)
		now := []string{fmt.Sprintf("%.3f", float64(kept[0].Depth)), fmt.Sprint(len(kept))}
		after := min(done+1, len(lines))
		require.Contains(t, [][]string{{first[done], fmt.Sprint(counts[done])}, {first[after], fmt.Sprint(counts[after])}}, now)
	}
	t.Logf("killed between the first answer and the last %d times", midway)
	require.Positive(t, midway)
}

// An editor saves the file again and again while readings are typed, fixed and struck: no
// edit of its is lost, and what was answered is in the file, or was said to be gone.
func TestEditorSavesWhileCorrecting(t *testing.T) {
	for _, c := range []struct {
		name string
		save func(path string) func([]byte) error
	}{
		{"in place", func(path string) func([]byte) error { return inPlace(path, 0) }},
		{"by renaming", byRename},
	} {
		t.Run(c.name, func(t *testing.T) {
			saves, lost, fixed := 0, 0, 0
			for range kills(t) {
				jobFile, readings := newJob(t)
				row := rowOf(typedReading(-30, "f"))
				require.NoError(t, os.WriteFile(readings, []byte("angle,depth,note\n"+row+",edit 0\n# a comment\n"), 0o600))
				s := sit(t, jobFile)
				e := edit(readings, 3*time.Millisecond, 0, c.save(readings))
				var kept []string
				for i := range 8 {
					line := typedReading(-28+7*float64(i), "f")
					right := strings.TrimSpace(line) + "1"
					if !s.types(line) || !s.types(fmt.Sprintf("fix %d %s", i+2, right[2:])) {
						break
					}
					kept, fixed = append(kept, right), fixed+1
				}
				e.ends()
				_, errs := s.ends(t)
				text, err := os.ReadFile(readings)
				require.NoError(t, err)
				if firstNote.FindString(string(text)) != e.note {
					e.lost++
				}
				saves, lost = saves+e.saves, lost+e.lost
				require.Contains(t, string(text), "\n# a comment\n")
				for _, line := range kept {
					if !strings.Contains(string(text), "\n"+rowOf(line)) {
						require.Regexp(t, "no longer in it|another program changed that row", errs, "%s\n%s", line, text)
					}
				}
			}
			t.Logf("%d saves, %d of them lost; %d readings fixed", saves, lost, fixed)
			require.Zero(t, lost)
			require.Positive(t, saves)
			require.Positive(t, fixed)
		})
	}
}
