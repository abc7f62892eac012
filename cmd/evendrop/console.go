package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/legible"
)

// console is where a command has its lines from, and where it writes.
type console struct {
	lines    *bufio.Scanner
	cut      *bool     // the last line had no end
	ahead    *[]string // lines that come before those that are typed, and are shown
	stdout   io.Writer // answers
	stderr   io.Writer // everything else
	terminal bool      // somebody types the lines
	width    int       // of a line of text, in characters
	passing  io.Writer // a line that is wiped again; nil where nobody sees it
}

// longestLine is more than anybody types.
const longestLine = 1 << 16

func newConsole(stdin io.Reader, stdout, stderr io.Writer, terminal bool) console {
	lines := bufio.NewScanner(stdin)
	lines.Buffer(nil, longestLine)
	cut := false
	lines.Split(func(data []byte, atEOF bool) (int, []byte, error) {
		advance, token, err := bufio.ScanLines(data, atEOF)
		if len(data) > 0 {
			cut = atEOF && advance == len(data) && data[len(data)-1] != '\n'
		}
		return advance, token, err
	})
	return console{lines: lines, cut: &cut, ahead: new([]string), stdout: stdout, stderr: stderr, terminal: terminal, width: form.Widest}
}

// processConsole is the one that the process was started with.
func processConsole() console {
	c := newConsole(os.Stdin, os.Stdout, os.Stderr, isTerminal(os.Stdin))
	c.width = form.Width(columns(os.Stdout))
	if isTerminal(os.Stderr) {
		c.passing = os.Stderr
	}
	return c
}

// isTerminal tells whether somebody types into a file.
func isTerminal(file *os.File) bool {
	info, err := file.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

// write prints an answer whole, or nothing of it.
func (c console) write(answer form.Printable, as string) error {
	render := map[string]func() ([]byte, error){
		"text":     func() ([]byte, error) { return answer.Text(c.width) },
		"markdown": answer.Markdown, "json": answer.JSON, "csv": answer.CSV,
	}[as]
	page, err := render()
	if err != nil {
		return err
	}
	return c.print(page)
}

// print writes what is an answer.
func (c console) print(page []byte) error {
	_, err := c.stdout.Write(page)
	return err
}

// tell writes a line beside the answers.
func (c console) tell(format string, args ...any) {
	fmt.Fprintln(c.stderr, fmt.Sprintf(format, args...))
}

// remark writes a sentence beside the answers, broken into lines.
func (c console) remark(text string) { c.tell("%s", form.Wrap(text, c.width)) }

// line is the next line; false at the end.
func (c console) line() (string, bool) {
	if ahead := *c.ahead; len(ahead) > 0 {
		*c.ahead = ahead[1:]
		c.tell("%s", ahead[0])
		return ahead[0], true
	}
	if !c.lines.Scan() {
		return "", false
	}
	return c.lines.Text(), true
}

// errNoAnswer is the end of input where a question was asked.
var errNoAnswer = errors.New("no answer: nothing was written")

// ask asks until the answer is one that take has no quarrel with. An empty answer
// stands for the one in brackets.
func (c console) ask(question, standard string, take func(answer string) error) error {
	for {
		fmt.Fprint(c.stderr, question)
		if standard != "" {
			fmt.Fprintf(c.stderr, " [%s]", standard)
		}
		fmt.Fprint(c.stderr, ": ")
		answer, ok := c.line()
		if !ok {
			c.tell("")
			return errNoAnswer
		}
		if answer = strings.TrimSpace(answer); answer == "" {
			answer = standard
		}
		err := take(answer)
		if err == nil {
			return nil
		}
		c.tell("%s", legible.Message(err.Error()))
	}
}

// columns is how many columns the terminal has: as the environment says (POSIX.1-2017,
// XBD 8.3, COLUMNS), or else as the terminal itself does; 0 where neither is known.
func columns(terminal *os.File) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return n
	}
	return columnsOf(terminal)
}
