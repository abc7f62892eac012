package finding

import (
	"math"

	"evendrop/geometry"
)

// OfMark is a finding about a mark.
type OfMark interface {
	Finding
	// About is the mark's name; empty of a finding about several.
	About() string
}

// Mark is the mark that a finding is about.
type Mark struct {
	Name string `json:"mark"`
}

// About is the mark's name.
func (m Mark) About() string { return m.Name }

// ReadingsApart is a mark's readings that lie too far apart to be of one place.
type ReadingsApart struct {
	Mark
	Apart geometry.Angle `json:"apart_deg"`
}

// SetsApart is a mark whose sets of readings disagree: one has it elsewhere than all of
// them together by more than chance would.
type SetsApart struct {
	Mark
	Set   int            `json:"set"`
	By    geometry.Angle `json:"by_deg"` // late positive
	Limit geometry.Angle `json:"limit_deg"`
}

// ReadBeforeMove is a mark that may have been read before the protractor moved: it is
// not judged.
type ReadBeforeMove struct {
	Mark
	After int  `json:"after_reading"` // it moved after so many
	Said  bool `json:"said_when"`     // the mark says that it was read before, else nobody said
}

// FarOff is a mark farther off than joints slip: rather misread, or mistyped.
type FarOff struct {
	Mark
	Off geometry.Angle `json:"off_deg"` // late positive
}

// LobeFarOff is a lobe farther from its card than joints slip: rather the wrong lobe, card
// or TDC.
type LobeFarOff struct {
	Mark
	Off geometry.Angle `json:"off_deg"` // late positive
}

// KnownToAssumed is a shift that nobody said the half-width of.
type KnownToAssumed struct {
	Mark
	KnownTo geometry.Angle `json:"known_to_deg"` // of the crank
}

// ShouldBeAssumed is a mark that nobody said what it should be: 0 was taken.
type ShouldBeAssumed struct {
	Mark
	FromThrow bool `json:"from_throw"` // of the throw along the bore, else of the piston's TDC
}

// OffsetMakes is marks that are off by what an offset of pin or bore puts between
// the piston's TDC and the throw along the bore.
type OffsetMakes struct {
	Marks  []MarkOff       `json:"marks"`
	Offset geometry.Length `json:"offset_mm"`
	Stated bool            `json:"offset_stated"` // it is the engine's own
}

// MarkOff is a mark and how far it is off, late positive.
type MarkOff struct {
	Mark string         `json:"mark"`
	Off  geometry.Angle `json:"off_deg"`
}

// About is the mark's name where there is one alone.
func (o OffsetMakes) About() string {
	if len(o.Marks) == 1 {
		return o.Marks[0].Mark
	}
	return ""
}

// Together is the findings with those of marks that one offset makes off in one, at
// the end.
func Together(list []Finding) []Finding {
	var others []Finding
	var offsets []OffsetMakes
next:
	for _, f := range list {
		o, is := f.(OffsetMakes)
		if !is {
			others = append(others, f)
			continue
		}
		for i, other := range offsets {
			if other.alike(o) {
				offsets[i].Marks = append(other.Marks[:len(other.Marks):len(other.Marks)], o.Marks...)
				continue next
			}
		}
		offsets = append(offsets, o)
	}
	for _, o := range offsets {
		others = append(others, o)
	}
	return others
}

// alike tells whether two offsets are the same one, to what is said of it.
func (o OffsetMakes) alike(other OffsetMakes) bool {
	return o.Stated == other.Stated && math.Round(o.Offset.Millimetres()) == math.Round(other.Offset.Millimetres())
}

// OnItsLimit is a mark that lies on its limit: nothing would settle it.
type OnItsLimit struct{ Mark }

// MoreReadings is how many further readings, as good as those there are, would
// settle a mark that stays where it is.
type MoreReadings struct {
	Mark
	OfMark   int `json:"readings_of_mark"`
	OfPiston int `json:"readings_of_piston_each_side"`
}

// NotByReadings is a mark that further readings would not settle.
type NotByReadings struct {
	Mark
	Needed geometry.Angle `json:"needed_deg"` // what it has to be known to
	Doubt  Doubt          `json:"doubt"`      // where most of it is
	Source string         `json:"source"`     // of TDC's uncertainty, of DoubtTDC
	// Set is one in which reading it would help against DoubtProtractor, and MoveWheel
	// that the wheel has to be moved on the crank for it and the piston read again.
	Set       int  `json:"set"`
	MoveWheel bool `json:"move_wheel"`
}

// Doubt is where most of the doubt in a mark is.
type Doubt string

// The doubts.
const (
	DoubtProtractor Doubt = "protractor"
	DoubtTDC        Doubt = "TDC"
	DoubtNominal    Doubt = "nominal angle"
	DoubtHealthy    Doubt = "healthy engines"
)

// MeasuredBetter is what a shift would have to be known to.
type MeasuredBetter struct {
	Mark
	KnownTo geometry.Angle `json:"known_to_deg"` // of the crank
}

// NoMeasurement is a shift that no measurement would settle: the doubt is in where
// it should be.
type NoMeasurement struct{ Mark }

// The kinds, by name, and what would cure each.

func (ReadingsApart) Kind() string { return "mark's readings apart" }
func (ReadingsApart) Cure() Cure   { return ReadAgain }

func (SetsApart) Kind() string { return "sets apart" }
func (SetsApart) Cure() Cure   { return ReadAgain }

func (ReadBeforeMove) Kind() string { return "mark read before the move" }
func (ReadBeforeMove) Cure() Cure   { return ReadAgain }

func (FarOff) Kind() string { return "mark far off" }
func (FarOff) Cure() Cure   { return MendJob }

func (LobeFarOff) Kind() string { return "lobe far off" }
func (LobeFarOff) Cure() Cure   { return MendJob }

func (KnownToAssumed) Kind() string { return "known_to assumed" }
func (KnownToAssumed) Cure() Cure   { return MendJob }

func (ShouldBeAssumed) Kind() string { return "should_be assumed" }
func (ShouldBeAssumed) Cure() Cure   { return MendJob }

func (OffsetMakes) Kind() string { return "offset makes it" }
func (OffsetMakes) Cure() Cure   { return MendJob }

func (OnItsLimit) Kind() string { return "on its limit" }
func (OnItsLimit) Cure() Cure   { return None }

func (MoreReadings) Kind() string { return "more readings settle it" }
func (MoreReadings) Cure() Cure   { return ReadMore }

func (NotByReadings) Kind() string { return "readings do not settle it" }
func (NotByReadings) Cure() Cure   { return LookAtEngine }

func (MeasuredBetter) Kind() string { return "better measured settles it" }
func (MeasuredBetter) Cure() Cure   { return ReadAgain }

func (NoMeasurement) Kind() string { return "no measurement settles it" }
func (NoMeasurement) Cure() Cure   { return LookAtEngine }
