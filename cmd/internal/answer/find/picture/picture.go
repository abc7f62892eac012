// Package picture draws what find found: the readings, what the curve leaves of them,
// the midpoints of equal drop, what was seen without a depth, the cylinders beside one
// another, how far the marks are off, the drive, and the cam lobes.
package picture

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// The pictures of an answer, by name.
const (
	Curve        = "curve"
	Residuals    = "residuals"
	Midpoints    = "midpoints"
	Observations = "observations"
	Cylinders    = "cylinders"
	Throws       = "throws"
	Crowns       = "crowns"
	Marks        = "marks"
	Drive        = "drive"
	Lobes        = "lobes"
	Lean         = "lean"
)

// Names is every picture.
var Names = []string{Curve, Residuals, Midpoints, Observations, Cylinders, Throws, Crowns, Marks, Drive, Lobes, Lean}

// Book is what the pictures are drawn from, and what is said of it to who cannot see
// them.
type Book struct {
	Bench     words.Bench
	Results   []tdc.Result // one a cylinder
	Throws    []mark.JudgedThrow
	Limits    Limits
	Drive     mark.Drive
	Marks     []mark.Judged
	Lobes     []lobe.Measured
	Diagnosis joint.Diagnosis
	Trend     func(tdc.Result) string // of the midpoints
	Headline  string
}

// Limits are those of throws and of crowns; zero where nothing is stated.
type Limits struct {
	Throw geometry.Angle
	Crown geometry.Length
}

var errNoMarks = errors.New("the job has no marks to draw: add a [[mark]]")

// Draw draws one of Names as SVG: those of readings, Observations and Lobes are of the n-th
// cylinder, Lean of the n-th lobe. A book that has nothing to show in it is an error.
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
	case Observations:
		return b.observed(b.Results[n]).SVG()
	case Cylinders:
		return b.cylinders().SVG()
	case Throws:
		return b.throws().SVG()
	case Crowns:
		return b.crowns().SVG()
	case Marks:
		p, err := b.marksBars()
		if err != nil {
			return nil, err
		}
		return p.SVG()
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
	case Observations:
		if r := b.Results[n]; len(pairsOf(r)) == 0 {
			return fmt.Errorf("cylinder %d has no stops, dwells or equal views to draw", r.Number)
		}
	case Cylinders, Throws:
		if len(b.Throws) == 0 {
			return errors.New("there is one cylinder, and none to draw beside it")
		}
		if name == Cylinders && !slices.ContainsFunc(b.Results, func(r tdc.Result) bool { return len(r.Readings) > 0 }) {
			return errors.New("the cylinders have no readings to draw: stops, dwells and views have no depth")
		}
	case Crowns:
		if len(b.Throws) == 0 || b.Throws[0].Crown == nil {
			return errors.New("crowns are not compared: one set-up of the gauge has to read every cylinder, and [gauge] say same_zero = true")
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
