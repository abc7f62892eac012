package session_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/job"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/record/recordtest"
	"evendrop/tdc/plan"
)

// Whatever is typed, the job file stays a job, nothing of what it said before is lost, and
// the sitting goes on.
func FuzzTyped(f *testing.F) {
	f.Add("340 4.1\n346 2.9\n12 3.0\nmark pin; flywheel; 6.5; 0; 1\nundo\nredo\nlook\ndone")
	f.Add("stop -31.5 41.5\nb\ndwell 12 -2\nundo\nset 2\nview 351 2\ncylinder 3 240\n1 2\nundo\nundo")
	f.Add("lift inlet 1: 8 1.04\n12 1.3\ncard inlet: 12 BTDC 48 ABDC at 1\nlist\nundo\nundo\npiston\nfix 1 3 4\nstrike 1")
	f.Add("mark\npin \"\\\u202e'; [[mark]]\nflywheel\noff 4.1 mm chord 21\n\n\n\nmark a on inlet cam off 1 tooth against crank sprocket\n\n\n\n\n")
	f.Add("sheet customer J. \u202eS; by K\nsheet\na\n\n\n\n1\n\nphoto pin.jpg the pin\nundo\nredo\nsheet by none\nundo\nundo\nundo\nphoto \"\\\nsheet shop \\\"'")
	f.Fuzz(func(t *testing.T, text string) {
		if strings.Count(text, "\n") > 30 || len(text) > 2000 {
			return
		}
		file := filepath.Join(t.TempDir(), "job.toml")
		require.NoError(t, os.WriteFile(file, []byte(engine), 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "pin.jpg"), recordtest.JPEG(2, 1), 0o600))
		j, err := job.OpenBlank(file)
		require.NoError(t, err)
		d := &drawer{notebook.Files{File: file, Unit: j.Unit, Setup: j.Setup}}
		defer d.Close()
		s := &session.Session{Job: j, Files: d, Ground: plan.Ground{Deepest: 8}, Width: 60, Patient: len(text)%2 == 0}
		_, err = s.Open()
		require.NoError(t, err)
		for line := range strings.Lines(text) {
			_, ended, err := s.Obey(strings.TrimSuffix(line, "\n"))
			if ended || err != nil {
				break
			}
		}
		_, err = s.End()
		require.NoError(t, err)
		if _, err = job.OpenBlank(file); err != nil {
			data, _ := os.ReadFile(file)
			t.Fatalf("%v\n%s", err, data)
		}
		require.Contains(t, fileOf(t, file), "[engine]\nstroke = 86\nrod = 146\n")
		require.Contains(t, fileOf(t, file), "# the end\n")
	})
}

// Lines drawn from all that can be typed, whole, cut short and mixed up: FuzzTyped's
// property holds of every sitting, and what the last one keeps the next one reads.
func TestAnyLines(t *testing.T) {
	const seed, sittings = 31, 60
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	pieces := []string{"340 4.1", "12 3.0", "20.5 5", "mark", "mark pin; flywheel; 6.5; 0; 1", "mark pin", "on", "flywheel", "read", "6.5", "limit", "1",
		"mark flats; inlet cam; off 4.1 mm chord 21", "off", "1 tooth late", "", "stop -31.5 41.5", "dwell 12 -2", "view 351.9 18.1", "lift inlet 1: 8 1.04",
		"12 1.3", "card inlet: 12 BTDC 48 ABDC at 1.2", "card inlet 108 ATDC", "piston", "cylinder 3 240", "cylinder 1", "cylinder 2", "180", "set 2", "set 1",
		"undo", "undo", "redo", "fix 1 340 4.2", "strike 1", "k", "m", "look", "list", "plot", "next", "b", "f", "# a \"note\"", "cancel", "\u202e; ' \"", "lobe exhaust 1", "999999 1e9",
		"sheet", "sheet customer J. \"S\"; by K", "sheet by none", "sheet order", "none", "photo pin.jpg the \"pin\" # 1", "photo pin.jpg", "photo job.toml"}
	for range sittings {
		file := filepath.Join(t.TempDir(), "job.toml")
		require.NoError(t, os.WriteFile(file, []byte(engine), 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "pin.jpg"), recordtest.JPEG(2, 1), 0o600))
		for range 2 {
			j, err := job.OpenBlank(file)
			require.NoError(t, err)
			d := &drawer{notebook.Files{File: file, Unit: j.Unit, Setup: j.Setup}}
			s := &session.Session{Job: j, Files: d, Ground: plan.Ground{Deepest: 8}, Width: 60, Patient: rng.IntN(2) == 0}
			_, err = s.Open()
			require.NoError(t, err)
			var typed []string
			for range 14 {
				line := pieces[rng.IntN(len(pieces))]
				if rng.IntN(5) == 0 {
					line += " " + pieces[rng.IntN(len(pieces))]
				}
				typed = append(typed, line)
				if _, ended, err := s.Obey(line); ended || err != nil {
					break
				}
			}
			_, err = s.End()
			require.NoError(t, err, "%q", typed)
			d.Close()
			_, err = job.OpenBlank(file)
			require.NoError(t, err, "%q\n%s", typed, fileOf(t, file))
			require.Contains(t, fileOf(t, file), "[engine]\nstroke = 86\nrod = 146\n")
			require.Contains(t, fileOf(t, file), "# the end\n")
		}
	}
}
