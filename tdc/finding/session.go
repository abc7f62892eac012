package finding

import "evendrop/geometry"

// Moment is when something moved during a session: after so many readings, the last of
// them at a place, and how probable it is that anything moved. Where it may as well have been
// another part, or at another time, that is said beside it, with how probable this is.
type Moment struct {
	Place
	After       int     `json:"after_reading"`
	Probability float64 `json:"probability"`
	This        float64 `json:"probability_of_this,omitempty"`
	Or          Part    `json:"or,omitempty"` // "" where this is much the likeliest
	OrAfter     int     `json:"or_after_reading,omitempty"`
}

// Part is what may have moved.
type Part string

// The parts; a turn is one that was written wrongly.
const (
	ProtractorPart Part = "protractor"
	GaugePart      Part = "gauge zero"
	TurnPart       Part = "turn"
)

// Later is the moment counted from so many readings earlier.
func (m Moment) Later(readings int) Moment {
	m.After += readings
	if m.Or != "" {
		m.OrAfter += readings
	}
	return m
}

// ProtractorMoved is a protractor, or its pointer, that reads more from then on.
type ProtractorMoved struct {
	Moment
	By       geometry.Angle `json:"forward_deg"` // in the running direction, less is negative
	Expanded geometry.Angle `json:"expanded_uncertainty_deg"`
}

// GaugeMoved is a gauge that reads more from then on.
type GaugeMoved struct {
	Moment
	By       geometry.Length `json:"more_mm"` // as its numbers grow, less is negative
	Expanded geometry.Length `json:"expanded_uncertainty_mm"`
}

// TurnSwapped is a run of readings that fit as turned the other way than written; the
// place is the first of them.
type TurnSwapped struct {
	Place
	From        int     `json:"from_reading"`
	To          int     `json:"to_reading"`
	Probability float64 `json:"probability"`
}

// MovedOneWay is something that moved while all readings were turned one way: TDC
// cannot be determined.
type MovedOneWay struct {
	Moment
}

// OneWayOnly is readings turned one way, which cannot show that something moved between
// the flanks.
type OneWayOnly struct{}

// LashBeyond is lash far outside its stated range.
type LashBeyond struct {
	Lash     geometry.Length `json:"lash_mm"`
	Expanded geometry.Length `json:"expanded_uncertainty_mm"`
	Stated   geometry.Length `json:"stated_mm"`
	KnownTo  geometry.Length `json:"stated_known_to_mm"`
}

func (ProtractorMoved) Kind() string { return "protractor moved" }
func (ProtractorMoved) Cure() Cure   { return LookAtEngine }

func (GaugeMoved) Kind() string { return "gauge moved" }
func (GaugeMoved) Cure() Cure   { return LookAtEngine }

func (TurnSwapped) Kind() string { return "turn swapped" }
func (TurnSwapped) Cure() Cure   { return MendJob }

func (MovedOneWay) Kind() string { return "moved, turned one way" }
func (MovedOneWay) Cure() Cure   { return TurnBack }

func (OneWayOnly) Kind() string { return "turned one way only" }
func (OneWayOnly) Cure() Cure   { return TurnBack }

func (LashBeyond) Kind() string { return "lash beyond its range" }
func (LashBeyond) Cure() Cure   { return LookAtEngine }
