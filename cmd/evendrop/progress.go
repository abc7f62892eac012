package main

import (
	"errors"
	"fmt"
	"io"
	"time"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job/disk"
)

// passingLine tells how far something is, once a second from the first second on, each
// time over what it told before.
type passingLine struct {
	to   io.Writer
	now  func() time.Time
	last time.Time
	said bool
}

func (c console) passingLine() passingLine {
	return passingLine{to: c.passing, now: time.Now, last: time.Now()}
}

func (p *passingLine) tell(format string, args ...any) {
	if now := p.now(); now.Sub(p.last) > time.Second {
		fmt.Fprintf(p.to, "\r"+format, args...)
		p.last, p.said = now, true
	}
}

// wipe takes away what was told.
func (p *passingLine) wipe() {
	if p.said {
		fmt.Fprint(p.to, "\r\033[K")
	}
}

// progress tells how much of something is done; nil where nobody is there to read it.
func (c console) progress(total int, what string) func(done int) {
	if c.passing == nil {
		return nil
	}
	line := c.passingLine()
	return func(done int) {
		line.tell("%d of %d %s", done, total, what)
		if done == total {
			line.wipe()
		}
	}
}

// shownFile is a file that is read with its progress told.
type shownFile struct {
	passingLine
	io.ReadCloser
	size int64
	name string // legible
	read int64
}

// openShown opens a capture, and tells how far it is read when somebody sits there.
func (c console) openShown(file string) (io.ReadCloser, error) {
	f, err := disk.OpenPlain(file, errors.New("not found: check the name of the capture"))
	if err != nil || c.passing == nil {
		return f, err
	}
	info, err := f.Stat()
	if err != nil {
		return f, err
	}
	return &shownFile{passingLine: c.passingLine(), ReadCloser: f, size: info.Size(), name: legible.Line(file)}, nil
}

// Close wipes what was told.
func (f *shownFile) Close() error {
	f.wipe()
	return f.ReadCloser.Close()
}

func (f *shownFile) Read(b []byte) (int, error) {
	n, err := f.ReadCloser.Read(b)
	f.read += int64(n)
	if f.size > 0 {
		f.tell("%s: %d %% read", f.name, min(100, 100*f.read/f.size))
	}
	return n, err
}
