//go:build unix

package main

import (
	"bytes"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// writers are the commands that write files, run in a bystander: with the files
// that they make or change.
func writers() map[string]struct {
	args  []string
	files []string
} {
	edges := []string{"edges", "capture.csv", "--crank", "2", "--cam", "3", "--wheel", "60-2"}
	return map[string]struct{ args, files []string }{
		"page":    {[]string{"find", "job.toml", "--page", "p.html"}, []string{"p.html"}},
		"picture": {[]string{"find", "job.toml", "--picture", "p.svg"}, []string{"p.svg"}},
		"keep":    {[]string{"keep", "healthy-1.toml", "healthy-2.toml", "known.toml"}, []string{"known.toml"}},
		"replace": {[]string{"keep", "healthy-1.toml", "known-good.toml", "--replace"}, []string{"known-good.toml"}},
		"into":    {append(slices.Clone(edges), "--into", "job.toml"), []string{"job.toml"}},
		"traces":  {append(slices.Clone(edges), "--picture", "e.svg"), []string{"e.svg"}},
		"motion":  {[]string{"motion", "--stroke", "86", "--rod", "146", "--picture", "m.svg"}, []string{"m.svg"}},
		"begin":   {[]string{"begin", "new", "--yes"}, []string{"new/job.toml", "new/cylinder-1.csv"}},
		"chords":  {[]string{"motion", "--stroke", "86", "--rod", "146", "--chords", "c.svg"}, []string{"c.svg"}},
		"class": {[]string{"rehearse", "--class", "2", "monday", "--seed", "3"}, []string{"monday/01/job.toml", "monday/01/cylinder-1.csv",
			"monday/02/job.toml", "monday/02/cylinder-1.csv", "monday/worksheet.html", "monday/teacher-only/01.toml", "monday/teacher-only/02.toml",
			"monday/teacher-only/key.html"}},
		"rehearse": {[]string{"rehearse", "lesson", "--seed", "3"}, []string{"lesson/job.toml", "lesson/cylinder-1.csv", "lesson/answer.toml"}},
	}
}

// contents is every file below a folder.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		all[filepath.ToSlash(name)] = string(data)
		return err
	}))
	return all
}

// finished is what a command leaves when nothing goes wrong.
func finished(t *testing.T, args []string) map[string]string {
	t.Helper()
	dir := bystander(t)
	c := commandLine(args...)
	c.Dir = dir
	said, err := c.CombinedOutput()
	require.NoError(t, err, "%s", said)
	return contents(t, dir)
}

// requireWhole requires that each file of a command is as it was or as it should
// become, and that there is no other file.
func requireWhole(t *testing.T, was, became, now map[string]string) {
	t.Helper()
	for name, text := range now {
		before, there := was[name]
		after, made := became[name]
		require.True(t, there && text == before || made && text == after, "%s is neither old nor new", name)
	}
	for name := range was {
		require.Contains(t, now, name)
	}
}

// On a full disk each command fails in words, and leaves nothing behind.
func TestWritersOnAFullDisk(t *testing.T) {
	for name, w := range writers() {
		dir := bystander(t)
		was := contents(t, dir)
		c := limited(w.args...)
		c.Dir = dir
		var errs bytes.Buffer
		c.Stderr = &errs
		var exit *exec.ExitError
		require.ErrorAs(t, c.Run(), &exit, name)
		require.Equal(t, failed, exit.ExitCode(), "%s: %s", name, errs.String())
		require.Contains(t, errs.String(), "cannot be written: file too large", name)
		require.Equal(t, was, contents(t, dir), name)
		for _, made := range []string{"new", "monday", "lesson"} {
			require.NoDirExists(t, filepath.Join(dir, made), name)
		}
	}
}

