package finding

import "evendrop/geometry"

// TimeUnitAssumed is a time column whose unit nothing tells: seconds.
type TimeUnitAssumed struct{}

// LastLineCut is a last line that was written only in part, and left out.
type LastLineCut struct{}

// TimesRounded is times with too few digits to tell rows apart: rows are taken as
// evenly spaced.
type TimesRounded struct{}

// UsedInPart is a capture with more edges than are kept at once.
type UsedInPart struct {
	Seconds float64 `json:"used_s"`
	Edges   int     `json:"edges"`
}

// BounceIgnored is changes of level too soon after others to be teeth.
type BounceIgnored struct {
	Changes int `json:"changes"`
}

// WheelFromSignal is a wheel that nobody stated: what comes again in the signal.
type WheelFromSignal struct {
	Wheel string `json:"wheel"`
}

// GapsElsewhere is a wheel whose gaps the signal has elsewhere than is usual.
type GapsElsewhere struct {
	Wheel string `json:"wheel"`
	Usual string `json:"usual_intervals_deg"`
	Seen  string `json:"seen_intervals_deg"`
}

// GapsFromSignal is a wheel whose name tells no places for its gaps.
type GapsFromSignal struct {
	Wheel string `json:"wheel"`
	Seen  string `json:"seen_intervals_deg"`
}

// PartsByCams is a wheel of equal parts that the cams tell apart.
type PartsByCams struct {
	Parts int `json:"equal_parts"`
}

// PartsUntold is a wheel of equal parts that nothing tells apart.
type PartsUntold struct {
	Parts  int            `json:"equal_parts"`
	Period geometry.Angle `json:"period_deg"`
	Cams   int            `json:"cams"` // in the capture
}

// MaybeThirds is a crank signal that a wheel of three such parts would make as well.
type MaybeThirds struct {
	Wheel  string `json:"wheel"`
	Thirds string `json:"wheel_of_thirds"`
}

// CamsInThirds is cams that come again after two thirds of a turn.
type CamsInThirds struct {
	Wheel string `json:"wheel"`
}

// LeadsReversed is a coil's signal that rises where a tooth passes.
type LeadsReversed struct{}

// RoughTooth is a tooth that stands off where its neighbours put it.
type RoughTooth struct {
	Tooth int            `json:"tooth"`   // from 1, the first after the gap
	Off   geometry.Angle `json:"off_deg"` // late positive
}

// ManyTurnsLeftOut is many turns whose teeth are not the wheel's.
type ManyTurnsLeftOut struct {
	Wheel   string `json:"wheel"`
	LeftOut int    `json:"turns_left_out"`
	Used    int    `json:"turns_used"`
}

// CoarseTimes is times too coarse to time single edges well.
type CoarseTimes struct {
	Step   geometry.Angle `json:"step_deg"`   // crank
	Digits bool           `json:"last_digit"` // it is that of the times as written, not a sample's
}

// OneTurnOnly is cams that do not tell one turn of the crank from the next.
type OneTurnOnly struct{}

// NoCamEdge is a cam's column without an edge that comes back.
type NoCamEdge struct {
	Column int `json:"column"`
}

// EdgeWanders is a cam edge that scatters from turn to turn.
type EdgeWanders struct {
	Column    int            `json:"column"` // from 1
	Edge      string         `json:"edge"`   // rising or falling
	Angle     geometry.Angle `json:"crank_deg_after_gap"`
	Deviation geometry.Angle `json:"standard_deviation_deg"`
}

// StrayPassings is passings of cam signals that do not come again.
type StrayPassings struct {
	Passings int `json:"passings"`
}

// Two captures.

// LeadsDiffer is a crank signal that leads with another edge in each capture.
type LeadsDiffer struct {
	Before string `json:"before_edge"`
	After  string `json:"after_edge"`
}

// SpeedsDiffer is captures at different mean speeds.
type SpeedsDiffer struct {
	Before float64 `json:"before_rpm"`
	After  float64 `json:"after_rpm"`
}

// EdgeCountsDiffer is a column with more edges in one capture: it is not compared.
type EdgeCountsDiffer struct {
	Column int `json:"column"` // from 1
	Before int `json:"before_edges"`
	After  int `json:"after_edges"`
}

// EdgeKindsDiffer is a column with edges of other kinds: it is not compared.
type EdgeKindsDiffer struct {
	Column int `json:"column"`
}

// KnownGoodSilent is a known-good file, which tells neither speed nor leads.
type KnownGoodSilent struct{}

// ShiftsUnsure is edges seen too rarely to say how sure their shifts are.
type ShiftsUnsure struct{}

// NoEdgeMoved is no shift beyond chance.
type NoEdgeMoved struct{}

// Move is a shift that several edges share.
type Move struct {
	Off      geometry.Angle `json:"shift_deg"` // crank, late positive
	Expanded geometry.Angle `json:"expanded_uncertainty_deg"`
	Pitches  float64        `json:"pitches"`
	Wheel    string         `json:"wheel"` // whose pitches they are
}

// AllCamsMoved is all edges of all cams moved alike.
type AllCamsMoved struct{ Move }

// OnlyCamMoved is all edges of the one cam in the captures moved alike.
type OnlyCamMoved struct{ Move }

// OneCamMoved is one cam moved and the others not.
type OneCamMoved struct {
	Column int `json:"column"` // from 1
	Move
}

