package tdc

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
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

// wrongUnit says which lengths seem to be in another unit than stated, and what to
// type; nothing while the travel that was read is about the engine's, or no curve fits
// it. A slant and unlike units of stroke and rod leave the factor within a half of the
// true one.
func wrongUnit(setup evidence.Setup, assumed evidence.Assumed, read []evidence.Reading, rough look.Rough) string {
	if len(read) == 0 || assumed.Stroke > 0 || rough.Scale <= 0 || rough.Misfit > travel(read)/20 {
		return ""
	}
	stroke, list := setup.Engine.Stroke, ofDepths
	switch {
	case stroke < evidence.ShortStroke && rough.Scale > 1:
		list = ofShortStroke
	case stroke > evidence.LongStroke && rough.Scale < 1:
		list = ofLongStroke
	}
	off := func(m misread) float64 { return math.Abs(math.Log(rough.Scale / m.factor)) }
	nearest := slices.MinFunc(list, func(a, b misread) int { return cmp.Compare(off(a), off(b)) })
	if off(nearest) > math.Log(1.5) {
		return ""
	}
	cure := strings.NewReplacer("{stroke}", evidence.ShortNumber(float64(stroke)), "{times}", evidence.ShortNumber(float64(stroke)*nearest.factor),
		"{inches}", fmt.Sprintf("%.4g", stroke.Inches())).Replace(nearest.cure)
	return fmt.Sprintf("the depths change %.3g times as far as a stroke of %v allows: %s", rough.Scale, stroke, cure)
}

// travel is how far the greatest and the least depth lie apart, mm.
func travel(read []evidence.Reading) float64 {
	_, depth := evidence.Columns(read)
	return slices.Max(depth) - slices.Min(depth)
}

// unitError is what wrongUnit says as an error; nil for nothing.
func unitError(why string) error {
	if why == "" {
		return nil
	}
	return errors.New(why)
}
