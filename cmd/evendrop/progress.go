package main

import (
	"errors"
	"fmt"
	"io"
	"os"
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

// readingProgress tells how far a file is read.
type readingProgress struct {
	passingLine
	r    io.Reader
	size int64
	file string // its name, legible
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
	return shownFile{&readingProgress{passingLine: c.passingLine(), r: f, size: info.Size(), file: legible.Line(file)}, f}, nil
}

// shownFile is a file that is read with its progress told.
type shownFile struct {
	*readingProgress
	file *os.File
}

// Close wipes what was told.
func (f shownFile) Close() error {
	f.wipe()
	return f.file.Close()
}

func (p *readingProgress) Read(b []byte) (int, error) {
	n, err := p.r.Read(b)
	p.read += int64(n)
	if p.size > 0 {
		p.tell("%s: %d %% read", p.file, min(100, 100*p.read/p.size))
	}
	return n, err
}
