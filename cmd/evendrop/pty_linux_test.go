package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"evendrop/cmd/internal/answer/find"
	"evendrop/tdc/job"
)

// seat is somebody at a terminal of their own, with a command running in it.
type seat struct {
	t       *testing.T
	master  *os.File
	command *exec.Cmd

	mu   sync.Mutex
	seen string // all that was shown
	read int    // of it, by expect
}

// sits starts a command at a pseudo-terminal of so many columns and 24 lines, in a folder.
func sits(t *testing.T, dir string, columns uint16, args ...string) *seat {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no pseudo-terminals here: %v", err)
	}
	t.Cleanup(func() { master.Close() })
	fd := int(master.Fd())
	require.NoError(t, unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	require.NoError(t, err)
	require.NoError(t, unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: columns}))
	terminal, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|syscall.O_NOCTTY, 0)
	require.NoError(t, err)
	defer terminal.Close()
	c := commandLine(args...)
	c.Dir, c.Stdin, c.Stdout, c.Stderr = dir, terminal, terminal, terminal
	c.Env = append(c.Env, "COLUMNS=")
	c.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, c.Start())
	s := &seat{t: t, master: master, command: c}
	t.Cleanup(func() { _ = c.Process.Kill() })
	go s.watch()
	return s
}

// watch takes down what is shown.
func (s *seat) watch() {
	part := make([]byte, 4096)
	for {
		n, err := s.master.Read(part)
		s.mu.Lock()
		s.seen += strings.ReplaceAll(string(part[:n]), "\r", "")
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// expect waits until something is shown that was not before.
func (s *seat) expect(what string) {
	s.t.Helper()
	require.Eventually(s.t, func() bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		at := strings.Index(s.seen[s.read:], what)
		if at >= 0 {
			s.read += at + len(what)
		}
		return at >= 0
	}, 30*time.Second, 2*time.Millisecond, "%q", what)
}

// types waits for a prompt and answers it.
func (s *seat) types(prompt, line string) {
	s.t.Helper()
	s.expect(prompt)
	_, err := s.master.WriteString(line)
	require.NoError(s.t, err)
}

// ends waits for the end of the command, and is its exit status.
func (s *seat) ends() *os.ProcessState {
	s.t.Helper()
	late := time.AfterFunc(30*time.Second, func() { _ = s.command.Process.Kill() })
	defer late.Stop()
	_ = s.command.Wait()
	return s.command.ProcessState
}

// At a terminal begin is a conversation that ends in readings, and every line of it stands
// within the terminal, pictures too.
func TestBeginAtATerminal(t *testing.T) {
	for _, columns := range []uint16{80, 60} {
		dir := t.TempDir()
		s := sits(t, dir, columns, "begin", "bench")
		s.types("y or n: ", "y\n")
		s.types("Engine's name [none]: ", "Old four\n")
		s.types("[unknown]: ", "?\n")
		s.expect("the throw")
		s.types("[unknown]: ", "81.4\n")
		s.types("[unknown]: ", "back\n")
		s.expect("Stroke in mm")
		s.types("[unknown]: ", "82mm\n")
		s.types("[unknown]: ", "\n")
		s.types("[unknown]: ", "133\n")
		s.types("[unknown]: ", "?\n")
		s.expect("off the crank")
		s.types("[unknown]: ", "no\n")
		s.types("tried]: ", "?\n")
		s.expect("fall, rise")
		s.types("tried]: ", "rose\n")
		s.types("tried]: ", "356 and 4\n")
		s.expect("Understood: ")
		s.types("y or n [y]: ", "\n")
		s.types("[dial]: ", "?\n")
		s.expect("half-way")
		s.types("[dial]: ", "dial, stop\n")
		s.types("y or n [y]: ", "n\n")
		s.types("[none yet]: ", "1 2\n")
		s.types("y or n [n]: ", "y\n")
		s.types("[none]: ", "Mill Lane Garage\n")
		s.types("[none]: ", "back\n")
		for _, line := range []string{"Mill Lane\n", "J. Smith\n", "\n", "\n", "\n", "K\n"} {
			s.types("[none]: ", line)
		}
		s.types("Start reading now? y or n [y]: ", "\n")
		s.types("forward> ", "340 4.10\n")
		s.types("forward> ", "done\n")
		require.Equal(t, answered, s.ends().ExitCode())
		require.Contains(t, mustRead(t, filepath.Join(dir, "bench", "cylinder-1.csv")), "340,4.10")
		text := mustRead(t, filepath.Join(dir, "bench", "job.toml"))
		require.Contains(t, text, "stroke = 82 ")
		require.Contains(t, text, `counts = "up"`)
		require.Contains(t, text, "[sheet]\nshop = \"Mill Lane\"")
		s.mu.Lock()
		for line := range strings.Lines(s.seen) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), int(columns), line)
		}
		s.mu.Unlock()
	}
}

// Ctrl-C leaves at any question, and nothing is written.
func TestBeginLeft(t *testing.T) {
	const interrupt = "\x03"
	for typed, asks := range map[string]string{"": "", "y\n": "Engine's name", "y\nOld four\n81.4\n": "Bore, mm"} {
		dir := t.TempDir()
		s := sits(t, dir, 80, "begin", "bench")
		s.expect("y or n: ")
		_, err := s.master.WriteString(typed)
		require.NoError(t, err)
		s.expect(asks)
		_, err = s.master.WriteString(interrupt)
		require.NoError(t, err)
		status, ok := s.ends().Sys().(syscall.WaitStatus)
		require.True(t, ok)
		require.True(t, status.Signaled())
		require.Equal(t, syscall.SIGINT, status.Signal())
		require.Empty(t, contents(t, dir))
		require.NoDirExists(t, filepath.Join(dir, "bench"))
	}
}

// The diagnostician's story at a terminal: every line is asked for by its prompt, stands
// within the terminal, and what was said last is what find says.
func TestStoryAtATerminal(t *testing.T) {
	for _, columns := range []uint16{80, 60} {
		jobFile, _ := newJob(t)
		s := sits(t, filepath.Dir(jobFile), columns, "jot")
		for _, line := range append(append(askedLines(), lobeLines()...), "done") {
			s.types("> ", line+"\n")
		}
		require.Equal(t, answered, s.ends().ExitCode())
		j, err := job.Open(jobFile)
		require.NoError(t, err)
		f, err := find.Of(j)
		require.NoError(t, err)
		s.mu.Lock()
		require.Contains(t, unwrapped(s.seen), f.Headline())
		for line := range strings.Lines(s.seen) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), int(columns), line)
		}
		s.mu.Unlock()
	}
}
