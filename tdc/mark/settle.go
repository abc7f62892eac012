package mark

import (
	"fmt"
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// mostMore is the most further readings of a kind that are worth asking for.
const mostMore = 12

// toSettle says what would bring a mark's uncertainty to where it could be called,
// the least work first. It is a forecast: further readings that are as good as
// those there are, and a mark that stays where it is.
func (f Finding) toSettle(setup evidence.Setup, result tdc.Result) string {
	if f.Settles < surest {
		return "It lies on its limit: no reading would settle it."
	}
	if f.Off != nil {
		return f.betterMeasured()
	}
	sides := float64(len(result.Readings)) / 2
	if len(f.measuring.Normal) < 2 || sides == 0 {
		return ""
	}
	for n := 1; n <= mostMore; n++ {
		if f.with(n, 0, sides) <= float64(f.Settles) {
			return fmt.Sprintf("%s of the mark would settle it, if it stays where it is.", more(n))
		}
	}
	for n := 1; n <= mostMore; n++ {
		if f.with(0, n, sides) <= float64(f.Settles) {
			return fmt.Sprintf("%s of the piston each side of TDC would settle it, if it stays where it is.", more(n))
		}
	}
	for n := 1; n <= mostMore; n++ {
		if f.with(n, n, sides) <= float64(f.Settles) {
			return fmt.Sprintf("%s of the mark, and as many of the piston each side of TDC, would settle it, if it stays where it is.", more(n))
		}
	}
	return f.notByReadings(setup, result)
}

// surest is an uncertainty that no bench reaches.
const surest = 0.01 * geometry.Degree

func more(n int) string {
	if n == 1 {
		return "1 more reading"
	}
	return fmt.Sprintf("%d more readings", n)
}

// with is the expanded uncertainty with so many further readings of the mark, and
// of the piston on each of the sides that have so many: scatter averages out with
// their number; what they share stays, and rounding, the same each time, with it.
func (f Finding) with(ofMark, eachSide int, sides float64) float64 {
	s := gum.Spread{Normal: slices.Clone(f.measuring.Normal), Rectangular: f.measuring.Rectangular}
	own := len(s.Normal) - 1
	repeats := float64(len(f.Read))
	if !math.IsInf(s.Normal[own].Degrees, 1) {
		s.Normal[own].Standard *= math.Sqrt(repeats / (repeats + float64(ofMark)))
		s.Normal[own].Degrees += float64(ofMark)
	}
	for i := range own {
		s.Normal[i].Standard *= math.Sqrt(sides / (sides + float64(eachSide)))
		s.Normal[i].Degrees += float64(2 * eachSide)
	}
	return joined(s, f.nominal).Expanded()
}

// notByReadings says what stands in the way of a mark that readings cannot settle.
func (f Finding) notByReadings(setup evidence.Setup, result tdc.Result) string {
	in, most, help := "the protractor's own error and step", float64(setup.Protractor.Uncertainty()), "A finer protractor would help"
	for _, c := range result.Budget {
		if slices.Contains(lasting, c.Source) && float64(c.Angle) > most {
			in, most, help = "TDC: "+c.Source, float64(c.Angle), "What shrinks TDC's uncertainty would help"
		}
	}
	if f.nominal.Standard() > most {
		in, help = "where it should be", "A nominal angle that is better known would help"
		if f.Healthy != nil {
			help = "More healthy engines, kept together, would help"
		}
	}
	return fmt.Sprintf("More readings like these would not settle it: it has to be known to ± %s deg, and most of the doubt is in %s. %s.",
		geometry.Decimal(f.Settles.Degrees(), 2), in, help)
}

// lasting is the sources of TDC's uncertainty that more readings like those there
// are do not shrink.
var lasting = []string{adjust.LashSource, adjust.ScaleSource, adjust.OffsetSource, adjust.OffCentre}

// betterMeasured says how well a shift would have to be measured.
func (f Finding) betterMeasured() string {
	low, high := 0.0, f.measuring.Rectangular[0]
	known := func(u float64) float64 {
		return joined(gum.Spread{Rectangular: []float64{u}}, f.nominal).Expanded()
	}
	if known(0) > float64(f.Settles) {
		return "No better measurement of it would settle it: the doubt in where it should be is too great."
	}
	for range 40 { // halves a degree to far below any step
		if middle := (low + high) / 2; known(middle) <= float64(f.Settles) {
			low = middle
		} else {
			high = middle
		}
	}
	half := geometry.Angle(low * math.Sqrt(3)).Degrees()
	return fmt.Sprintf("Measured to ± %s crank deg or better it would be settled, if it stays where it is.", geometry.Decimal(math.Floor(half*100)/100, 2))
}
