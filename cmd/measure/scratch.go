package main

import (
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// scratch is a folder to measure in, with evendrop built into it. What is run is run from
// the root of the source, where go run ./cmd/measure is.
type scratch struct{ dir string }

func newScratch() (scratch, error) {
	dir, err := os.MkdirTemp("", "measure")
	if err != nil {
		return scratch{}, err
	}
	s := scratch{dir}
	if out, err := exec.Command("go", "build", "-o", s.evendrop(), "./cmd/evendrop").CombinedOutput(); err != nil {
		s.remove()
		return s, fmt.Errorf("evendrop does not build: %w\n%s", err, out)
	}
	return s, nil
}

func (s scratch) remove()                 { _ = os.RemoveAll(s.dir) }
func (s scratch) evendrop() string        { return s.path("evendrop") }
func (s scratch) path(name string) string { return filepath.Join(s.dir, name) }

// took is the least that a process took of several: from its start to its end, and of the
// processor.
type took struct{ whole, processor time.Duration }

// String is both, in ms.
func (t took) String() string {
	return fmt.Sprintf("%s ms (%s of the processor)", ms(t.whole), ms(t.processor))
}

func (t took) ms() float64 { return t.whole.Seconds() * 1e3 }

// ms is a time in ms, to three digits.
func ms(d time.Duration) string { return digits(d.Seconds() * 1e3) }

// digits is a number to three digits.
func digits(x float64) string {
	places := 2 - int(math.Floor(math.Log10(math.Max(math.Abs(x), 0.01))))
	return fmt.Sprintf("%.*f", max(0, min(places, 3)), x)
}

// time runs evendrop so many times.
func (s scratch) time(runs int, args ...string) (best took, err error) {
	for range runs {
		cmd := exec.Command(s.evendrop(), args...)
		began := time.Now()
		out, err := cmd.CombinedOutput()
		whole := time.Since(began)
		var answered *exec.ExitError
		if err != nil && (!errors.As(err, &answered) || strings.HasPrefix(string(out), "evendrop:")) {
			return best, fmt.Errorf("evendrop %s: %w\n%s", strings.Join(args, " "), err, out)
		}
		processor := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
		if best.whole == 0 || whole < best.whole {
			best.whole = whole
		}
		if best.processor == 0 || processor < best.processor {
			best.processor = processor
		}
	}
	return best, nil
}
