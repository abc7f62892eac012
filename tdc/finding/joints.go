package finding

import "evendrop/geometry"

// Slip is one or several joints that have moved, as far as the marks can tell.
type Slip struct {
	Joints   []string       `json:"joints"`          // more than one: nothing measured separates them
	Opposite []string       `json:"opposite_joints"` // those of them that would have moved the other way
	Off      geometry.Angle `json:"shift_deg"`       // late positive
	Expanded geometry.Angle `json:"expanded_uncertainty_deg"`
}

// Joint is the joint whose slip a finding is about, and its size.
type Joint struct {
	Name string         `json:"joint"`
	Off  geometry.Angle `json:"shift_deg"` // late positive
}

// Step is what a joint moves by when it moves by whole steps.
type Step string

// The steps.
const (
	Tooth    Step = "tooth" // of the crank sprocket
	BoltHole Step = "hole"  // of the flywheel
	Pitch    Step = "pitch" // of the crank wheel
)

// Steps is the steps round a member.
type Steps struct {
	Step   Step   `json:"step"`
	InTurn int    `json:"steps_in_turn"`
	Wheel  string `json:"wheel"` // its name, of a pitch
}

// Each is the angle of one step.
func (s Steps) Each() geometry.Angle { return geometry.Turn / geometry.Angle(s.InTurn) }

// WholeSteps is a slip that agrees with whole steps.
type WholeSteps struct {
	Joint
	Count int `json:"count"`
	Steps
}

// NoWholeSteps is a slip of what moves by whole steps that agrees with none.
type NoWholeSteps struct {
	Joint
	Steps
}

// HalfCamTurn is a slip of a whole turn of the crank at a cam.
type HalfCamTurn struct{ Joint }

// LobeItself is a slip of a lobe beside its cam: of the lobe, or of what follows it.
type LobeItself struct{ Joint }

// UsualSize is a slip whose size causes are known for.
type UsualSize struct {
	Joint
	Causes []Cause `json:"causes"`
}

// Cause is what makes a joint slip.
type Cause string

// The causes.
const (
	WornDrive    Cause = "worn drive"
	WornKey      Cause = "worn key"
	FrictionHeld Cause = "sprocket held by friction"
	FreePhaser   Cause = "phaser not locked"
	BentPart     Cause = "bent part"
	CreptDamper  Cause = "damper ring crept"
	MistakenTDC  Cause = "TDC mistaken"
	MovedScale   Cause = "protractor or pointer moved"
)

// TDCByOffset is a slip of TDC itself that an offset of pin or bore makes.
type TDCByOffset struct {
	Joint
	Offset geometry.Length `json:"offset_mm"`
	Stated bool            `json:"offset_stated"` // it is the engine's own
}

// EdgesApart is edges of one cam's wheel that disagree by more than chance explains: no
// joint moves one edge alone.
type EdgesApart struct {
	Mark  string         `json:"mark"`   // the edge that lies farthest from the others
	Wheel string         `json:"wheel"`  // that they are on
	Edges int            `json:"edges"`  // marked on it
	By    geometry.Angle `json:"by_deg"` // from the middle one, late positive
}

// WornLong is two cams along one drive, both late, the farther more, and neither by whole
// teeth: so stands an engine whose belt or chain has worn long.
type WornLong struct {
	Nearer       string         `json:"nearer"`   // the sprocket of the cam that is less late
	Farther      string         `json:"farther"`  // and of the other
	Told         bool           `json:"told"`     // the drive's layout tells which is the farther
	Late         geometry.Angle `json:"late_deg"` // of the nearer
	LateExpanded geometry.Angle `json:"late_expanded_uncertainty_deg"`
	More         geometry.Angle `json:"more_deg"` // that the farther is later than the nearer
	MoreExpanded geometry.Angle `json:"more_expanded_uncertainty_deg"`
	Beyond       bool           `json:"beyond_limits"` // marks made within their limits do not make that much
}

// SlipBack is whether a slip that the marks pointed to before still shows after.
type SlipBack struct {
	Before Slip            `json:"before"`
	Now    Return          `json:"now"`
	After  *Slip           `json:"after"`              // as it shows now; nil unless NotBack
	Within *geometry.Angle `json:"back_to_within_deg"` // of NothingMoved, as sure as 95 %; nil where no mark sees it
	Tried  int             `json:"slips_tried"`        // of Unexplained
}

// Return is what the marks say of a slip after a repair.
type Return string

// The returns.
const (
	Unexplained  Return = "unexplained"   // nothing explains the marks now
	NothingMoved Return = "nothing moved" // nothing need have moved now
	NotBack      Return = "not back"      // they still point to it
	MaybeBack    Return = "cannot tell"   // it is among several that they may point to
	Elsewhere    Return = "elsewhere"     // they point to others now
)

// The kinds, by name, and what would cure each.

func (WholeSteps) Kind() string { return "whole steps" }
func (WholeSteps) Cure() Cure   { return LookAtEngine }

func (NoWholeSteps) Kind() string { return "no whole steps" }
func (NoWholeSteps) Cure() Cure   { return LookAtEngine }

func (HalfCamTurn) Kind() string { return "half a cam turn" }
func (HalfCamTurn) Cure() Cure   { return LookAtEngine }

func (LobeItself) Kind() string { return "lobe itself" }
func (LobeItself) Cure() Cure   { return LookAtEngine }

func (UsualSize) Kind() string { return "usual size" }
func (UsualSize) Cure() Cure   { return LookAtEngine }

func (TDCByOffset) Kind() string { return "offset makes TDC's" }
func (TDCByOffset) Cure() Cure   { return MendJob }

func (EdgesApart) Kind() string { return "edges of a wheel apart" }
func (EdgesApart) Cure() Cure   { return MendJob }

func (WornLong) Kind() string { return "drive worn long" }
func (WornLong) Cure() Cure   { return LookAtEngine }

func (SlipBack) Kind() string { return "slip back" }
func (SlipBack) Cure() Cure   { return LookAtEngine }
