package class

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// summary is a class in a few numbers.
type summary struct {
	Answers, Learners    int
	Right                int
	Promised, Held, Wide int // of answers; wide ones are among those held
	Pins, PinsRight      int
	MeanOff              float64 // degrees, whichever way
	HalfWithin           float64 // degrees: half of the answers are off by no more, whichever way
	Traps                []fallen
}

// fallen is a trap that answers seem to have come from.
type fallen struct {
	Name    string
	Count   int
	Engines []int
	Who     []string // each with the engine, as they are in the file
}

// summary counts the rows.
func (m Marked) summary() summary {
	s := summary{Answers: len(m.rows)}
	learners := map[string]bool{}
	var off []float64
	for _, r := range m.rows {
		learners[strings.ToLower(r.Name)] = true
		s.MeanOff += math.Abs(r.Off) / float64(len(m.rows))
		off = append(off, math.Abs(r.Off))
		s.Right += one(r.right())
		promise := r.promise()
		s.Promised += one(promise != noPromise)
		s.Held += one(promise == heldIt || promise == tooWide)
		s.Wide += one(promise == tooWide)
		s.Pins += one(r.pin() != "")
		s.PinsRight += one(r.pinRight())
		s.fell(r)
	}
	s.Learners = len(learners)
	if slices.Sort(off); len(off) > 0 {
		s.HalfWithin = off[(len(off)-1)/2]
	}
	slices.SortStableFunc(s.Traps, func(a, b fallen) int { return b.Count - a.Count })
	return s
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

// fell counts the trap that a row fell into.
func (s *summary) fell(r row) {
	if r.Near == nil {
		return
	}
	i := slices.IndexFunc(s.Traps, func(f fallen) bool { return f.Name == r.Near.Name })
	if i < 0 {
		i = len(s.Traps)
		s.Traps = append(s.Traps, fallen{Name: r.Near.Name})
	}
	f := &s.Traps[i]
	f.Count++
	f.Who = append(f.Who, fmt.Sprintf("%s (engine %d)", r.Name, r.Engine))
	if !slices.Contains(f.Engines, r.Engine) {
		f.Engines = append(f.Engines, r.Engine)
		slices.Sort(f.Engines)
	}
}
