// Package fault says what is wrong with a capture, or with what was said of it, and
// what to say instead.
package fault

import "fmt"

// Fault is what is wrong with a capture, where, and what was expected.
type Fault struct {
	Line    int // from 1; 0 when the capture as a whole is meant
	Column  int // of the table, from 1; 0 when the line as a whole is meant
	Problem string
	Try     []Try // what to say of the capture instead: any of these
}

// Try is something else to say of a capture.
type Try struct {
	Say   Say
	Wheel string // as it is written, of TheWheel; "" where only its owner can tell
	Name  string // the same by its pitches and gaps, where Parts are in question
	Parts int    // equal parts of a turn; 0 where they are not in question
}

// Say is what is said of a capture.
type Say int

// The things that are said.
const (
	Columns     Say = iota // columns that the file has
	TimeColumn             // another one
	CrankColumn            // another one
	CamColumns             // the same ones of both captures
	AddCams                // columns of the cams
	TimeUnit               // what the time column counts in
	Rate                   // samples a second
	TheWheel               // what crank wheel it is
	NoCrankEdge            // nothing of its leading edge
	MoreTurns              // another capture, of two turns or more
)

// Error is one line without the file's name, which the caller knows, and without
// what to try, which depends on how it is said.
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
func Errorf(format string, args ...any) *Fault { return &Fault{Problem: fmt.Sprintf(format, args...)} }

// Or is the fault with something to say instead.
func (f *Fault) Or(say Say) *Fault { return f.OrTry(Try{Say: say}) }

// OrWheel is the fault with a wheel to say instead; "" is one that only its owner
// knows.
func (f *Fault) OrWheel(written string) *Fault { return f.OrTry(Try{Say: TheWheel, Wheel: written}) }

// OrTry is the fault with more to try.
func (f *Fault) OrTry(try ...Try) *Fault {
	f.Try = append(f.Try, try...)
	return f
}
