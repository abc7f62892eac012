//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// limited is the command as another process that may write files of 512 bytes at
// most: what a full disk does, half a line and all.
func limited(args ...string) *exec.Cmd {
	c := commandLine(args...)
	quoted := make([]string, len(c.Args))
	for i, arg := range c.Args {
		quoted[i] = "'" + arg + "'"
	}
	quoted[0] = "'" + c.Path + "'"
	shell := exec.Command("/bin/sh", "-c", "ulimit -f 1; exec "+strings.Join(quoted, " "))
	shell.Env = c.Env
	return shell
}

// A disk that fills up: the reading that did not fit is refused in words and was
// not answered, those before it are all there, and the file parses.
func TestFullDisk(t *testing.T) {
	jobFile, readings := newJob(t)
	note := strings.Repeat("x", 90)
	c := limited("jot", jobFile)
	var lines strings.Builder
	for i := range 12 {
		fmt.Fprintf(&lines, "%d %d # %s\n", 340+i, 12-i, note)
	}
	c.Stdin = strings.NewReader(lines.String())
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	err := c.Run()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit, errs.String())
	require.Equal(t, failed, exit.ExitCode(), errs.String())
	require.Contains(t, errs.String(), "cylinder-1.csv: cannot be written: file too large")
	answers := answerLine.FindAllString(out.String(), -1)
	require.NotEmpty(t, answers)
	require.Less(t, len(answers), 12)
	kept, err := job.OpenReadings(readings, bench(), "mm")
	require.NoError(t, err)
	require.Len(t, kept, len(answers))
	text, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(string(text), "\n"), "no half line is left")

	// a rewriting that does not fit leaves the file as it was, too
	require.NoError(t, os.WriteFile(readings, []byte("angle,depth\n"+strings.Repeat("340,4\n", 82)), 0o600))
	before, err := os.ReadFile(readings)
	require.NoError(t, err)
	for _, line := range []string{"b 340 4", "undo", "341 4 # note"} {
		c = limited("jot", jobFile)
		c.Stdin = strings.NewReader(line + "\n")
		require.ErrorAs(t, c.Run(), &exit, line)
		require.Equal(t, failed, exit.ExitCode(), line)
		after, err := os.ReadFile(readings)
		require.NoError(t, err)
		require.Equal(t, string(before), string(after), line)
	}

	// begin makes both files or none
	dir := filepath.Join(t.TempDir(), "full")
	c = limited("begin", dir)
	c.Stdin = strings.NewReader("")
	require.ErrorAs(t, c.Run(), &exit)
	require.Equal(t, failed, exit.ExitCode())
	require.NoDirExists(t, dir)
}

// unprivileged runs a command as somebody who is not root, whom no mode stops.
func unprivileged(c *exec.Cmd) *exec.Cmd {
	if os.Getuid() == 0 {
		const nobody = 65534
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	return c
}

// A folder or a file that may not be written is refused in words before anybody
// types, and stays as it was.
func TestReadOnly(t *testing.T) {
	base, err := os.MkdirTemp("", "evendrop") // t.TempDir's own folders are closed to others
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(base) })
	require.NoError(t, os.Chmod(base, 0o755))
	self, err := os.Executable()
	require.NoError(t, err)
	copied := filepath.Join(base, "evendrop")
	data, err := os.ReadFile(self)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(copied, data, 0o755))

	dir := filepath.Join(base, "bench")
	require.NoError(t, os.Mkdir(dir, 0o755))
	jobFile, readings := filepath.Join(dir, "job.toml"), filepath.Join(dir, "cylinder-1.csv")
	require.NoError(t, os.WriteFile(jobFile, []byte("[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\n"), 0o644))
	const text = "angle,depth\n340,4\n"
	require.NoError(t, os.WriteFile(readings, []byte(text), 0o444))
	try := func(line string, args ...string) (string, string) {
		c := commandLine(args...)
		c.Path = copied
		var out, errs bytes.Buffer
		c.Stdin, c.Stdout, c.Stderr = strings.NewReader(line), &out, &errs
		err := unprivileged(c).Run()
		var exit *exec.ExitError
		require.ErrorAs(t, err, &exit, errs.String())
		require.Equal(t, failed, exit.ExitCode(), errs.String())
		after, err := os.ReadFile(readings)
		require.NoError(t, err)
		require.Equal(t, text, string(after))
		return out.String(), errs.String()
	}
	require.NoError(t, os.Chmod(dir, 0o555))
	out, errs := try("341 3.9\n", "jot", jobFile)
	require.Empty(t, out)
	require.Contains(t, errs, "may not be written: check who may write it")

	require.NoError(t, os.Chmod(dir, 0o777))
	out, errs = try("341 3.9\n", "jot", jobFile)
	require.Empty(t, out)
	require.Contains(t, errs, "may not be written: check who may write it")

	require.NoError(t, os.Chmod(base, 0o755))
	_, errs = try("", "begin", filepath.Join(base, "new"))
	require.Contains(t, errs, "may not be made: choose another folder")
}
