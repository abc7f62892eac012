package finding

import "evendrop/geometry"

// Moment is when something moved during a session: after so many readings, the last of
// them at a place, and how probable it is that anything moved.
type Moment struct {
	Place
	After       int      `json:"after_reading"`
	Probability float64  `json:"probability"`
	Or          *Instead `json:"or,omitempty"`
}

// From is the moment with so many readings of earlier sets counted before its own.
func (m Moment) From(taken int) Moment {
	m.After += taken
	m.Or = m.Or.From(taken)
	return m
}

// Instead is what may have moved instead, where the readings leave open which it was: the
// protractor by an angle, the gauge's zero by a depth, or the turn of some readings.
type Instead struct {
	Part  string          `json:"part"` // protractor, gauge zero or turn
	After int             `json:"after_reading"`
	To    int             `json:"to_reading,omitempty"` // of a turn
	Angle geometry.Angle  `json:"forward_deg,omitempty"`
	Depth geometry.Length `json:"more_mm,omitempty"` // as the gauge's numbers grow
}

// From is the move with so many readings of earlier sets counted before its own; nil of none.
func (m *Instead) From(taken int) *Instead {
	if m == nil {
		return nil
	}
	later := *m
	later.After += taken
	if m.To > 0 {
		later.To += taken
	}
	return &later
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
	From        int      `json:"from_reading"`
	To          int      `json:"to_reading"`
	Probability float64  `json:"probability"`
	Or          *Instead `json:"or,omitempty"`
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
