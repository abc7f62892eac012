// Package picture draws what find found: the readings, what the curve leaves of them,
// the midpoints of equal drop, the marks on a dial, and the drive.
package picture

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// The pictures of an answer, by name.
const (
	Curve     = "curve"
	Residuals = "residuals"
	Midpoints = "midpoints"
	Marks     = "marks"
	Drive     = "drive"
)

// Names is every picture, in the order of the page.
var Names = []string{Curve, Residuals, Midpoints, Marks, Drive}

// Book is what the pictures are drawn from, and what is said of it to who cannot see
// them.
type Book struct {
	Bench     words.Bench
	Results   []tdc.Result // one a cylinder
	Drive     mark.Drive
	Marks     []mark.Judged
	Diagnosis joint.Diagnosis
	Trend     func(tdc.Result) string // of the midpoints
	OfMarks   []string                // a sentence a mark
	Headline  string
}

var errNoMarks = errors.New("the job has no marks to draw: add a [[mark]]")

// Draw draws one of Names as SVG; those of readings are of the n-th cylinder. A book
// that has nothing to show in it is an error.
func (b Book) Draw(name string, n int) ([]byte, error) {
	r := b.Results[n]
	if err := NothingIn(name, r); err != nil {
		return nil, err
	}
	switch name {
	case Curve:
		return b.curveChart(r).SVG()
	case Residuals:
		return b.residualChart(r).SVG()
	case Midpoints:
		return b.midpointChart(r).SVG()
	case Marks:
		dial, err := b.marksDial()
		if err != nil {
			return nil, err
		}
		return dial.SVG()
	case Drive:
		return b.drivePicture()
	}
	return nil, fmt.Errorf("no picture is called %q: expected one of %s", name, strings.Join(Names, ", "))
}

// NothingIn says why a picture of readings would be empty; nil when it would not.
func NothingIn(name string, r tdc.Result) error {
	switch {
	case slices.Contains([]string{Curve, Residuals}, name) && len(r.Readings) == 0:
		return fmt.Errorf("cylinder %d has no readings to draw: stops, dwells and views have no depth", r.Number)
	case name == Midpoints && len(r.Levels) == 0:
		return fmt.Errorf("cylinder %d has no midpoints of equal drop to draw: read both flanks at the same depths", r.Number)
	}
	return nil
}
