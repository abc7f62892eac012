package evidence

import (
	"math"

	"evendrop/geometry"
)

// GaugeKind is what the piston's depth was read with.
type GaugeKind string

// The kinds of gauge.
const (
	Dial      GaugeKind = "dial"      // dial gauge, with or without extension
	DepthRod  GaugeKind = "rod"       // a rod on the crown with calliper or rule
	Borescope GaugeKind = "borescope" // depth judged by eye
)

// Count is the way a gauge's numbers grow.
type Count int

// The two ways of counting.
const (
	Down Count = iota // numbers grow as the piston goes down
	Up                // numbers grow as the piston comes up
)

// Gauge is the instrument on the piston, and the lash that it sees.
type Gauge struct {
	Kind         GaugeKind
	Number       string // that it goes by in its workshop; "" of one that nobody said
	Counts       Count
	Step         geometry.Length // smallest difference read
	Error        geometry.Length // bound on its own error at a position
	ScaleKnownTo float64         // half-width about 1: tilt, crown slope, extension
	Lash         geometry.Length // expected: total clearance taken up when the motion reverses
	LashKnownTo  geometry.Length // half-width
	SameZero     bool            // one set-up read every cylinder: their crowns may be compared
	ZeroAtDeck   bool            // it shows nought with the crown level with the deck
}

// DefaultGauge is a gauge of a kind as commonly met (common practice, no
// source): a dial gauge's error with an extension, a calliper on a rod, a crown
// judged through a borescope, and the lash of a car engine in fair order.
// An unknown kind is taken for a dial gauge.
func DefaultGauge(kind GaugeKind) Gauge {
	g := Gauge{Kind: kind, ScaleKnownTo: 0.07, Lash: 0.06, LashKnownTo: 0.06}
	switch kind {
	case DepthRod:
		g.Step, g.Error = 0.05, 0.1
	case Borescope:
		g.Step, g.Error, g.ScaleKnownTo = 0.5, 0.5, 0.15
	default:
		g.Step, g.Error = 0.01, 0.02
	}
	return g
}

// Uncertainty is the standard uncertainty of one depth reading, of the kind of
// Protractor.Uncertainty.
func (g Gauge) Uncertainty() geometry.Length {
	return geometry.Length(math.Hypot(float64(g.Error)/math.Sqrt(3), float64(g.Step)/math.Sqrt(12)))
}

// Falling turns a depth as the gauge shows it into one that grows as the piston
// goes down, and back.
func (g Gauge) Falling(depth geometry.Length) geometry.Length {
	if g.Counts == Up {
		return -depth
	}
	return depth
}

// String is the way of counting as the job file writes it.
func (c Count) String() string {
	if c == Up {
		return "up"
	}
	return "down"
}
