//go:build unix

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"regexp"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// sitting is a jot as another process, with lines typed into it one by one.
type sitting struct {
	*exec.Cmd
	in   io.WriteCloser
	out  *bufio.Reader
	errs bytes.Buffer
}

func sit(t *testing.T, jobFile string) *sitting {
	t.Helper()
	s := &sitting{Cmd: commandLine("jot", jobFile)}
	s.Stderr = &s.errs
	var err error
	s.in, err = s.StdinPipe()
	require.NoError(t, err)
	out, err := s.StdoutPipe()
	require.NoError(t, err)
	s.out = bufio.NewReader(out)
	require.NoError(t, s.Start())
	return s
}

var answer = regexp.MustCompile(`^ *\d+  (Kept|TDC)|^ *(Undone|Nothing was changed|Reading \d+ was)`)

// types has a line typed, and tells whether it was answered before jot ended.
func (s *sitting) types(line string) bool {
	fmt.Fprintln(s.in, line) // it may have ended
	for {
		text, err := s.out.ReadString('\n')
		if answer.MatchString(text) {
			return true
		}
		if err != nil {
			return false
		}
	}
}

// ends ends the lines, and is the exit status and what was said beside the answers.
func (s *sitting) ends(t *testing.T) (code int, errs string) {
	t.Helper()
	s.in.Close()
	_, err := io.Copy(io.Discard, s.out)
	require.NoError(t, err)
	_ = s.Wait()
	return s.ProcessState.ExitCode(), unwrapped(s.errs.String())
}

// editor saves a file again and again, each time with another note in its first
// reading, and counts which of those notes were gone when it looked next.
type editor struct {
	saves, lost int
	note        string
	stop        chan bool
	done        sync.WaitGroup
}

var firstNote = regexp.MustCompile(`edit \d+`)

func edit(path string, every, thinks time.Duration, save func(text []byte) error) *editor {
	e := &editor{stop: make(chan bool)}
	e.done.Go(func() {
		for {
			select {
			case <-e.stop:
				return
			case <-time.After(every):
			}
			text, err := os.ReadFile(path)
			if err != nil {
				continue
			}
			if note := firstNote.FindString(string(text)); e.note != "" && note != e.note {
				e.lost++
			}
			if firstNote.Match(text) {
				time.Sleep(thinks)
				e.saves++
				e.note = fmt.Sprintf("edit %d", e.saves)
				if save(firstNote.ReplaceAll(text, []byte(e.note))) != nil {
					e.lost++
				}
			}
		}
	})
	return e
}

func (e *editor) ends() {
	close(e.stop)
	e.done.Wait()
}

// inPlace saves as editors do that keep the file: empty it, then write. Between the two
// it takes as long as told.
func inPlace(path string, takes time.Duration) func([]byte) error {
	return func(text []byte) error {
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_TRUNC, 0)
		if err != nil {
			return err
		}
		time.Sleep(takes)
		_, err = f.Write(text)
		f.Close()
		return err
	}
}

// byRename saves as editors do that write another file and give it the name.
func byRename(path string) func([]byte) error {
	return func(text []byte) error {
		if err := os.WriteFile(path+"~", text, 0o600); err != nil {
			return err
		}
		return os.Rename(path+"~", path)
	}
}

// readingsBefore is as many readings as were in the file before an editor came.
const readingsBefore = 24
