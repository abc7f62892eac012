package adjust

import (
	"math"
	"slices"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
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
	case a.Best.Status != fit.Converged:
		return finding.NotSettled{Status: a.Best.Status.String()}
	case a.Widening.Factor > beyondReason:
		return finding.BeyondReason{Times: a.Widening.Factor}
	case expanded > halve.Vague:
		return finding.TooVague{Expanded: expanded}
	}
	return a.contradictingPair()
}

// Explained tells whether the instruments explain all that a settled curve leaves of the
// readings as they were typed.
func (a *Adjustment) Explained() bool {
	return a.Determined() && a.Settled() && !a.Widening.Told && !a.ScaleFar() && !slices.Contains(a.Suspect, true)
}

// AboutTop tells whether the readings lie about the curve's TDC, and not about its BDC.
func (a *Adjustment) AboutTop() bool {
	near := 0.0
	for _, r := range a.Read {
		near += math.Cos(float64(r.Angle - a.At()))
	}
	return near > 0
}

// outvote is how many readings that fit it takes on each side of TDC to overrule a pair
// of angles: with two, one wrong reading draws the curve after it.
const outvote = 3

// contradictingPair is the first pair that does not fit where the readings are too few
// to overrule it; nil where there is none.
func (a *Adjustment) contradictingPair() finding.Finding {
	before, after := 0, 0
	for i := range a.Read {
		switch {
		case a.Suspect[i]:
		case a.Angle[i] < a.Best.Beta[curve.TDC]:
			before++
		default:
			after++
		}
	}
	if before >= outvote && after >= outvote {
		return nil
	}
	for k, m := range a.Pairs {
		if i := len(a.Read) + k; len(a.Read) > 0 && a.Suspect[i] {
			off, _ := a.Best.Residual(i)
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
	curve, count := a.DepthsOnCurve(), 0
	for i, read := range a.Read {
		if !a.Suspect[i] {
			continue
		}
		if count++; count > mostNamed {
			continue
		}
		off := geometry.Length(a.Depth[i] - curve[i])
		s := finding.SuspectReading{
			Place: finding.At(read), Off: off, Times: a.Best.Distance(i), Weight: a.Weight[i], DialTurn: a.dialTurn(off),
		}
		s.DeeperThan, s.AboveTop = a.impossible(i)
		list = append(list, s)
	}
	if count > mostNamed {
		list = append(list, finding.MoreSuspects{More: count - mostNamed, Of: len(a.Read)})
	}
	return list
}

// dialTurn tells whether a residual is a turn of a dial gauge.
func (a *Adjustment) dialTurn(off geometry.Length) bool {
	const turn, about = 1 * geometry.Millimetre, 0.1 * geometry.Millimetre // common practice, no source
	return a.Setup.Gauge.Kind == evidence.Dial && math.Abs(math.Abs(float64(off))-float64(turn)) < float64(about)
}

// impossible is the stroke where a reading lies deeper than a piston of that stroke
// comes, or how far it lies above the highest point; zero of another.
func (a *Adjustment) impossible(i int) (deeperThan, aboveTop geometry.Length) {
	drop := geometry.Length((a.Depth[i] - a.Best.Beta[curve.Zero]) / a.Best.Beta[curve.Scale])
	stroke := a.Setup.Engine.Stroke
	switch {
	case stroke > 0 && drop > 1.1*stroke: // more than a slant and a wrong zero make
		return stroke, 0
	case drop < -solve.SuspectBeyond*a.Setup.Gauge.Uncertainty()-a.Setup.Gauge.Lash-a.Setup.Gauge.LashKnownTo:
		return 0, -drop
	}
	return 0, 0
}

// OddPairs is about pairs that do not fit, or whose repeats do not.
func (a *Adjustment) OddPairs() (list []finding.Finding) {
	for k, m := range a.Pairs {
		i := len(a.Read) + k
		if off, _ := a.Best.Residual(i); a.Suspect[i] {
			list = append(list, finding.PairMisfit{Pair: m.Label, Off: geometry.Angle(off), Times: a.Best.Distance(i)})
		}
		if m.Scatter > 0 {
			list = append(list, finding.PairScatter{Pair: m.Label, Apart: m.Scatter})
		}
	}
	return list
}
