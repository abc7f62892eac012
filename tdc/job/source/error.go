// Package source is the text of a file that somebody wrote, and what is wrong at a place
// in it: an Error names the file, the line and the column where there is one, and says
// what to type instead.
package source

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Error is what is wrong with a file, where, and what was expected.
type Error struct {
	File    string
	Line    int // from 1; 0 when the file as a whole is meant
	Column  int // in characters from 1; 0 when the line as a whole is meant
	Problem string
	Cause   error // what was wrong before its place was known; nil of none
}

// Of is what is wrong with a file as a whole.
func Of(file string, cause error) *Error {
	return &Error{File: file, Problem: cause.Error(), Cause: cause}
}

// Unwrap is the cause.
func (e *Error) Unwrap() error { return e.Cause }

// Error is one line: "job.toml:12:8: what is wrong".
func (e *Error) Error() string {
	where := e.File
	if e.Line > 0 {
		where += fmt.Sprintf(":%d", e.Line)
		if e.Column > 0 {
			where += fmt.Sprintf(":%d", e.Column)
		}
	}
	return OneLine(where + ": " + e.Problem)
}

// OneLine keeps a file name that somebody made up from breaking the line, or
// the terminal.
func OneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return '?'
		}
		return r
	}, s)
}

// fault is a problem at an offset of the file being read. Finding its line
// waits until there is a fault: in a long line it takes a while.
type fault struct {
	at int // bytes
	error
}

// Unwrap is the problem without its place.
func (f fault) Unwrap() error { return f.error }

// Faultf makes a fault.
func Faultf(at int, format string, args ...any) error {
	return fault{at, fmt.Errorf(format, args...)}
}

// Locate turns a fault in a file's data into an *Error; other errors pass.
func Locate(file string, data []byte, err error) error {
	f, ok := errors.AsType[fault](err)
	if !ok {
		return err
	}
	line, column := PlaceOf(data, f.at)
	return &Error{File: file, Line: line, Column: column, Problem: f.Error(), Cause: f.error}
}

// PlaceOf is the line and the column of an offset, from 1.
func PlaceOf(data []byte, at int) (line, column int) {
	before := data[:min(at, len(data))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return LineOf(data, at), utf8.RuneCount(before[start:]) + 1
}

// LineOf is the line of an offset, from 1.
func LineOf(data []byte, at int) int { return bytes.Count(data[:min(at, len(data))], []byte{'\n'}) + 1 }
