//go:build unix

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
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

var answer = regexp.MustCompile(`^ *\d+  (Kept|TDC)|^ *(Undone|Nothing was changed)`)

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

// An editor saves the file again and again while readings are typed and struck out,
// and the file has to get a column: no edit of its is lost, none of the readings before,
// and each reading that was answered is in the file at the end, or jot said that it is
// gone from it. EVENDROP_KILLS asks for more.
func TestEditorSavesMeanwhile(t *testing.T) {
	for _, c := range []struct {
		name          string
		every, thinks time.Duration
		save          func(path string) func([]byte) error
	}{
		{"in place every 2 ms", 2 * time.Millisecond, 0, func(path string) func([]byte) error { return inPlace(path, 0) }},
		{"in place, half the time empty", 2 * time.Millisecond, 0, func(path string) func([]byte) error { return inPlace(path, 2*time.Millisecond) }},
		{"by renaming every 3 ms", 3 * time.Millisecond, 0, byRename},
		{"in place, what it read 10 ms ago", 30 * time.Millisecond, 10 * time.Millisecond, func(path string) func([]byte) error { return inPlace(path, 0) }},
		{"by renaming, what it read 10 ms ago", 30 * time.Millisecond, 10 * time.Millisecond, byRename},
	} {
		t.Run(c.name, func(t *testing.T) {
			saves, lost, answers, said, widened, refused := 0, 0, 0, 0, 0, 0
			for round := range kills(t) / 2 {
				jobFile, readings := newJob(t)
				var before strings.Builder
				before.WriteString("angle,depth,note\n")
				for i := range readingsBefore {
					before.WriteString(rowOf(typedReading(-30+2.5*float64(i), "f")) + ",")
					if i == 0 {
						before.WriteString("edit 0")
					}
					before.WriteString("\n")
				}
				require.NoError(t, os.WriteFile(readings, []byte(before.String()), 0o600))
				s := sit(t, jobFile)
				e := edit(readings, c.every, c.thinks, c.save(readings))
				var kept []string
				for i := range 20 {
					u, turn := -29+2.9*float64(i), "f"
					if i >= 10 { // the file has no column for turning backward
						u, turn = 54-2.9*float64(i), "b"
					}
					line := typedReading(u+0.01*float64(round), turn)
					if !s.types(line) {
						break
					}
					answers++
					if i%5 == 4 {
						if !s.types("undo") {
							break
						}
						answers++
						continue // an editor may have brought another reading last
					}
					kept = append(kept, line)
				}
				e.ends()
				code, errs := s.ends(t)
				text, err := os.ReadFile(readings)
				require.NoError(t, err)
				if firstNote.FindString(string(text)) != e.note {
					e.lost++
				}
				gone := 0
				for _, line := range kept {
					if strings.Contains(string(text), rowOf(line)) {
						continue
					}
					gone++
					require.Contains(t, errs, "the reading "+line[2:]+", which was kept here, is no longer in it", "%s", text)
				}
				for i, row := range strings.Split(strings.TrimSpace(before.String()), "\n")[2:] {
					require.Contains(t, string(text), strings.TrimSuffix(row, ","), "reading %d of those before", i+2)
				}
				switch {
				case strings.Contains(errs, "another program") && strings.Contains(errs, "type the same again"):
					refused++
					require.Equal(t, failed, code, errs)
				case strings.Contains(errs, "which was kept here"):
					require.Equal(t, failed, code, errs)
				default:
					require.Equal(t, answered, code, errs)
				}
				if strings.Contains(string(text), "angle,depth,note,turn") {
					widened++
				}
				said += gone
				saves += e.saves
				lost += e.lost
			}
			t.Logf("%d saves, %d of them lost; %d answers, %d readings that the editor took out, each said; widened %d times; %d sittings refused", saves, lost, answers, said, widened, refused)
			require.Zero(t, lost)
			require.Positive(t, saves)
			require.Positive(t, answers)
		})
	}
}

