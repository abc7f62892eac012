package finding

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Side is a side of TDC.
type Side string

// The sides.
const (
	Rising  Side = "rising"  // before TDC
	Falling Side = "falling" // after it
)

// Place is a reading as its user would find it, in the file and at the bench.
type Place struct {
	File  string                 `json:"file"`
	Line  int                    `json:"line"`
	Angle geometry.Angle         `json:"-"` // crank, from the protractor's zero
	Turn  evidence.TurnDirection `json:"-"`
}

// At is where a reading stands.
func At(r evidence.Reading) Place { return Place{r.File, r.Line, r.Angle, r.Turn} }

// GaugeCountsOtherWay is a gauge whose numbers grow the other way than stated; it
// was taken so.
type GaugeCountsOtherWay struct {
	Counts evidence.Count `json:"-"` // as the piston goes
}

// FewReadings is so few that a bad one would not show.
type FewReadings struct {
	Readings int `json:"readings"`
}

// NotUsed is readings too few to add anything to the pairs.
type NotUsed struct {
	Readings int `json:"readings"`
	Least    int `json:"least"`
}

// AllShallow is readings that all lie where the piston hardly moves.
type AllShallow struct {
	Within geometry.Length `json:"within_mm"`
}

// FlankMissing is a side of TDC without a reading.
type FlankMissing struct {
	Side  Side `json:"side"`
	Pairs int  `json:"pairs_of_angles,omitempty"` // that hold TDC in its stead
	// Unsigned is the first reading where all were typed on one side of the protractor's
	// zero: some of them may have lost their sign.
	Unsigned *Place `json:"all_on_one_side_of_zero_from,omitempty"`
}

// FlankThin is a side with few readings.
type FlankThin struct {
	Side     Side `json:"side"`
	Readings int  `json:"readings"`
}

// FlanksLopsided is one side read much deeper than the other.
type FlanksLopsided struct {
	Deeper  Side            `json:"deeper"`
	Deep    geometry.Length `json:"deep_mm"`
	Shallow geometry.Length `json:"shallow_mm"`
}

// SuspectReading is a reading that does not fit.
type SuspectReading struct {
	Place
	Off      geometry.Length `json:"off_mm"`
	Times    float64         `json:"times_expected"`
	Weight   float64         `json:"weight"`
	DialTurn bool            `json:"one_dial_turn"`
	// Where no piston comes: a stroke that the reading lies deeper than, or how far it lies
	// above the highest point; zero elsewhere.
	DeeperThan geometry.Length `json:"deeper_than_stroke_mm,omitempty"`
	AboveTop   geometry.Length `json:"above_top_mm,omitempty"`
}

// MoreSuspects is how many readings beyond those named do not fit.
type MoreSuspects struct {
	More int `json:"more"`
	Of   int `json:"of"`
}

// WithEveryReading is TDC with every reading trusted.
type WithEveryReading struct {
	TDC      geometry.Angle `json:"-"` // crank, from the protractor's zero
	Expanded geometry.Angle `json:"expanded_uncertainty_deg"`
}

// AgainstTurn is a run of readings that follow one another the other way than
// their turn says.
type AgainstTurn struct {
	Place
	Steps int `json:"steps"`
}

// Scattered is readings that scatter more than the instruments explain.
type Scattered struct {
	Times float64 `json:"times"`
}

// FewLieApart is so few readings that lie a little apart that chance and fault look alike.
type FewLieApart struct{}

// ScaleOff is a gauge that shows another travel than stroke and rod make.
type ScaleOff struct {
	Scale float64 `json:"scale"`
}

// StrokeUnknown is a stroke that nobody stated.
type StrokeUnknown struct{}

// RodAssumed is a rod that nobody stated.
type RodAssumed struct {
	Rod     geometry.Length `json:"rod_mm"`
	KnownTo geometry.Length `json:"known_to_mm"`
}

// PairMisfit is a stop, dwell or view that does not fit.
type PairMisfit struct {
	Pair  string         `json:"pair"`
	Off   geometry.Angle `json:"off_deg"` // of its midpoint, late positive
	Times float64        `json:"times_expected"`
}

// PairScatter is repeats of a pair that lie apart.
type PairScatter struct {
	Pair  string         `json:"pair"`
	Apart geometry.Angle `json:"apart_deg"`
}

// DwellOneWay is a dwell seen turning one way only.
type DwellOneWay struct{}

// MethodApart is a kind of evidence that disagrees with the rest.
type MethodApart struct {
	Method string         `json:"method"`
	Off    geometry.Angle `json:"off_deg"` // late positive
	Limit  geometry.Angle `json:"limit_deg"`
	Moved  bool           `json:"seen_before_move,omitempty"` // the protractor moved, and seen before that it would agree
}

// MaybeBottom is readings too coarse to tell TDC from BDC by their shape.
type MaybeBottom struct{}

// NotSettled is a fit that did not settle: TDC cannot be determined.
type NotSettled struct {
	Status string `json:"status"`
}

// BeyondReason is scatter that no piston makes: TDC cannot be determined.
type BeyondReason struct {
	Times float64 `json:"times"`
}

// OffsetUnstated is an offset that nobody stated, and what stating it would gain.
type OffsetUnstated struct {
	KnownTo  geometry.Length `json:"known_to_mm"`              // half-width allowed for in its place
	Expanded geometry.Angle  `json:"expanded_uncertainty_deg"` // of TDC as it is
	Stated   geometry.Angle  `json:"if_stated_deg"`            // the same with the offset stated
}

// PairContradicts is a stop, dwell or view that contradicts readings too few to overrule
// it: TDC cannot be determined.
type PairContradicts struct {
	Pair string         `json:"pair"`
	Off  geometry.Angle `json:"off_deg"` // from where the readings put TDC, late positive
}

// TooVague is an interval too wide to go by: TDC cannot be determined.
type TooVague struct {
	Expanded geometry.Angle `json:"expanded_uncertainty_deg"`
}
