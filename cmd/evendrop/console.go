package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"evendrop/cmd/internal/legible"
)

// console is where a command that listens has its lines from, and speaks to.
type console struct {
	lines    *bufio.Scanner
	cut      *bool     // the last line had no end
	stdout   io.Writer // answers
	stderr   io.Writer // everything else
	terminal bool      // somebody sits at it
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
	return console{lines, &cut, stdout, stderr, terminal}
}

// processConsole is the one that the process was started with.
func processConsole(stdout io.Writer) console {
	return newConsole(os.Stdin, stdout, legible.Writer(os.Stderr), isTerminal(os.Stdin))
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

// line is the next line; false at the end.
func (c console) line() (string, bool) {
	if !c.lines.Scan() {
		return "", false
	}
	return c.lines.Text(), true
}

// tell writes a line beside the answers.
func (c console) tell(format string, args ...any) {
	fmt.Fprintln(c.stderr, fmt.Sprintf(format, args...))
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
