package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job/disk"
)

// readingProgress tells how far a file is read, once a second from the first
// second on.
type readingProgress struct {
	r    io.Reader
	size int64
	file string
	to   io.Writer
	now  func() time.Time

	read int64
	last time.Time
	said bool
}

// openShown opens a capture, and tells how far it is read when somebody sits there.
func (c console) openShown(file string) (io.ReadCloser, error) {
	f, err := disk.OpenPlain(file, "not found: check the name of the capture")
	if err != nil || c.passing == nil {
		return f, err
	}
	info, err := f.Stat()
	if err != nil {
		return f, err
	}
	p := &readingProgress{r: f, size: info.Size(), file: file, to: c.passing, now: time.Now, last: time.Now()}
	return shownFile{p, f}, nil
}

// shownFile is a file that is read with its progress told.
type shownFile struct {
	*readingProgress
	file *os.File
}

// Close wipes what was told.
func (f shownFile) Close() error {
	f.done()
	return f.file.Close()
}

func (p *readingProgress) Read(b []byte) (int, error) {
	n, err := p.r.Read(b)
	p.read += int64(n)
	if now := p.now(); now.Sub(p.last) > time.Second && p.size > 0 {
		fmt.Fprintf(p.to, "\r%s: %d %% read", legible.Line(p.file), min(100, 100*p.read/p.size))
		p.last, p.said = now, true
	}
	return n, err
}

// done wipes what was told.
func (p *readingProgress) done() {
	if p.said {
		fmt.Fprint(p.to, "\r\033[K")
	}
}
