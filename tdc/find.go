package tdc

import (
	"errors"
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
	"evendrop/tdc/look"
)

// Find tells where one cylinder's piston is highest, on the protractor as it was set
// last. Readings that cannot say, too few of them or taken about bottom dead centre, are
// an error that says what to do; what only weakens the answer is in its findings.
func Find(setup evidence.Setup, cylinder evidence.Cylinder) (Result, error) {
	return lastOf(cylinder.Sets(), func(c evidence.Cylinder) (Result, error) { return findOne(setup, c) })
}

// findOne is Find of readings on one setting of the protractor.
func findOne(setup evidence.Setup, cylinder evidence.Cylinder) (Result, error) {
	result, err := find(setup, cylinder)
	if err == nil {
		result.keepFittingSigns(setup, cylinder)
	}
	return withSigns(setup, cylinder, result, err)
}

// find is Find with every angle on the side that it was typed on.
func find(setup evidence.Setup, cylinder evidence.Cylinder) (Result, error) {
	crank, assumed, err := evidence.WithAssumed(setup.Engine)
	if err != nil {
		return Result{}, fmt.Errorf("engine: %w", err)
	}
	read, pairs := cylinder.Readings, curve.Midpoints(setup, crank, cylinder)
	var few []evidence.Reading // too few to tell anything beside the pairs
	if len(read) < look.Fewest && len(pairs) > 0 {
		few, read = read, nil
	}
	first, err := begin(crank, assumed, read, pairs)
	if err != nil {
		return Result{}, err
	}
	if first.Turned { // of a few coarse readings on one flank by chance: the job's word holds where it can
		first = asTyped(first, setup, crank, assumed, read, pairs)
	}
	if first.Turned {
		setup.Gauge, read = countedTheOtherWay(setup.Gauge, read)
	}
	solved, err := solve.Readings(setup, crank, assumed, read, pairs, first.Rough)
	if err != nil {
		return Result{}, err
	}
	unit := wrongUnit(setup, assumed, read, first.Rough)
	if err := refusal(solved, first); err != nil {
		if unit != nil {
			return Result{}, finding.Refusal{Finding: *unit}
		}
		return Result{}, err
	}
	told := session(solved, setup, read, len(pairs))
	a := told.Fit
	result := assembled(setup, cylinder.Number, a, first.Turned, told.Slip != nil)
	result.Assumed, result.CannotTell = assumed, a.CannotTell(result.TDC.Expanded)
	if a.ScaleFar() || !a.Settled() {
		result.unit = unit
		if unit != nil && result.TDC.Expanded > halve.Vague { // figures that are no figures, by roundings these or others
			return Result{}, finding.Refusal{Finding: *unit}
		}
	}
	result.Findings = append(weakened(result, len(pairs), first.Turned), remarks(first, few)...)
	result.sayMoved(told)
	if result.unit != nil {
		result.CannotTell = *result.unit
		result.sayFirst(result.CannotTell)
	}
	result.Findings = append(result.Findings, result.unsignedRows(read)...)
	result.follow(newOrder(setup.Protractor, cylinder, result.TDC.Angle))
	result.untoldOneWay()
	return result, nil
}

// refusal is why there is no answer: nothing that fixes TDC, a piston at the
// bottom, or two places that fit alike.
func refusal(a *solve.Solved, first look.Opening) error {
	switch {
	case !a.Determined():
		return errors.New("the readings do not fix TDC: take some on the other side of it, at other depths")
	case first.MaybeBottom && a.UnlikelyTop():
		return look.ErrBottom
	}
	return a.Rival()
}

// remarks is what to be wary of before any sum was done.
func remarks(first look.Opening, few []evidence.Reading) (list []finding.Finding) {
	if first.MaybeBottom {
		list = append(list, finding.MaybeBottom{})
	}
	if len(few) > 0 {
		list = append(list, finding.NotUsed{Readings: len(few), Least: look.Fewest})
	}
	return list
}

// begin is where to begin: a rough curve through the readings, or without them the
// first pair's midpoint.
func begin(crank geometry.SliderCrank, assumed evidence.Assumed, read []evidence.Reading, pairs []curve.Midpoint) (look.Opening, error) {
	if len(read) == 0 && len(pairs) > 0 {
		return look.Opening{Rough: look.Rough{TDC: float64(pairs[0].Angle), Scale: 1}}, nil
	}
	if len(read) < look.Fewest {
		return look.Opening{}, fmt.Errorf("too few readings for TDC, %d: take at least %d, better 12, on both sides of it", len(read), look.Fewest)
	}
	angle, depth := evidence.Columns(read)
	return look.Open(crank, assumed.Stroke == 0, angle, depth)
}

// asTyped is where to begin by the gauge as it is said to count, where the instruments explain
// all that the readings then leave; else by the gauge turned round.
func asTyped(turned look.Opening, setup evidence.Setup, crank geometry.SliderCrank, assumed evidence.Assumed, read []evidence.Reading, pairs []curve.Midpoint) look.Opening {
	if math.IsInf(turned.AsTyped.Misfit, 1) {
		return turned
	}
	solved, err := solve.Readings(setup, crank, assumed, read, pairs, turned.AsTyped)
	if a := (&adjust.Adjustment{Solved: solved}); err != nil || !a.Explained() || !a.AboutTop() && a.Rival() == nil {
		return turned
	}
	return look.Opening{Rough: turned.AsTyped}
}

// countedTheOtherWay is the gauge and the readings with depths turned round.
func countedTheOtherWay(gauge evidence.Gauge, read []evidence.Reading) (evidence.Gauge, []evidence.Reading) {
	gauge.Counts = evidence.Up - gauge.Counts
	turned := make([]evidence.Reading, len(read))
	for i, r := range read {
		r.Depth = -r.Depth
		turned[i] = r
	}
	return gauge, turned
}
