package tdc

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/geometry"
)

// farPull is how many standard uncertainties the curve's scale may lie from 1 before
// it is asked about.
const farPull = 3

// pull is how far the curve's scale lies from 1, in what was known of it before.
func (a *adjustment) pull() float64 {
	return (a.best.Beta[parScale] - 1) / a.priors[parScale].Sigma
}

// misread is a factor between the travel that was read and the engine's, and what to
// type when that is why.
type misread struct {
	factor float64
	cure   string
}

// What people mistake for what.
var (
	ofDepths = []misread{
		{25.4, `they look like millimetres taken as inches: head their column depth_mm, or write unit = "mm" where every bare length of the job is in mm`},
		{1 / 25.4, `they look like inches: head their column depth_in, or write unit = "in" where every bare length of the job is in inches`},
		{1 / 0.0254, "they look like thousandths of an inch: write 0.384 in for 384"},
		{10, "a decimal point seems lost: write each a tenth as great"},
		{0.1, "they look like centimetres: write each ten times as great, in mm"},
		{100, "they look like hundredths of a millimetre: write 9.76 for 976"},
		{1000, "they look like thousandths: write 0.384 for 384"},
		{0.001, "they look like metres: write each in mm"},
	}
	ofShortStroke = []misread{
		{25.4, `stroke and rod look like inches: write them so, as in stroke = "{stroke} in", or unit = "in" where every bare length of the job is in inches`},
		{10, "stroke and rod look like centimetres: write them in mm, as in stroke = {times}"},
		{1000, "stroke and rod look like metres: write them in mm, as in stroke = {times}"},
	}
	ofLongStroke = []misread{
		{1 / 25.4, `stroke and rod look like millimetres taken as inches: write them so, as in stroke = "{inches} mm"`},
		{0.1, "a decimal point seems lost in stroke and rod, or the depths are in centimetres"},
	}
)

// A stroke of a bench's engine is seldom shorter or longer than these (common
// practice, no source).
const (
	shortStroke = 20 * geometry.Millimetre
	longStroke  = 800 * geometry.Millimetre
)

// wrongUnit says which lengths seem to be in another unit than stated, and what to
// type; nothing while the travel that was read is about the engine's, or no curve fits
// it. A slant and unlike units of stroke and rod leave the factor within a half of the
// true one.
func wrongUnit(setup Setup, assumed Assumed, read []Reading, rough firstLook) string {
	if len(read) == 0 || assumed.Stroke > 0 || rough.scale <= 0 || rough.misfit > travel(read)/20 {
		return ""
	}
	stroke, list := setup.Engine.Stroke, ofDepths
	switch {
	case stroke < shortStroke && rough.scale > 1:
		list = ofShortStroke
	case stroke > longStroke && rough.scale < 1:
		list = ofLongStroke
	}
	off := func(m misread) float64 { return math.Abs(math.Log(rough.scale / m.factor)) }
	nearest := slices.MinFunc(list, func(a, b misread) int { return cmp.Compare(off(a), off(b)) })
	if off(nearest) > math.Log(1.5) {
		return ""
	}
	cure := strings.NewReplacer("{stroke}", shortNumber(float64(stroke)), "{times}", shortNumber(float64(stroke)*nearest.factor),
		"{inches}", fmt.Sprintf("%.4g", stroke.Inches())).Replace(nearest.cure)
	return fmt.Sprintf("the depths change %.3g times as far as a stroke of %v allows: %s", rough.scale, stroke, cure)
}

// travel is how far the greatest and the least depth lie apart, mm.
func travel(read []Reading) float64 {
	_, depth := columns(read)
	return slices.Max(depth) - slices.Min(depth)
}

// unitError is what wrongUnit says as an error; nil for nothing.
func unitError(why string) error {
	if why == "" {
		return nil
	}
	return errors.New(why)
}

// unlikeUnits says which of stroke and rod seems to be in another unit than the other;
// nothing when no unit makes an engine of them.
func (e Engine) unlikeUnits() string {
	for _, unit := range []struct {
		factor geometry.Length
		of     string
	}{{25.4, "in"}, {1000, "m"}, {10, "cm"}} {
		switch of := fmt.Sprintf("%s %s", shortNumber(float64(e.Rod)), unit.of); {
		case e.Stroke <= longStroke && engineLike(unit.factor*e.Rod, e.Stroke) && unit.of == "in":
			return fmt.Sprintf("if the rod is %s, write rod = %q", of, of)
		case e.Stroke <= longStroke && engineLike(unit.factor*e.Rod, e.Stroke):
			return fmt.Sprintf("if the rod is %s, write rod = %s, in mm", of, shortNumber(float64(unit.factor*e.Rod)))
		case e.Stroke > longStroke && engineLike(e.Rod, e.Stroke/25.4):
			return fmt.Sprintf("if the stroke is in mm, write stroke = \"%s mm\"", shortNumber(e.Stroke.Inches()))
		}
	}
	return ""
}

// engineLike tells whether a rod is as long, for the stroke, as engines' are (common
// practice, no source).
func engineLike(rod, stroke geometry.Length) bool { return rod > 1.2*stroke && rod < 3.5*stroke }
