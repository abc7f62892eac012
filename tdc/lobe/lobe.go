package lobe

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Valve is which valve a lobe opens.
type Valve string

// The valves.
const (
	Inlet   Valve = "inlet"
	Exhaust Valve = "exhaust"
)

// Reading is one angle and one lift taken together.
type Reading struct {
	Angle geometry.Angle  // crank, in the running direction from the protractor's zero
	Lift  geometry.Length // above what the gauge shows on the heel
	Turn  evidence.TurnDirection
	Side  evidence.Side // that the angle was written with
	Note  string
	File  string // where it stands, for messages
	Line  int
}

// place is where a reading stands, for a finding.
func (r Reading) place() finding.Place {
	return finding.Place{File: r.File, Line: r.Line, Angle: r.Angle, Turn: r.Turn}
}

// Gauge is the dial on the valve or its follower.
type Gauge struct {
	Step         geometry.Length // smallest difference read
	Error        geometry.Length // bound on its own error at a position
	RunOut       geometry.Length // of the cam's bearings and heel, in all
	ScaleKnownTo float64         // half-width about 1: tilt, a long stem
}

// DefaultGauge is a dial as commonly met, along the valve's axis within 10 deg, which is
// 1.5 % (lobes.md 2; the rest common practice, no source).
func DefaultGauge() Gauge {
	return Gauge{Step: 0.01, Error: 0.02, RunOut: 0.02, ScaleKnownTo: 0.015}
}

// Uncertainty is the standard uncertainty of one lift.
func (g Gauge) Uncertainty() geometry.Length {
	return evidence.Gauge{Step: g.Step, Error: g.Error}.Uncertainty()
}

// Lobe is one cam lobe, what was read of it, and what its card says.
type Lobe struct {
	Name     string
	On       string // the member that carries it
	Valve    Valve
	Cylinder int
	Set      int       // of the protractor on the crank; 0 for the first
	After    *int      // after so many readings of cylinder 1 it was read; nil: nobody said
	Readings []Reading // in the order turned
	Card     Card
	Limit    geometry.Angle // allowed either way, crank
	HasLimit bool
	Source   string
	Ratio    float64         // gauge lift = Ratio x the card's lift - Lash; 0 stands for 1
	Lash     geometry.Length // at the valve, where the card's lifts are the lobe's
	Slack    geometry.Angle  // of the drive, crank, that a closing lobe may take up
	Gauge    Gauge
}

// Checking is the card's lift as the gauge shows it.
func (l Lobe) Checking() geometry.Length { return l.shown(l.Card.Lift) }

// shown is what the gauge shows of a lift on the card.
func (l Lobe) shown(lift geometry.Length) geometry.Length {
	if l.Ratio == 0 {
		return lift - l.Lash
	}
	return geometry.Length(l.Ratio)*lift - l.Lash
}

// about is the lobe, for a finding.
func (l Lobe) about() finding.Mark { return finding.Mark{Name: l.Name} }
