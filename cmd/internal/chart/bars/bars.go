// Package bars draws what was measured as bars, one below another on one scale: how far
// off each is, early to the left of zero and late to the right, with what is allowed as a
// box and the 95 % interval as a bar. Every bar has its name, its number and its verdict
// beside it, so that no picture needs a key.
package bars

import (
	"errors"
	"fmt"
	"strings"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
)

// Counted is what a scale counts.
type Counted struct {
	Unit      string // "crank degrees"
	Low, High string // what lies below zero, and above: "early", "late"
	Zero      string // what zero is: "where it should be"
}

// Picture is bars on one scale, in the unit of Counted.
type Picture struct {
	Title       string
	Description string // what the picture shows as a whole, for those who do not see it; each bar's words are added
	Counted
	Bars []Bar
}

// Measured is a value and the interval it is known to lie in; From and To alike: none.
type Measured struct{ At, From, To float64 }

// Bar is one thing that was measured.
type Bar struct {
	Name string
	Says string // its number and its verdict: "2.8 ± 0.4 deg late, outside"
	Measured
	LimitFrom, LimitTo float64   // what is allowed; alike: nothing is stated
	Allowed            string    // the same in words: "allowed ± 1"
	State              doc.State // of its verdict
	Was                *Was      // as it was before; nil: that is not known, or nothing to show
}

// Was is an earlier measurement of the same, drawn hollow and dashed above the later one.
type Was struct {
	Says string // "before: 2.8 ± 0.4 deg late"
	Measured
}

// SVG is the picture. No bars, and numbers that are none, are an error.
func (p Picture) SVG() ([]byte, error) {
	if len(p.Bars) == 0 {
		return nil, errors.New("a picture of bars needs at least one")
	}
	for _, b := range p.Bars {
		if err := b.check(); err != nil {
			return nil, err
		}
	}
	s := begun(p.Title)
	s.bars(p.Counted, p.Bars)
	return s.whole(p.Title, append([]string{p.Description}, spoken(p.Bars)...)), nil
}

func (b Bar) check() error {
	values := []float64{b.At, b.From, b.To, b.LimitFrom, b.LimitTo}
	if b.Was != nil {
		values = append(values, b.Was.At, b.Was.From, b.Was.To)
	}
	if !draw.Finite(values...) {
		return fmt.Errorf("bar %q at %g cannot be drawn", b.Name, b.At)
	}
	return nil
}

// spoken is a sentence a bar.
func spoken(bars []Bar) (list []string) {
	for _, b := range bars {
		list = append(list, b.words()+".")
	}
	return list
}

func (b Bar) words() string {
	text := b.Name + ": " + b.Says
	if b.Allowed != "" {
		text += ", " + b.Allowed
	}
	if b.Was != nil {
		text += "; " + b.Was.Says
	}
	return text
}

// width is how wide a picture of bars is, in its own units: shown 340 px wide its smallest
// letters are 12.1 px high.
const width = 380.0

// sheet is a picture under way; next is the top of what comes next.
type sheet struct {
	draw.Canvas
	next float64
}

func begun(title string) *sheet {
	s := &sheet{}
	s.next = s.Heading(title, width) + 4
	return s
}

func (s *sheet) whole(title string, says []string) []byte {
	return s.Whole(width, s.next+draw.Margin-6, title, strings.TrimSpace(strings.Join(says, " ")))
}

// note writes a quiet sentence from side to side.
func (s *sheet) note(text string) {
	lines := draw.Wrapped(text, width-2*draw.Margin, draw.SmallSize, 4)
	s.next = s.Lines("quiet small", "start", draw.At(draw.Margin, s.next+rise), draw.SmallSize, lines) - rise + 6
}

// rise is how far a small letter stands above its line.
const rise = draw.SmallSize * 0.85
