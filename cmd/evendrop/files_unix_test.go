//go:build unix

package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A folder from somebody else holds links in the places of jot's own files: nothing
// they lead to is written.
func TestFolderFullOfLinks(t *testing.T) {
	for _, link := range []func(string, string) error{os.Symlink, os.Link} {
		jobFile, readings := newJob(t)
		mine := filepath.Join(t.TempDir(), "mine")
		require.NoError(t, os.WriteFile(mine, []byte("precious\n"), 0o600))
		require.NoError(t, link(mine, filepath.Join(filepath.Dir(readings), ".cylinder-1.csv.lock")))
		_, errs, err := jotting(t, jobFile, "340 4.1", "undo", "341 3")
		require.NoError(t, err, errs)
		data, err := os.ReadFile(mine)
		require.NoError(t, err)
		require.Equal(t, "precious\n", string(data))
	}
}

// The file is swapped for a link to one outside, again and again, while readings are
// typed: none goes there, and each that was answered is in the file.
func TestSwappedForALink(t *testing.T) {
	answers, refused := 0, 0
	for range kills(t) / 2 {
		jobFile, readings := newJob(t)
		outside := filepath.Join(t.TempDir(), "outside.csv")
		const text = "angle,depth,turn,sweep,note\n1,1,forward,,\n"
		require.NoError(t, os.WriteFile(outside, []byte(text), 0o600))
		s := sit(t, jobFile)
		require.True(t, s.types("338 5"))
		stop, real := make(chan bool), readings+".real"
		var swapping sync.WaitGroup
		swapping.Go(func() {
			for {
				select {
				case <-stop:
					return
				case <-time.After(7 * time.Millisecond):
				}
				if os.Rename(readings, real) == nil {
					_ = os.Symlink(outside, readings)
					time.Sleep(time.Millisecond)
					_ = os.Rename(real, readings)
				}
			}
		})
		var kept []string
		for i := range 20 {
			line := fmt.Sprintf("%d.5 %d.%02d", 340+i, i%9, i)
			if i%4 == 3 {
				s.types("undo")
				continue
			}
			if !s.types(line) {
				refused++
				break
			}
			answers++
			kept = append(kept, strings.Replace(line, " ", ",", 1))
		}
		close(stop)
		swapping.Wait()
		_, errs := s.ends(t)
		data, err := os.ReadFile(outside)
		require.NoError(t, err)
		require.Equal(t, text, string(data), errs)
		data, err = os.ReadFile(readings)
		require.NoError(t, err)
		for _, row := range kept {
			require.Contains(t, string(data), row, errs)
		}
	}
	t.Logf("%d readings answered, %d sittings ended by a link", answers, refused)
	require.Positive(t, answers)
}

// A link that is put in the file's place and stays is refused in words.
func TestLinkInItsPlace(t *testing.T) {
	jobFile, readings := newJob(t)
	outside := filepath.Join(t.TempDir(), "outside.csv")
	require.NoError(t, os.WriteFile(outside, []byte("angle,depth\n"), 0o600))
	s := sit(t, jobFile)
	require.True(t, s.types("338 5"))
	require.NoError(t, os.Remove(readings))
	require.NoError(t, os.Symlink(outside, readings))
	require.False(t, s.types("339 4"))
	code, errs := s.ends(t)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "cylinder-1.csv: is a link: name the file itself")
	data, err := os.ReadFile(outside)
	require.NoError(t, err)
	require.Equal(t, "angle,depth\n", string(data))
}

// A second job that names the same readings by another name, a link of either kind,
// has the same lock.
func TestTwoJotsByAnotherName(t *testing.T) {
	for name, link := range map[string]func(string, string) error{"symlink": os.Symlink, "hard link": os.Link} {
		jobFile, readings := newJob(t)
		s := sit(t, jobFile)
		require.True(t, s.types("340 4.1"))
		dir := filepath.Dir(readings)
		require.NoError(t, link(readings, filepath.Join(dir, "other.csv")))
		if name == "symlink" {
			require.NoError(t, os.Remove(filepath.Join(dir, "other.csv")))
			require.NoError(t, link("cylinder-1.csv", filepath.Join(dir, "other.csv")))
		}
		other := filepath.Join(dir, "other.toml")
		require.NoError(t, os.WriteFile(other, []byte("[[cylinder]]\nnumber = 1\nreadings = \"other.csv\"\n"), 0o600))
		code, out, errs := ev("jot", other)
		require.Equal(t, failed, code, "%s: %s", name, out)
		require.Contains(t, errs, "is writing it: end that one first", name)
		code, errs = s.ends(t)
		require.Equal(t, answered, code, errs)
		_, errs, err := jotting(t, other, "341 4")
		require.NoError(t, err, errs)
		data, err := os.ReadFile(readings)
		require.NoError(t, err)
		require.Contains(t, string(data), "340,4.1,forward,,\n341,4,forward,,\n")
	}
}

// A write-protected file stays as it is, whoever owns its folder.
func TestWriteProtected(t *testing.T) {
	jobFile, readings := newJob(t)
	const text = "angle,depth\n340,4\n341,3\n"
	require.NoError(t, os.WriteFile(readings, []byte(text), 0o600))
	require.NoError(t, os.Chmod(readings, 0o444))
	for _, line := range []string{"undo", "342 2", "b 342 2", "# x"} {
		_, _, err := jotting(t, jobFile, line)
		require.ErrorContains(t, err, "cylinder-1.csv: may not be written: check who may write it", line)
		data, err := os.ReadFile(readings)
		require.NoError(t, err)
		require.Equal(t, text, string(data), line)
	}
	dir := bystander(t)
	for _, args := range [][]string{
		{"keep", "healthy-1.toml", "known-good.toml", "--replace"},
		{"edges", "capture.csv", "--crank", "2", "--cam", "3", "--wheel", "60-2", "--into", "job.toml"},
	} {
		path := filepath.Join(dir, args[len(args)-1])
		if args[0] == "keep" {
			path = filepath.Join(dir, "known-good.toml")
		}
		before, err := os.ReadFile(path)
		require.NoError(t, err)
		require.NoError(t, os.Chmod(path, 0o444))
		c := commandLine(args...)
		c.Dir = dir
		out, err := c.CombinedOutput()
		require.Error(t, err, args)
		require.Contains(t, string(out), "may not be written, so it was left as it is")
		after, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(before), string(after))
	}
}

// A pipe of lines that is stopped fails, says where, and has kept what was answered.
func TestStoppedPipe(t *testing.T) {
	for _, signal := range []os.Signal{syscall.SIGTERM, os.Interrupt, syscall.SIGHUP} {
		jobFile, readings := newJob(t)
		s := sit(t, jobFile)
		require.True(t, s.types("340 4.1"))
		require.True(t, s.types("341 3.9"))
		require.NoError(t, s.Process.Signal(signal))
		_, err := io.Copy(io.Discard, s.out)
		require.NoError(t, err)
		code, errs := s.ends(t)
		require.Equal(t, failed, code, "%v: %s", signal, errs)
		require.Contains(t, errs, fmt.Sprintf("Stopped (%v) after line 2: no line below it was read. Every reading that was answered is in", signal))
		data, err := os.ReadFile(readings)
		require.NoError(t, err)
		require.Contains(t, string(data), "340,4.1,forward,,\n341,3.9,forward,,\n")
	}
}
