// Package fault says what is wrong with a capture, or with what was said of it.
package fault

import "fmt"

// Fault is what is wrong with a capture, where, and what was expected.
type Fault struct {
	Line    int // from 1; 0 when the capture as a whole is meant
	Column  int // of the table, from 1; 0 when the line as a whole is meant
	Problem string
}

// Error is one line without the file's name, which the caller knows.
func (f *Fault) Error() string {
	switch {
	case f.Line == 0:
		return f.Problem
	case f.Column == 0:
		return fmt.Sprintf("line %d: %s", f.Line, f.Problem)
	}
	return fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, f.Problem)
}

// Errorf is a fault of a capture as a whole.
func Errorf(format string, args ...any) error { return &Fault{Problem: fmt.Sprintf(format, args...)} }
