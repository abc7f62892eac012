package joint

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
)

// mostUnwrappings bounds how many ways of putting whole turns back are tried.
const mostUnwrappings = 16

// unwrappings is the marks as they are and, where one is far off, with the whole
// turns put back that a single slip as great would make of the others: a
// flywheel half a turn out shows at 180 deg in one mark and -180 in the next.
func unwrappings(findings []mark.Judged, groups []seen.Group) [][]float64 {
	plain := make([]float64, len(findings))
	for i, f := range findings {
		plain[i] = f.Angle.Radians()
	}
	all := [][]float64{plain}
	for i := range findings {
		if math.Abs(plain[i]) < float64(geometry.Turn/4) {
			continue
		}
		for _, g := range groups {
			if g.Column[i] == 0 || len(all) == mostUnwrappings {
				continue
			}
			off := turnedToward(g, plain[i]/g.Column[i], findings, plain)
			if !slices.ContainsFunc(all, func(other []float64) bool { return slices.Equal(off, other) }) {
				all = append(all, off)
			}
		}
	}
	return all
}

// turnedToward is the marks, each by as many whole periods as bring it nearest
// to what a slip of the group makes of it.
func turnedToward(g seen.Group, slip float64, findings []mark.Judged, plain []float64) []float64 {
	off := make([]float64, len(plain))
	for i, f := range findings {
		period := float64(f.Period)
		off[i] = plain[i] + period*math.Round((g.Column[i]*slip-plain[i])/period)
	}
	return off
}