// rowOf is a typed reading as its row.
func rowOf(typed string) string { return strings.Replace(typed[2:], " ", ",", 1) }

// A file that another program emptied is not taken for a new one.
func TestEmptiedFile(t *testing.T) {
	for _, gone := range []bool{false, true} {
		jobFile, readings := newJob(t)
		require.NoError(t, os.WriteFile(readings, []byte("angle,depth\n340,4\n341,3\n"), 0o600))
		s := sit(t, jobFile)
		require.True(t, s.types("342 2"))
		if gone {
			require.NoError(t, os.Remove(readings))
		} else {
			require.NoError(t, os.WriteFile(readings, nil, 0o600))
		}
		require.False(t, s.types("343 1.5"))
		code, errs := s.ends(t)
		require.Equal(t, failed, code)
		require.Regexp(t, `cylinder-1\.csv: is (gone|empty now), and had 3 readings before: another program did that\. Nothing was written`, errs)
		data, err := os.ReadFile(readings)
		if gone {
			require.ErrorIs(t, err, os.ErrNotExist)
		}
		require.Empty(t, data)
	}
}

// steps gives a line at a time, and does something before each.
type steps struct {
	lines  []string
	before func(line int)
	given  int
}

func (s *steps) Read(p []byte) (int, error) {
	if s.given == len(s.lines) {
		return 0, io.EOF
	}
	s.before(s.given)
	s.given++
	return copy(p, s.lines[s.given-1]+"\n"), nil
}

// Somebody at a terminal is asked whether to go on in a file that was emptied.
func TestEmptiedFileAtATerminal(t *testing.T) {
	jobFile, readings := newJob(t)
	var out, errs bytes.Buffer
	lines := &steps{lines: []string{"340 4", "341 3", "341 3"}, before: func(line int) {
		if line == 1 {
			require.NoError(t, os.WriteFile(readings, nil, 0o600))
		}
		if line == 2 {
			data, err := os.ReadFile(readings)
			require.NoError(t, err)
			require.Empty(t, data)
		}
	}}
	require.NoError(t, runJot([]string{jobFile}, newConsole(lines, &out, &errs, true)))
	require.Contains(t, unwrapped(errs.String()), "is empty now, and had one reading before")
	require.Contains(t, errs.String(), "Or type it once more, to go on in the file as it is now.")
	data, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Equal(t, "angle,depth,turn,sweep,note\n341,3,forward,,\n", string(data))
}

// An editor that takes a while between emptying the file and filling it is waited for.
func TestSlowSave(t *testing.T) {
	jobFile, readings := newJob(t)
	const text = "angle,depth\n340,4\n341,3\n"
	require.NoError(t, os.WriteFile(readings, []byte(text), 0o600))
	s := sit(t, jobFile)
	require.True(t, s.types("342 2"))
	var saving sync.WaitGroup
	begun := make(chan bool)
	saving.Go(func() {
		f, err := os.OpenFile(readings, os.O_WRONLY|os.O_TRUNC, 0)
		if err == nil {
			close(begun)
			time.Sleep(300 * time.Millisecond)
			fmt.Fprint(f, text+"342,2\n")
			f.Close()
		}
	})
	<-begun
	require.True(t, s.types("343 1.5"))
	saving.Wait()
	code, errs := s.ends(t)
	require.Equal(t, answered, code, errs)
	data, err := os.ReadFile(readings)
	require.NoError(t, err)
	require.Equal(t, text+"342,2\n343,1.5\n", string(data))
}

// Somebody who only looks at the file, and keeps it open, holds nothing up.
func TestViewerKeepsTheFileOpen(t *testing.T) {
	jobFile, readings := newJob(t)
	viewer, err := os.Open(readings)
	require.NoError(t, err)
	defer viewer.Close()
	out, errs, err := jotting(t, jobFile, "340 4.1", "341 3", "undo", "b 350 1")
	require.NoError(t, err, errs)
	require.Contains(t, out, "2 readings in")
}

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
