//go:build unix

package main

import (
	"bytes"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/rehearse"
)

// inFolderOf runs a command as another process in a folder, for so long at most; -1 is
// one that had to be ended.
func inFolderOf(t *testing.T, dir string, most time.Duration, c *exec.Cmd) (code int, stdout, stderr string) {
	t.Helper()
	c.Dir = dir
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	c.WaitDelay = time.Second
	require.NoError(t, c.Start())
	late := time.AfterFunc(most, func() { _ = c.Process.Kill() })
	defer late.Stop()
	_ = c.Wait()
	return c.ProcessState.ExitCode(), out.String(), errs.String()
}

// failing are command lines that write more than one thing and fail at one of them,
// whichever: nothing is written, nothing changed, and no answer stands alone.
func failing() [][]string {
	edges := []string{"edges", "capture.csv", "--crank", "2", "--cam", "3", "--wheel", "60-2"}
	with := func(more ...string) []string { return append(slices.Clone(edges), more...) }
	return [][]string{
		{"find", "job.toml", "--page", "p.html", "--picture", "nodir/x.svg"},
		{"find", "job.toml", "--page", "nodir/p.html", "--picture", "x.svg"},
		{"find", "job.toml", "--page", "p.html", "--picture", "README.md/x.svg"},
		{"find", "job.toml", "--page", "p.html", "--picture", strings.Repeat("n", 256) + ".svg"},
		{"find", "job.toml", "--page", "there.html", "--picture", strings.Repeat("n", 256) + ".svg", "--replace"},
		{"find", "job.toml", "--page", "there.html", "--picture", "folder.svg", "--replace"},
		with("--into", "job.toml", "--picture", "nodir/x.svg"),
		with("--into", "job.toml", "--picture", strings.Repeat("n", 256)+".svg"),
		with("--into", "nodir/job.toml", "--picture", "x.svg"),
		with("--into", "cylinder-1.csv", "--picture", "x.svg"),
		with("--into", "known-good.toml", "--picture", "x.svg"),
		with("--into", "job.toml", "--picture", "there.svg"),
		with("--into", "job.toml", "--on", "no such member", "--picture", "there.svg", "--replace"),
		{"keep", "healthy-1.toml", "healthy-2.toml", "nodir/known.toml"},
		{"motion", "--stroke", "86", "--rod", "146", "--picture", "nodir/m.svg"},
		{"rehearse", "lesson", "--answer", "nodir/answer.toml"},
		{"rehearse", "lesson", "--answer", "there.svg"},
		{"rehearse", ".", "--replace"},
		{"rehearse", "--class", "2", "monday", "--answer", "monday/01"},
		{"motion", "--stroke", "86", "--rod", "146", "--picture", "x.svg", "--chords", "nodir/m.svg"},
		{"rehearse", "lesson", "--answer", "job.toml", "--replace"},
		{"begin", "."},
		{"begin", "there.svg"},
	}
}

func TestAllOrNothing(t *testing.T) {
	for _, args := range failing() {
		dir := bystander(t)
		require.NoError(t, os.WriteFile(filepath.Join(dir, "there.svg"), []byte("mine"), 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "there.html"), []byte("mine"), 0o600))
		require.NoError(t, os.Mkdir(filepath.Join(dir, "folder.svg"), 0o700))
		was := contents(t, dir)
		code, _, errs := inFolderOf(t, dir, time.Minute, commandLine(args...))
		require.NotEqual(t, answered, code, args)
		require.NotEmpty(t, errs, args)
		require.Equal(t, was, contents(t, dir), args)
	}
}

// With no place to give the answer to, no file is written either.
func TestClosedOutput(t *testing.T) {
	commands := [][]string{{"help"}, {"version"}, {}, {"cautions"}, {"plan", "job.toml"}, {"halve", "348.6", "11.8"}, {"convert", "2.5", "cam"},
		{"recheck", "job.toml", "job.toml"}, {"find", "job.toml"}, {"jot", "job.toml"}, {"motion", "--stroke", "86", "--rod", "146"}}
	for _, w := range writers() {
		commands = append(commands, w.args)
	}
	for _, args := range commands {
		for _, where := range []string{">&-", ">/dev/full"} {
			if _, err := os.Stat("/dev/full"); err != nil && where == ">/dev/full" {
				continue
			}
			dir := bystander(t)
			was := contents(t, dir)
			c := commandLine(args...)
			c.Args[0] = c.Path
			shell := exec.Command("/bin/sh", append([]string{"-c", `exec "$@" ` + where, "sh"}, c.Args...)...)
			shell.Env = c.Env
			code, _, errs := inFolderOf(t, dir, time.Minute, shell)
			require.Equal(t, failed, code, "%s: %v: %s", where, args, errs)
			require.Contains(t, errs, "the answer could not be written", args)
			require.Equal(t, was, contents(t, dir), "%s: %v", where, args)
		}
	}
	// who wants no answer gets none, and that is no failure
	for _, where := range []string{">/dev/null", "<>/dev/null >&0 2>&0", ">/dev/null 2>&1"} {
		c := commandLine("halve", "348.6", "11.8")
		shell := exec.Command("/bin/sh", "-c", `exec "$@" `+where, "sh", c.Path, "halve", "348.6", "11.8")
		shell.Env = c.Env
		code, _, errs := inFolderOf(t, t.TempDir(), time.Minute, shell)
		require.Equal(t, answered, code, "%s: %s", where, errs)
	}
}

