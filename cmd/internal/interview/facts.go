package interview

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/record"
	"evendrop/tdc/mark"
)

// Facts are what is known of a job. They are a value: what one holds is never changed.
type Facts struct {
	Name    string
	Unit    string // "mm" or "in", of a length without one
	Engine  evidence.Engine
	Sense   evidence.Sense
	Tried   bool           // somebody said which way the protractor's numbers grow
	Scale   evidence.Scale // 0: not said
	Sides   bool           // each angle is written with BTDC or ATDC
	Gauge   evidence.GaugeKind
	GaugeUp bool // its numbers grow as the piston comes up
	Beside  Beside
	Marks   []Mark // to be judged
	Added   Added  // to a job that there is already
	Sheet   record.Sheet

	wantsSheet bool // for a customer

	inches       bool // some length carried inches
	understood   bool // a scale, from two readings
	contradicted bool // what was understood of them
	second       bool // another gauge is added
}

// Beside is what reads the piston without a depth, beside a gauge or without one.
type Beside struct{ Stop, Dwell, Views bool }

// Mark is something that is to be judged.
type Mark struct {
	Name, On string
	In       mark.Unit // the unit that its shift is measured in; "" of one that is read at the protractor
}

// length is a length in the unit of the job, for a sentence.
func (f Facts) length(l geometry.Length) string {
	if f.Unit == "in" {
		return evidence.ShortNumber(l.Inches()) + " in"
	}
	return evidence.ShortNumber(l.Millimetres()) + " mm"
}
