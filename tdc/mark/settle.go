package mark

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// mostMore is the most further readings of a kind that are worth asking for.
const mostMore = 12

// toSettle is what would bring a mark's uncertainty to where it could be called, the
// least work first. It is a forecast: further readings that are as good as those
// there are, and a mark that stays where it is.
func (f Judged) toSettle(setup evidence.Setup, result tdc.Result) finding.Finding {
	if f.Settles < surest {
		return finding.OnItsLimit{Mark: f.about()}
	}
	if f.Off != nil {
		return f.betterMeasured()
	}
	sides := float64(len(result.Readings)) / 2
	if f.seen == nil || sides == 0 {
		return nil
	}
	if f.last == 0 { // only the protractor as it is set now can be read again
		return f.notByReadings(setup, result)
	}
	for _, of := range []struct{ mark, piston int }{{1, 0}, {0, 1}, {1, 1}} {
		for n := 1; n <= mostMore; n++ {
			if f.with(n*of.mark, n*of.piston, sides) <= float64(f.Settles) {
				return finding.MoreReadings{Mark: f.about(), OfMark: n * of.mark, OfPiston: n * of.piston}
			}
		}
	}
	return f.notByReadings(setup, result)
}

// surest is an uncertainty that no bench reaches.
const surest = 0.01 * geometry.Degree

// with is the expanded uncertainty with so many further readings of the mark, and
// of the piston on each of the sides that have so many, in the set that the crank stands
// in: scatter averages out with their number; what they share stays, and rounding, the
// same each time, with it.
func (f Judged) with(ofMark, eachSide int, sides float64) float64 {
	sets := slices.Clone(f.seen.Of)
	s := &sets[len(sets)-1]
	repeats := float64(f.last)
	if !math.IsInf(s.Own.Degrees, 1) {
		s.Own.Standard *= math.Sqrt(repeats / (repeats + float64(ofMark)))
		s.Own.Degrees += float64(ofMark)
	}
	s.Readings.Standard *= math.Sqrt(sides / (sides + float64(eachSide)))
	s.Readings.Degrees += float64(2 * eachSide)
	return joined(position.Combine(sets, f.Period).Spread(), f.nominal).Expanded()
}

// notByReadings is what stands in the way of a mark that readings cannot settle.
func (f Judged) notByReadings(setup evidence.Setup, result tdc.Result) finding.NotByReadings {
	n := finding.NotByReadings{Mark: f.about(), Needed: f.Settles, Doubt: finding.DoubtProtractor, Set: evidence.SetOf(result.Set)}
	switch {
	case f.Lobe != nil: // one lobe is read in one set
		n.Set = 0
	case f.last > 0:
		n.Set, n.MoveWheel = n.Set+1, true
	}
	most := float64(setup.Protractor.Uncertainty())
	for _, c := range result.Budget {
		if slices.Contains(lasting, c.Source) && float64(c.Angle) > most {
			most, n.Doubt, n.Source = float64(c.Angle), finding.DoubtTDC, c.Source
		}
	}
	if f.nominal.Standard() > most {
		n.Doubt, n.Source = finding.DoubtNominal, ""
		if f.AgainstHealthy() {
			n.Doubt = finding.DoubtHealthy
		}
	}
	return n
}

// lasting is the sources of TDC's uncertainty that more readings like those there
// are do not shrink.
var lasting = []string{adjust.LashSource, adjust.ScaleSource, adjust.OffsetSource, adjust.OffCentre}

// betterMeasured is how well a shift would have to be measured.
func (f Judged) betterMeasured() finding.Finding {
	low, high := 0.0, f.measuring.Rectangular[0]
	known := func(u float64) float64 {
		return joined(gum.Spread{Rectangular: []float64{u}}, f.nominal).Expanded()
	}
	if known(0) > float64(f.Settles) {
		return finding.NoMeasurement{Mark: f.about()}
	}
	for range 40 { // halves a degree to far below any step
		if middle := (low + high) / 2; known(middle) <= float64(f.Settles) {
			low = middle
		} else {
			high = middle
		}
	}
	return finding.MeasuredBetter{Mark: f.about(), KnownTo: geometry.Angle(low * math.Sqrt(3))}
}