// What is no plain file is refused at once wherever a file is read, in the same words.
func TestNoPlainFile(t *testing.T) {
	edges := func(file string, more ...string) []string {
		return append([]string{"edges", file, "--crank", "2", "--cam", "3", "--wheel", "60-2"}, more...)
	}
	const it = "IT"
	roads := map[string][]string{
		"job":               {"find", it},
		"plan's job":        {"plan", it},
		"jot's job":         {"jot", it},
		"readings":          {"find", "--readings", it},
		"known-good":        {"find", "job.toml", "--against", it},
		"keep's job":        {"keep", it, "new.toml"},
		"keep's second job": {"keep", "healthy-1.toml", it, "new.toml"},
		"keep's file":       {"keep", "healthy-1.toml", it, "--replace"},
		"before":            {"recheck", it, "job.toml"},
		"after":             {"recheck", "job.toml", it},
		"capture":           edges(it),
		"earlier capture":   edges("capture.csv", "--against", it),
		"earlier edges":     edges("capture.csv", "--against", it+".toml"),
		"into":              edges("capture.csv", "--into", it),
		"answer":            {"rehearse", "--check", "lesson", "--tdc", "3", "--answer", it},
		"old answer":        {"rehearse", "lesson", "--answer", it, "--replace"},
		"job's readings":    {"find", "names-it.toml"},
		"jot's readings":    {"jot", "names-it.toml"},
		"plan's readings":   {"plan", "names-it.toml"},
		"trusted readings":  {"find", "names-it.toml", "--trust-paths"},
		"job's stops":       {"find", "names-stops.toml"},
	}
	kinds := map[string]struct {
		make func(path string) error
		says string
	}{
		"pipe":   {func(path string) error { return syscall.Mkfifo(path, 0o600) }, "is a pipe, not a plain file"},
		"folder": {func(path string) error { return os.Mkdir(path, 0o700) }, "is a folder"},
		"socket": {func(path string) error {
			l, err := net.ListenUnix("unix", &net.UnixAddr{Name: path, Net: "unix"})
			if err == nil {
				l.SetUnlinkOnClose(false)
				l.Close()
			}
			return err
		}, "is a socket, not a plain file"},
		"device": {func(path string) error { return os.Symlink(os.DevNull, path) }, "is a device, not a plain file"},
		"link to pipe": {func(path string) error {
			if err := syscall.Mkfifo(path+".pipe", 0o600); err != nil {
				return err
			}
			return os.Symlink(path+".pipe", path)
		}, "is a pipe, not a plain file"},
	}
	for kind, k := range kinds {
		t.Run(kind, func(t *testing.T) {
			dir := bystander(t)
			t.Chdir(dir) // a socket's name must be short
			for _, name := range []string{it, it + ".toml"} {
				require.NoError(t, k.make(name))
			}
			require.NoError(t, os.WriteFile("names-it.toml", []byte("[[cylinder]]\nnumber = 1\nreadings = \""+it+"\"\n"), 0o600))
			require.NoError(t, os.WriteFile("names-stops.toml", []byte("[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\nstops = \""+it+"\"\n"), 0o600))
			for road, args := range roads {
				code, out, errs := inFolderOf(t, dir, 20*time.Second, commandLine(args...))
				require.Equal(t, failed, code, "%s: %s", road, errs)
				require.Empty(t, out, road)
				says := k.says
				switch {
				case road == "keep's file":
					says = "already exists and is not a known-good file"
				case kind == "device" && slices.Contains([]string{"job's readings", "jot's readings", "plan's readings", "job's stops"}, road):
					says = "leaves the job's folder" // the null device is outside
				}
				require.Contains(t, errs, says, road)
			}
		})
	}
}

