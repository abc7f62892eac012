package tdc

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/look"
)

// misread is a factor between the travel that was read and the engine's, and what
// makes it.
type misread struct {
	factor float64
	why    finding.Misread
}

// What people mistake for what.
var (
	ofDepths = []misread{
		{25.4, finding.DepthsMillimetresAsInches}, {1 / 25.4, finding.DepthsInches}, {1 / 0.0254, finding.DepthsThou},
		{10, finding.DepthsPointLost}, {0.1, finding.DepthsCentimetres}, {100, finding.DepthsHundredths},
		{1000, finding.DepthsThousandths}, {0.001, finding.DepthsMetres},
	}
	ofShortStroke = []misread{{25.4, finding.StrokeInches}, {10, finding.StrokeCentimetres}, {1000, finding.StrokeMetres}}
	ofLongStroke  = []misread{{1 / 25.4, finding.StrokeMillimetresAsInches}, {0.1, finding.StrokePointLost}}
)

// wrongUnit is which lengths seem to be in another unit than stated; nil while the travel that was read is about the engine's, or no curve fits
// it. A slant and unlike units of stroke and rod leave the factor within a half of the
// true one.
func wrongUnit(setup evidence.Setup, assumed evidence.Assumed, read []evidence.Reading, rough look.Rough) *finding.WrongUnit {
	if len(read) == 0 || assumed.Stroke > 0 || rough.Scale <= 0 || rough.Misfit > travel(read)/20 {
		return nil
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
		return nil
	}
	return &finding.WrongUnit{Misread: nearest.why, Times: rough.Scale, Stroke: stroke, Meant: stroke * geometry.Length(nearest.factor)}
}

// travel is how far the greatest and the least depth lie apart, mm.
func travel(read []evidence.Reading) float64 {
	_, depth := evidence.Columns(read)
	return slices.Max(depth) - slices.Min(depth)
}
