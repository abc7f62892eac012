package tdc

import (
	"math"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// weakened is what weakens the answer.
func (a *adjustment) weakened(r Result, f halve.Flanks, turned bool) (list []finding.Finding) {
	add := func(when bool, f finding.Finding) {
		if when {
			list = append(list, f)
		}
	}
	n := len(a.read)
	add(turned, finding.GaugeCountsOtherWay{Counts: a.setup.Gauge.Counts})
	add(n > 0 && n+2*len(a.pairs) < 6, finding.FewReadings{Readings: n})
	if n > 0 {
		list = append(list, f.Findings(a.read, a.angle, a.depth, a.suspect)...)
	}
	list = append(list, a.ofPairs()...)
	add(r.Dwell != nil && r.Dwell.Lag == nil, finding.DwellOneWay{})
	list = append(list, r.apart...)
	list = append(list, a.suspects()...)
	if r.WithAll != nil {
		add(true, finding.WithEveryReading{TDC: r.WithAll.Angle, Expanded: r.WithAll.Expanded})
	}
	add(a.widening.factor > 1, finding.Scattered{Times: a.widening.factor})
	add(math.Abs(a.pull()) > farPull && a.unit == nil, finding.ScaleOff{Scale: a.best.Beta[parScale]})
	add(a.assumed.Stroke > 0, finding.StrokeUnknown{})
	add(a.assumed.Rod > 0 && a.assumed.Stroke == 0, finding.RodAssumed{Rod: a.assumed.Rod, KnownTo: a.assumed.RodKnownTo})
	return list
}

// beyondReason is how much more than the instruments explain readings may scatter and
// still be of one piston: a protractor that slipped, or two jobs in one, does that.
const beyondReason = 20

// cannotTell is why TDC is no answer to go by; nil when it is one.
func (a *adjustment) cannotTell(expanded geometry.Angle) finding.Finding {
	switch {
	case a.unit != nil:
		return *a.unit
	case a.best.Status != fit.Converged:
		return finding.NotSettled{Status: a.best.Status.String()}
	case a.widening.factor > beyondReason:
		return finding.BeyondReason{Times: a.widening.factor}
	case expanded > halve.Vague:
		return finding.TooVague{Expanded: expanded}
	}
	return nil
}

// mostNamed is how many readings that do not fit are named one by one: with more
// of them it is the job that is wrong, not a reading.
const mostNamed = 8

// suspects is about readings that do not fit.
func (a *adjustment) suspects() (list []finding.Finding) {
	curve, count := a.depthsOnCurve(), 0
	for i, read := range a.read {
		if !a.suspect[i] {
			continue
		}
		if count++; count > mostNamed {
			continue
		}
		off := geometry.Length(a.depth[i] - curve[i])
		s := finding.SuspectReading{
			Place: finding.At(read), Off: off, Times: a.best.Distance(i), Weight: a.weight[i], DialTurn: a.dialTurn(off),
		}
		s.DeeperThan, s.AboveTop = a.impossible(i)
		list = append(list, s)
	}
	if count > mostNamed {
		list = append(list, finding.MoreSuspects{More: count - mostNamed, Of: len(a.read)})
	}
	return list
}

// dialTurn tells whether a residual is a turn of a dial gauge.
func (a *adjustment) dialTurn(off geometry.Length) bool {
	const turn, about = 1 * geometry.Millimetre, 0.1 * geometry.Millimetre // common practice, no source
	return a.setup.Gauge.Kind == evidence.Dial && math.Abs(math.Abs(float64(off))-float64(turn)) < float64(about)
}

// impossible is the stroke where a reading lies deeper than a piston of that stroke
// comes, or how far it lies above the highest point; zero of another.
func (a *adjustment) impossible(i int) (deeperThan, aboveTop geometry.Length) {
	drop := geometry.Length((a.depth[i] - a.best.Beta[parZero]) / a.best.Beta[parScale])
	stroke := a.setup.Engine.Stroke
	switch {
	case stroke > 0 && drop > 1.1*stroke: // more than a slant and a wrong zero make
		return stroke, 0
	case drop < -suspectBeyond*a.setup.Gauge.Uncertainty()-a.setup.Gauge.Lash-a.setup.Gauge.LashKnownTo:
		return 0, -drop
	}
	return 0, 0
}

// ofPairs is about pairs that do not fit, or whose repeats do not.
func (a *adjustment) ofPairs() (list []finding.Finding) {
	for k, m := range a.pairs {
		i := len(a.read) + k
		if off, _ := a.best.Residual(i); a.suspect[i] {
			list = append(list, finding.PairMisfit{Pair: m.label, Off: geometry.Angle(off), Times: a.best.Distance(i)})
		}
		if m.scatter > 0 {
			list = append(list, finding.PairScatter{Pair: m.label, Apart: m.scatter})
		}
	}
	return list
}