// A begin that was killed before its second file does not stand in its own way.
func TestBeginAgainAfterAKill(t *testing.T) {
	jobFile, readings := newJob(t)
	dir := filepath.Dir(jobFile)
	whole := contents(t, dir)
	require.NoError(t, os.Remove(jobFile))
	code, _, errs := inFolderOf(t, t.TempDir(), time.Minute, commandLine("begin", dir, "--stroke", "81.4", "--rod", "133", "--yes"))
	require.Equal(t, answered, code, errs)
	require.Equal(t, whole, contents(t, dir))
	// with a reading in it, it is somebody's
	require.NoError(t, os.Remove(jobFile))
	require.NoError(t, os.WriteFile(readings, []byte(whole["cylinder-1.csv"]+"340,4,,,\n"), 0o600))
	code, _, errs = inFolderOf(t, t.TempDir(), time.Minute, commandLine("begin", dir, "--yes"))
	require.Equal(t, failed, code)
	require.Contains(t, errs, "overwrites nothing")
}

// rehearse --replace overwrites what rehearse made, and no real job.
func TestRehearseSparesRealJobs(t *testing.T) {
	dir := t.TempDir()
	in := func(args ...string) (int, string) {
		code, _, errs := inFolderOf(t, dir, time.Minute, commandLine(append([]string{"rehearse", "lesson"}, args...)...))
		return code, errs
	}
	code, errs := in("--seed", "1")
	require.Equal(t, answered, code, errs)
	code, errs = in("--seed", "2", "--replace")
	require.Equal(t, answered, code, errs)
	ours := contents(t, dir)
	for _, c := range [][2]string{{"job.toml", "# mine\n"}, {"cylinder-1.csv", "# mine\n"}, {"answer.toml", "# mine\n"},
		{"answer.toml", rehearse.PracticeAnswer + "mine = 1\n"}, {"job.toml", ""}} {
		name, path := c[0], filepath.Join(dir, "lesson", c[0])
		require.NoError(t, os.WriteFile(path, []byte(c[1]), 0o600))
		was := contents(t, dir)
		code, errs = in("--seed", "3", "--replace")
		require.Equal(t, failed, code)
		require.Contains(t, errs, name+": was not written by evendrop rehearse, so it was left as it is")
		require.Equal(t, was, contents(t, dir))
		require.NoError(t, os.WriteFile(path, []byte(ours["lesson/"+name]), 0o600))
	}
	// killed between the files it can be done again
	require.NoError(t, os.Remove(filepath.Join(dir, "lesson", "answer.toml")))
	code, errs = in("--seed", "3", "--replace")
	require.Equal(t, answered, code, errs)
}

// Killed at any moment, rehearse --replace leaves old readings with the old answer, new
// ones with the new, or no answer.
func TestRehearseKilled(t *testing.T) {
	old, dir := t.TempDir(), t.TempDir()
	for seed, in := range map[string]string{"1": old, "2": dir} {
		code, _, errs := inFolderOf(t, in, time.Minute, commandLine("rehearse", "lesson", "--seed", seed))
		require.Equal(t, answered, code, errs)
	}
	before, after := contents(t, old), contents(t, dir)
	without, done := 0, 0
	for i := range kills(t) * 3 {
		bench := t.TempDir()
		require.NoError(t, os.CopyFS(bench, os.DirFS(old)))
		c := commandLine("rehearse", "lesson", "--seed", "2", "--replace")
		c.Dir = bench
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(i%24) * 2 * time.Millisecond)
		_ = c.Process.Kill()
		_ = c.Wait()
		now := contents(t, bench)
		answer, there := now["lesson/answer.toml"]
		switch {
		case !there:
			without++
		case answer == before["lesson/answer.toml"]:
			require.Equal(t, before["lesson/cylinder-1.csv"], now["lesson/cylinder-1.csv"])
			require.Equal(t, before["lesson/job.toml"], now["lesson/job.toml"])
		default:
			require.Equal(t, after["lesson/answer.toml"], answer)
			require.Equal(t, after["lesson/cylinder-1.csv"], now["lesson/cylinder-1.csv"])
			require.Equal(t, after["lesson/job.toml"], now["lesson/job.toml"])
			done++
		}
		code, _, errs := inFolderOf(t, bench, time.Minute, commandLine("rehearse", "lesson", "--seed", "2", "--replace"))
		require.Equal(t, answered, code, errs)
	}
	t.Logf("killed %d times: %d without an answer, %d done", kills(t)*3, without, done)
}

// A picture is an SVG by its name too, whichever command draws it.
func TestPictureNames(t *testing.T) {
	for _, args := range [][]string{
		{"find", "job.toml"}, {"motion", "--stroke", "86", "--rod", "146"}, {"edges", "capture.csv", "--crank", "2", "--cam", "3", "--wheel", "60-2"},
	} {
		dir := bystander(t)
		code, _, errs := inFolderOf(t, dir, time.Minute, commandLine(append(args, "--picture", "x.png")...))
		require.Equal(t, wrongUse, code, args)
		require.Contains(t, errs, "--picture x.png: pictures are SVG: name it x.svg")
		require.NoFileExists(t, filepath.Join(dir, "x.png"))
	}
}
