package halve

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// Lobe is the answer of halving pairs of angles at equal lift on a cam lobe.
type Lobe struct {
	protractor evidence.Protractor // as the angles were typed
	pairs      []halve.Pair
	halve.Centred
	tdc *geometry.Angle // what the protractor shows at TDC, as a crank angle; nil: not said
}

// Document is the answer in words.
func (l Lobe) Document() doc.Document {
	bench := words.Bench{Protractor: l.protractor}
	var d doc.Document
	d.Say(fmt.Sprintf("The lobe's centre, the midpoint of equal lift, is at %s on the protractor (95 %%, %s).", bench.ReadsWithin(l.Centre), l.partOf()))
	d.Say(l.fromTDC())
	d.Say(l.apart())
	if len(l.pairs) > 1 {
		d.Table(pairTable(bench, l.pairs, l.Middles, words.Decimals(l.Centre.Expanded.Degrees())+1))
	}
	d.Say(l.wide())
	d.Say("Read both flanks turning forward, and type first the angle at which the valve was opening. Where a lobe's flanks are unlike, the midpoint depends on the lift.")
	d.Say(caution.With(caution.Lobe))
	return d
}

// afterTDC is the centre from the nearer TDC, negative before it.
func (l Lobe) afterTDC() gum.Estimate {
	e := l.Centre
	e.Angle = (e.Angle - *l.tdc).Signed()
	return e
}

// fromTDC is how far from TDC the centre lies, or how to learn that.
func (l Lobe) fromTDC() string {
	if l.tdc == nil {
		return "How far that is from TDC is not known here: add --tdc with what the protractor shows at TDC."
	}
	return fmt.Sprintf("That is %s, from the nearer TDC; how well TDC itself is known comes on top. Whether it is the TDC of overlap or of firing is not known here. "+
		"With both valves moving it is overlap, from which cam cards count.", words.CentreWithin(l.afterTDC()))
}

// scattered tells whether the midpoints lie farther apart than the protractor explains.
func (l Lobe) scattered() bool { return !math.IsInf(l.Centre.DegreesOfFreedom, 1) }

func (l Lobe) partOf() string {
	if l.scattered() {
		return "by the scatter of the midpoints"
	}
	return "the protractor's own error alone"
}

// apart is what the midpoints lying apart means.
func (l Lobe) apart() string {
	if !l.scattered() {
		return ""
	}
	return fmt.Sprintf("The midpoints lie %s deg apart, more than the protractor explains. Of several lifts that is a lobe with unlike flanks; of one lift read again, one pair is wrong.",
		extent(l.Middles, l.Centre.Angle))
}

// wide is a pair as wide as the lobe's other side would be narrow: it may have been
// typed closing first.
func (l Lobe) wide() string {
	for i, p := range l.pairs {
		if p.Open() > geometry.Turn/2 {
			other := l.Middles[i] + geometry.Turn/2
			return fmt.Sprintf("Pair %s is taken for a valve that is open for %s deg. If its first angle is the closing one, type the two the other way round: the centre is then at %s.",
				strconv.Itoa(i+1), words.Plain(p.Open().Degrees()), words.Bench{Protractor: l.protractor}.Reads(other, 1))
		}
	}
	return ""
}
