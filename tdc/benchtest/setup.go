package benchtest

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Engine is an engine of a stroke and a rod in mm, its offset stated as nought.
func Engine(stroke, rod float64) evidence.Engine {
	return evidence.Engine{Stroke: geometry.Length(stroke), Rod: geometry.Length(rod),
		KnownTo: evidence.DefaultKnownTo(true), OffsetStated: true}
}

// Unstated is an engine of whose offset nobody said a word.
func Unstated(e evidence.Engine) evidence.Engine {
	e.OffsetStated = false
	e.KnownTo.Offset = evidence.DefaultKnownTo(false).Offset
	return e
}

// Protractor is a degree wheel of a step and an error in degrees.
func Protractor(step, bound float64) evidence.Protractor {
	p := evidence.DefaultProtractor()
	p.Step, p.Error = geometry.Angle(step)*geometry.Degree, geometry.Angle(bound)*geometry.Degree
	return p
}

// Gauge is a gauge of a kind with a step and an error in mm.
func Gauge(kind evidence.GaugeKind, step, bound float64) evidence.Gauge {
	g := evidence.DefaultGauge(kind)
	g.Step, g.Error = geometry.Length(step), geometry.Length(bound)
	return g
}