// In a folder that may not be written each command fails in words.
func TestWritersMayNotWrite(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	for name, w := range writers() {
		base, err := os.MkdirTemp("", "evendrop") // t.TempDir's own folders are closed to others
		require.NoError(t, err)
		t.Cleanup(func() { os.RemoveAll(base) })
		dir, copied := filepath.Join(base, "bench"), filepath.Join(base, "evendrop")
		require.NoError(t, os.Chmod(base, 0o755))
		require.NoError(t, os.CopyFS(dir, os.DirFS(filepath.Dir(diagnostician))))
		require.NoError(t, exec.Command("cp", self, copied).Run())
		require.NoError(t, os.Chmod(dir, 0o555))
		was := contents(t, dir)
		c := commandLine(w.args...)
		c.Path, c.Dir = copied, dir
		var errs bytes.Buffer
		c.Stderr = &errs
		var exit *exec.ExitError
		require.ErrorAs(t, unprivileged(c).Run(), &exit, name)
		require.Contains(t, []int{failed, wrongUse}, exit.ExitCode(), "%s: %s", name, errs.String())
		require.Regexp(t, `may not be (written|made)|cannot be made`, errs.String(), name)
		require.Equal(t, was, contents(t, dir), name)
		require.NoError(t, os.Chmod(dir, 0o755))
	}
}

// Killed at any moment, a command leaves each of its files old or new. On Linux it
// leaves nothing else, but for the two system calls that put a file in another's
// place; elsewhere a file that was not whole may stand under a name with a dot.
func TestWritersKilled(t *testing.T) {
	const seed = 11
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	written, unwritten, left, n := 0, 0, 0, 0
	for _, name := range slices.Sorted(maps.Keys(writers())) {
		w := writers()[name]
		began := time.Now()
		became := finished(t, w.args)
		whole := time.Since(began) // so long it takes on this machine, as busy as it is
		for range kills(t) / 8 {
			dir := bystander(t)
			was := contents(t, dir)
			c := commandLine(w.args...)
			c.Dir = dir
			require.NoError(t, c.Start())
			early, late := []int{0, 0, 4}[n%3], []int{1, 8, 12}[n%3] // quarters of that: before it writes, at any moment, after
			n++
			time.Sleep(time.Duration(early)*whole/4 + time.Duration(rng.IntN((late-early)*int(whole)/4)))
			_ = c.Process.Kill()
			_ = c.Wait()
			now := contents(t, dir)
			for file := range now {
				if base := filepath.Base(file); strings.HasPrefix(base, ".") && strings.HasSuffix(base, ".tmp") {
					require.True(t, runtime.GOOS != "linux" || name == "replace" || name == "into", "%s: %s is left", name, file)
					delete(now, file)
					left++
				}
			}
			requireWhole(t, was, became, now)
			if now[w.files[0]] == became[w.files[0]] {
				written++
			} else {
				unwritten++
			}
		}
	}
	t.Logf("written %d times, not written %d times, %d files left", written, unwritten, left)
	require.Positive(t, written)
	require.Positive(t, unwritten)
}

// What reads the answer may stop: the command says so and fails. Readings that were
// typed are kept.
func TestClosedPipe(t *testing.T) {
	dir := bystander(t)
	for _, args := range [][]string{
		{"find", "job.toml"}, {"find", "job.toml", "--as", "json"}, {"plan", "job.toml"}, {"jot", "job.toml"}, {"cautions"}, {"help"}, {"halve", "348", "12"},
	} {
		c := commandLine(args...)
		c.Dir = dir
		c.Stdin = strings.NewReader("340 7.9\n")
		var errs bytes.Buffer
		c.Stderr = &errs
		read, write, err := os.Pipe()
		require.NoError(t, err)
		require.NoError(t, read.Close())
		c.Stdout = write
		err = c.Run()
		require.NoError(t, write.Close())
		var exit *exec.ExitError
		require.ErrorAs(t, err, &exit, args)
		require.Equal(t, failed, exit.ExitCode(), "%v: %s", args, errs.String())
		require.Contains(t, errs.String(), "the program reading it stopped", args)
	}
	data, err := os.ReadFile(filepath.Join(dir, "cylinder-1.csv"))
	require.NoError(t, err)
	require.Contains(t, string(data), "340,7.9")
}
