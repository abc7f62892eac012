package finding

import "evendrop/geometry"

// LobeFlank is a side of a lobe's top.
type LobeFlank string

// The flanks.
const (
	OpeningFlank LobeFlank = "opening"
	ClosingFlank LobeFlank = "closing"
	TopOfLobe    LobeFlank = "top" // between the two
)

// LobeFewReadings is a lobe with too few readings, or none above zero, to tell anything.
type LobeFewReadings struct {
	Mark
	Readings int `json:"readings"`
	Least    int `json:"least"`
}

// RoundTwice is lift readings that go round more than one turn in the order that they
// stand in, and make no lobe laid on one: a row mistyped, or of the other turn.
type RoundTwice struct {
	Mark
	Place // the row that lies farthest
}

// BackwardRows is lift readings taken turning backward, which were left out.
type BackwardRows struct {
	Mark
	Place     // the first of them
	Rows  int `json:"rows"`
}

// LiftsRunBack is lift readings that follow one another as the crank turns backward, and do
// not say so.
type LiftsRunBack struct {
	Mark
	Place     // the first of them
	Rows  int `json:"rows"`
}

// LiftOutOfLine is a lift reading that keeps the lifts from rising to one top and falling
// from it.
type LiftOutOfLine struct {
	Mark
	Place
	Lift    geometry.Length `json:"lift_mm"`
	LeftOut bool            `json:"left_out"` // the others do without it; else several are out of line, and nothing is said of a moved cam
}

// LiftNotStraddled is a checking lift that a flank was not read on both sides of: there is
// no event to compare with a card.
type LiftNotStraddled struct {
	Mark
	Flank    LobeFlank        `json:"flank"`
	Lift     geometry.Length  `json:"lift_mm"`
	Below    *geometry.Length `json:"below_mm"` // the nearest lift read there below it; nil: none
	Above    *geometry.Length `json:"above_mm"` // and above it
	Readings int              `json:"readings"` // on the flank
}

// StraddledWide is readings so far apart on either side of a lift that the straight line
// between them may be out.
type StraddledWide struct {
	Mark
	Flank LobeFlank       `json:"flank"`
	Lift  geometry.Length `json:"lift_mm"`
	Apart geometry.Angle  `json:"apart_deg"`
}

// FlanksUnlike is a lobe one flank of which is so many times as steep as the other where they
// pass one lift: a reading beside it was mistyped.
type FlanksUnlike struct {
	Mark
	Flank LobeFlank       `json:"steeper_flank"`
	Lift  geometry.Length `json:"lift_mm"`
	Times float64         `json:"times_as_steep"`
	Steep [2]Place        `json:"steep_between"`
	Other [2]Place        `json:"other_between"`
}

// OnRamp is a checking lift on a ramp, where an angle says nothing of a moved cam.
type OnRamp struct {
	Mark
	Flank LobeFlank       `json:"flank"`
	Lift  geometry.Length `json:"lift_mm"`
	Slope float64         `json:"slope_mm_per_deg"`
}

// OtherValve is a lobe whose centre lies where the other valve's would.
type OtherValve struct {
	Mark
	Valve  string         `json:"valve"`      // as stated
	Centre geometry.Angle `json:"centre_deg"` // after TDC
}

// HeelNotZero is a gauge that does not show zero on the heel.
type HeelNotZero struct {
	Mark
	Lift geometry.Length `json:"lift_mm"` // that it shows there
}

// TopOff is a greatest lift that is not the card's: another lobe, unit or ratio.
type TopOff struct {
	Mark
	Top   geometry.Length `json:"top_mm"`
	Meant geometry.Length `json:"meant_mm"`
	Times float64         `json:"times"`
}

// LevelApart is one level of lift whose midpoint does not lie on the line of the others.
type LevelApart struct {
	Mark
	Place                 // of the reading on the opening flank
	Lift  geometry.Length `json:"lift_mm"`
	By    geometry.Angle  `json:"by_deg"` // late positive
}

// LobeLeans is a lobe with unlike flanks: its midpoint depends on the lift.
type LobeLeans struct {
	Mark
	Lambda      float64 `json:"lambda"` // degrees of midpoint a degree of duration
	Uncertainty float64 `json:"lambda_standard_uncertainty"`
}

// LiftOffset is lift that is off by the same all over the lobe, which moves no centre:
// lash, wear, the gauge's zero, or the card of another cam.
type LiftOffset struct {
	Mark
	Offset   geometry.Length `json:"lift_offset_mm"` // missing lift positive
	Expanded geometry.Length `json:"expanded_uncertainty_mm"`
}

// RatioOff is lift that is off by more the higher it is: the rocker's ratio, the gauge's
// scale, or another lobe.
type RatioOff struct {
	Mark
	Times    float64 `json:"times"` // the healthy engine's
	Expanded float64 `json:"expanded_uncertainty"`
}

// The kinds, by name, and what would cure each.

func (LobeFewReadings) Kind() string { return "few lift readings" }
func (LobeFewReadings) Cure() Cure   { return ReadMore }

func (RoundTwice) Kind() string { return "more than a turn" }
func (RoundTwice) Cure() Cure   { return MendJob }

func (BackwardRows) Kind() string { return "lifts read backward" }
func (BackwardRows) Cure() Cure   { return ReadAgain }

func (LiftsRunBack) Kind() string { return "lifts run back" }
func (LiftsRunBack) Cure() Cure   { return MendJob }

func (LiftOutOfLine) Kind() string { return "lift out of line" }
func (LiftOutOfLine) Cure() Cure   { return ReadAgain }

func (LiftNotStraddled) Kind() string { return "lift not straddled" }
func (LiftNotStraddled) Cure() Cure   { return ReadMore }

func (FlanksUnlike) Kind() string { return "flanks unlike" }
func (FlanksUnlike) Cure() Cure   { return ReadAgain }

func (StraddledWide) Kind() string { return "lift straddled wide" }
func (StraddledWide) Cure() Cure   { return ReadMore }

func (OnRamp) Kind() string { return "lift on a ramp" }
func (OnRamp) Cure() Cure   { return ReadMore }

func (OtherValve) Kind() string { return "other valve" }
func (OtherValve) Cure() Cure   { return MendJob }

func (HeelNotZero) Kind() string { return "heel not at zero" }
func (HeelNotZero) Cure() Cure   { return ReadAgain }

func (TopOff) Kind() string { return "top off" }
func (TopOff) Cure() Cure   { return MendJob }

func (LevelApart) Kind() string { return "level apart" }
func (LevelApart) Cure() Cure   { return ReadAgain }

func (LobeLeans) Kind() string { return "lobe leans" }
func (LobeLeans) Cure() Cure   { return None }

func (LiftOffset) Kind() string { return "lift offset" }
func (LiftOffset) Cure() Cure   { return LookAtEngine }

func (RatioOff) Kind() string { return "ratio off" }
func (RatioOff) Cure() Cure   { return LookAtEngine }
