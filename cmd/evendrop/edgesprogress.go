package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"evendrop/cmd/internal/legible"
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

// told is a reader of a file that tells how far it is when somebody sits there, and
// what to call at the end.
func (c console) told(f *os.File, size int64) (io.Reader, func()) {
	if c.passing == nil {
		return f, func() {}
	}
	p := &readingProgress{r: f, size: size, file: f.Name(), to: c.passing, now: time.Now, last: time.Now()}
	return p, p.done
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
