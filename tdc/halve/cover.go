package halve

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Findings is about where the readings lie that are not skipped: TDC rests on both
// flanks, and on the same depth of them, and on so many pairs of angles beside them.
func (f Flanks) Findings(read []evidence.Reading, angle, depth []float64, skip []bool, pairs int) (list []finding.Finding) {
	count, deepest := f.cover(len(read), angle, depth, skip)
	if count[0]+count[1] == 0 {
		return []finding.Finding{finding.AllShallow{Within: geometry.Length(f.shallowest())}}
	}
	sides := [2]finding.Side{finding.Rising, finding.Falling}
	const enough = 3
	for i, side := range sides {
		switch {
		case count[i] == 0:
			list = append(list, finding.FlankMissing{Side: side, Pairs: pairs, Unsigned: f.unsigned(read)})
		case count[i] < enough && count[1-i] >= enough:
			list = append(list, finding.FlankThin{Side: side, Readings: count[i]})
		}
	}
	for i, side := range sides {
		if count[0] > 0 && count[1] > 0 && deepest[i] > 2*deepest[1-i] {
			list = append(list, finding.FlanksLopsided{Deeper: side, Deep: geometry.Length(deepest[i]), Shallow: geometry.Length(deepest[1-i])})
		}
	}
	return list
}

// cover is how many of the first n readings lie before and after TDC deep enough to
// tell an angle, and how deep the deepest.
func (f Flanks) cover(n int, angle, depth []float64, skip []bool) (count [2]int, deepest [2]float64) {
	for i := range n {
		side := 0
		if angle[i] > f.Rough.TDC {
			side = 1
		}
		if drop := (depth[i] - f.Rough.Zero) / f.Rough.Scale; !skip[i] && drop >= f.shallowest() {
			count[side]++
			deepest[side] = math.Max(deepest[side], drop)
		}
	}
	return count, deepest
}

// unsigned is the first reading where all lie on one side of the zero of a scale that
// counts up both ways from it.
func (f Flanks) unsigned(read []evidence.Reading) *finding.Place {
	if f.Setup.Protractor.Scale == evidence.Full || !evidence.OneSided(read) {
		return nil
	}
	first := finding.At(read[0])
	return &first
}
