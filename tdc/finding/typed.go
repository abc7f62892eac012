package finding

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// CountsContradicted is an order of readings that says that the protractor counts the
// other way than stated: no mark can be called late or early.
type CountsContradicted struct {
	Counts evidence.Sense `json:"-"` // as stated
	Pairs  bool           `json:"pairs"`
}

// SidesContradicted is the same where angles were written with BTDC or ATDC: one may
// have been taken for the other.
type SidesContradicted struct {
	Pairs bool `json:"pairs"`
}

// Lines is from one line of a file to another.
type Lines struct {
	From int `json:"from"`
	To   int `json:"to"`
}

// FlankUnsigned is a flank of readings that fits on the other side of the protractor's
// zero: their sign was lost.
type FlankUnsigned struct {
	Place         // the first of them
	Lines []Lines `json:"lines"`
}

// RowUnsigned is one reading that fits on the other side of the protractor's zero.
type RowUnsigned struct {
	Place
}

// Misread is a length taken for one in another unit.
type Misread string

// What people mistake for what.
const (
	DepthsMillimetresAsInches Misread = "depths in mm taken as inches"
	DepthsInches              Misread = "depths in inches"
	DepthsThou                Misread = "depths in thousandths of an inch"
	DepthsPointLost           Misread = "depths without their decimal point"
	DepthsCentimetres         Misread = "depths in cm"
	DepthsHundredths          Misread = "depths in hundredths of a mm"
	DepthsThousandths         Misread = "depths in thousandths"
	DepthsMetres              Misread = "depths in m"
	StrokeInches              Misread = "stroke and rod in inches"
	StrokeCentimetres         Misread = "stroke and rod in cm"
	StrokeMetres              Misread = "stroke and rod in m"
	StrokeMillimetresAsInches Misread = "stroke and rod in mm taken as inches"
	StrokePointLost           Misread = "stroke and rod without their decimal point"
)

// WrongUnit is lengths that seem to be in another unit than stated: TDC cannot be determined.
type WrongUnit struct {
	Misread Misread         `json:"misread"`
	Times   float64         `json:"times"`           // as far as the stroke allows the depths change
	Stroke  geometry.Length `json:"stroke_mm"`       // as typed
	Meant   geometry.Length `json:"meant_stroke_mm"` // where the stroke is in doubt
}

// Refusal is the error of readings that have no answer because of a finding.
type Refusal struct{ Finding }

// Error names the finding's kind: whoever shows it has the words.
func (r Refusal) Error() string { return "TDC cannot be determined: " + r.Kind() }