// OneEdgeMoved is one edge moved and no other of its cam.
type OneEdgeMoved struct {
	Column int            `json:"column"` // from 1
	Edge   string         `json:"edge"`   // rising or falling
	Angle  geometry.Angle `json:"crank_deg_after_gap"`
}

// CamUneven is one cam whose edges moved by different amounts.
type CamUneven struct {
	Column int `json:"column"`
}

// CamsApart is cams that moved by different amounts.
type CamsApart struct {
	Cams []CamMove `json:"cams"`
}

// CamMove is how far one cam moved; nil where its edges moved by different amounts.
type CamMove struct {
	Column int   `json:"column"` // from 1
	Move   *Move `json:"move"`
}

// The kinds, by name, and what would cure each.

func (TimeUnitAssumed) Kind() string { return "time unit assumed" }
func (TimeUnitAssumed) Cure() Cure   { return MendJob }

func (LastLineCut) Kind() string { return "last line cut" }
func (LastLineCut) Cure() Cure   { return None }

func (TimesRounded) Kind() string { return "times rounded" }
func (TimesRounded) Cure() Cure   { return ReadAgain }

func (UsedInPart) Kind() string { return "used in part" }
func (UsedInPart) Cure() Cure   { return None }

func (BounceIgnored) Kind() string { return "bounce ignored" }
func (BounceIgnored) Cure() Cure   { return None }

func (WheelFromSignal) Kind() string { return "wheel from signal" }
func (WheelFromSignal) Cure() Cure   { return LookAtEngine }

func (GapsElsewhere) Kind() string { return "gaps elsewhere" }
func (GapsElsewhere) Cure() Cure   { return LookAtEngine }

func (GapsFromSignal) Kind() string { return "gaps from signal" }
func (GapsFromSignal) Cure() Cure   { return None }

func (PartsByCams) Kind() string { return "parts by cams" }
func (PartsByCams) Cure() Cure   { return None }

func (PartsUntold) Kind() string { return "parts not told apart" }
func (PartsUntold) Cure() Cure   { return ReadMore }

func (MaybeThirds) Kind() string { return "maybe thirds" }
func (MaybeThirds) Cure() Cure   { return ReadMore }

func (CamsInThirds) Kind() string { return "cams in thirds" }
func (CamsInThirds) Cure() Cure   { return LookAtEngine }

func (LeadsReversed) Kind() string { return "leads reversed" }
func (LeadsReversed) Cure() Cure   { return LookAtEngine }

func (RoughTooth) Kind() string { return "rough tooth" }
func (RoughTooth) Cure() Cure   { return LookAtEngine }

func (ManyTurnsLeftOut) Kind() string { return "many turns left out" }
func (ManyTurnsLeftOut) Cure() Cure   { return LookAtEngine }

func (CoarseTimes) Kind() string { return "coarse times" }
func (CoarseTimes) Cure() Cure   { return ReadAgain }

func (OneTurnOnly) Kind() string { return "one turn only" }
func (OneTurnOnly) Cure() Cure   { return ReadMore }

func (NoCamEdge) Kind() string { return "no cam edge" }
func (NoCamEdge) Cure() Cure   { return LookAtEngine }

func (EdgeWanders) Kind() string { return "edge wanders" }
func (EdgeWanders) Cure() Cure   { return LookAtEngine }

func (StrayPassings) Kind() string { return "stray passings" }
func (StrayPassings) Cure() Cure   { return None }

func (LeadsDiffer) Kind() string { return "leads differ" }
func (LeadsDiffer) Cure() Cure   { return ReadAgain }

func (SpeedsDiffer) Kind() string { return "speeds differ" }
func (SpeedsDiffer) Cure() Cure   { return ReadAgain }

func (EdgeCountsDiffer) Kind() string { return "edge counts differ" }
func (EdgeCountsDiffer) Cure() Cure   { return ReadAgain }

func (EdgeKindsDiffer) Kind() string { return "edge kinds differ" }
func (EdgeKindsDiffer) Cure() Cure   { return ReadAgain }

func (KnownGoodSilent) Kind() string { return "known-good tells no speed" }
func (KnownGoodSilent) Cure() Cure   { return ReadAgain }

func (ShiftsUnsure) Kind() string { return "shifts unsure" }
func (ShiftsUnsure) Cure() Cure   { return ReadMore }

func (NoEdgeMoved) Kind() string { return "no edge moved" }
func (NoEdgeMoved) Cure() Cure   { return None }

func (AllCamsMoved) Kind() string { return "all cams moved" }
func (AllCamsMoved) Cure() Cure   { return LookAtEngine }

func (OnlyCamMoved) Kind() string { return "only cam moved" }
func (OnlyCamMoved) Cure() Cure   { return ReadMore }

func (OneCamMoved) Kind() string { return "one cam moved" }
func (OneCamMoved) Cure() Cure   { return LookAtEngine }

func (OneEdgeMoved) Kind() string { return "one edge moved" }
func (OneEdgeMoved) Cure() Cure   { return LookAtEngine }

func (CamUneven) Kind() string { return "cam uneven" }
func (CamUneven) Cure() Cure   { return LookAtEngine }

func (CamsApart) Kind() string { return "cams apart" }
func (CamsApart) Cure() Cure   { return LookAtEngine }
