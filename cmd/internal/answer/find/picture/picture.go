// Package picture draws what find found: the readings, what the curve leaves of them,
// the midpoints of equal drop, the marks on a dial, the drive, and the cam lobes.
package picture

import (
	"errors"
	"fmt"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/lobe"
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
	Lobes     = "lobes"
	Lean      = "lean"
)

// Names is every picture.
var Names = []string{Curve, Residuals, Midpoints, Marks, Drive, Lobes, Lean}

// Book is what the pictures are drawn from, and what is said of it to who cannot see
// them.
type Book struct {
	Bench     words.Bench
	Results   []tdc.Result // one a cylinder
	Drive     mark.Drive
	Marks     []mark.Judged
	Lobes     []lobe.Measured
	Diagnosis joint.Diagnosis
	Trend     func(tdc.Result) string // of the midpoints
	OfMarks   []string                // a sentence a mark
	Headline  string
}

var errNoMarks = errors.New("the job has no marks to draw: add a [[mark]]")

// Draw draws one of Names as SVG: those of readings and Lobes are of the n-th cylinder,
// Lean of the n-th lobe. A book that has nothing to show in it is an error.
func (b Book) Draw(name string, n int) ([]byte, error) {
	if err := b.NothingIn(name, n); err != nil {
		return nil, err
	}
	switch name {
	case Curve:
		return b.curveChart(b.Results[n]).SVG()
	case Residuals:
		return b.residualChart(b.Results[n]).SVG()
	case Midpoints:
		return b.midpointChart(b.Results[n]).SVG()
	case Lobes:
		return b.lobeChart(b.Results[n]).SVG()
	case Lean:
		return b.leanChart(n).SVG()
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

// NothingIn says why a picture of readings, of a cylinder or of a lobe, would be empty;
// nil when it would not.
func (b Book) NothingIn(name string, n int) error {
	switch name {
	case Curve, Residuals:
		if r := b.Results[n]; len(r.Readings) == 0 {
			return fmt.Errorf("cylinder %d has no readings to draw: stops, dwells and views have no depth", r.Number)
		}
	case Midpoints:
		if r := b.Results[n]; len(r.Levels) == 0 {
			return fmt.Errorf("cylinder %d has no midpoints of equal drop to draw: read both flanks at the same depths", r.Number)
		}
	case Lobes:
		if r := b.Results[n]; len(b.lobesOf(r)) == 0 {
			return fmt.Errorf("cylinder %d has no cam lobe to draw whose opening and closing were read: add a [[lobe]]", r.Number)
		}
	case Lean:
		return b.noLean(n)
	}
	return nil
}
