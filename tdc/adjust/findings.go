package adjust

import (
	"math"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// beyondReason is how much more than the instruments explain readings may scatter and
// still be of one piston: a protractor that slipped, or two jobs in one, does that.
const beyondReason = 20

// CannotTell is why TDC is no answer to go by with an interval of such a half-width; nil
// when it is one.
func (a *Adjustment) CannotTell(expanded geometry.Angle) finding.Finding {
	switch {
	case a.best.Status != fit.Converged:
		return finding.NotSettled{Status: a.best.Status.String()}
	case a.widening.factor > beyondReason:
		return finding.BeyondReason{Times: a.widening.factor}
	case expanded > halve.Vague:
		return finding.TooVague{Expanded: expanded}
	}
	return a.contradictingPair()
}

// outvote is how many readings that fit it takes on each side of TDC to overrule a pair
// of angles: with two, one wrong reading draws the curve after it.
const outvote = 3

// contradictingPair is the first pair that does not fit where the readings are too few
// to overrule it; nil where there is none.
func (a *Adjustment) contradictingPair() finding.Finding {
	before, after := 0, 0
	for i := range a.read {
		switch {
		case a.suspect[i]:
		case a.angle[i] < a.best.Beta[curve.TDC]:
			before++
		default:
			after++
		}
	}
	if before >= outvote && after >= outvote {
		return nil
	}
	for k, m := range a.pairs {
		if i := len(a.read) + k; len(a.read) > 0 && a.suspect[i] {
			off, _ := a.best.Residual(i)
			return finding.PairContradicts{Pair: m.Label, Off: geometry.Angle(off)}
		}
	}
	return nil
}

// mostNamed is how many readings that do not fit are named one by one: with more
// of them it is the job that is wrong, not a reading.
const mostNamed = 8

// Suspects is about readings that do not fit.
func (a *Adjustment) Suspects() (list []finding.Finding) {
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
func (a *Adjustment) dialTurn(off geometry.Length) bool {
	const turn, about = 1 * geometry.Millimetre, 0.1 * geometry.Millimetre // common practice, no source
	return a.setup.Gauge.Kind == evidence.Dial && math.Abs(math.Abs(float64(off))-float64(turn)) < float64(about)
}

// impossible is the stroke where a reading lies deeper than a piston of that stroke
// comes, or how far it lies above the highest point; zero of another.
func (a *Adjustment) impossible(i int) (deeperThan, aboveTop geometry.Length) {
	drop := geometry.Length((a.depth[i] - a.best.Beta[curve.Zero]) / a.best.Beta[curve.Scale])
	stroke := a.setup.Engine.Stroke
	switch {
	case stroke > 0 && drop > 1.1*stroke: // more than a slant and a wrong zero make
		return stroke, 0
	case drop < -SuspectBeyond*a.setup.Gauge.Uncertainty()-a.setup.Gauge.Lash-a.setup.Gauge.LashKnownTo:
		return 0, -drop
	}
	return 0, 0
}

// OddPairs is about pairs that do not fit, or whose repeats do not.
func (a *Adjustment) OddPairs() (list []finding.Finding) {
	for k, m := range a.pairs {
		i := len(a.read) + k
		if off, _ := a.best.Residual(i); a.suspect[i] {
			list = append(list, finding.PairMisfit{Pair: m.Label, Off: geometry.Angle(off), Times: a.best.Distance(i)})
		}
		if m.Scatter > 0 {
			list = append(list, finding.PairScatter{Pair: m.Label, Apart: m.Scatter})
		}
	}
	return list
}
