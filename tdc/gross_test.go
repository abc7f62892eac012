package tdc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// leftOut is the readings but for some.
func leftOut(readings []evidence.Reading, which []int) (left []evidence.Reading) {
	for i, r := range readings {
		if !slices.Contains(which, i) {
			left = append(left, r)
		}
	}
	return left
}

// nearlyAll is how many of the jobs must keep TDC near. Not all can: an angle
// mistyped to its mirror image stands on the other flank at the same depth, a
// reading like any other, and where few readings rule a flank TDC moves by more
// when one of them is lost, however well that is noticed.
const nearlyAll = 0.96

// TestGrossErrors spoils one reading in 24, and three, and looks how far TDC goes
// from where the same readings unspoilt have it, in standard uncertainties.
func TestGrossErrors(t *testing.T) {
	slow(t)
	points := []point{
		at(0, 0, 2, benchtest.Balanced(2, 24)), at(0, 0, 2, benchtest.Balanced(1, 24)), at(1, 0, 0, benchtest.Balanced(2, 24)),
		at(2, 0, 2, benchtest.Balanced(2, 24)), at(0, 1, 2, benchtest.Balanced(2, 24)), at(3, 0, 2, benchtest.Lopsided(2, 24)),
	}
	n := run.Count(50, 20000)
	var table strings.Builder
	const format = "%-56s %8s %8s %8s %8s %8s %8s %8s %8s\n"
	fmt.Fprintf(&table, "seed %d, %d jobs a point; shift of TDC in standard uncertainties\n"+format, run.Seed, n,
		"point", "spoilt", "mean", "99 %", "worst", "within", "as left", "named", "too many")
	for k, p := range points {
		for _, count := range []int{1, 3} {
			aim := 0.5
			if count == 3 {
				aim = 1.5
			}
			left := make([]bool, n) // as good as if the spoilt readings had never been taken
			shift, named, extra := make([]float64, n), make([]bool, n), make([]int, n)
			run.Each(3000+10*k+count, n, func(i int, rng *rand.Rand) {
				b, readings := p.job(rng)
				spoilt, which := benchtest.Mistype(rng, readings, count)
				clean := found(b, p.setup, readings)
				r, err := tdc.Find(p.setup, evidence.Cylinder{Number: 1, Readings: spoilt})
				if err != nil || clean.err != nil {
					shift[i] = math.Inf(1)
					return
				}
				shift[i] = math.Abs((r.AgreeTo.Angle-geometry.Angle(b.Truth())).Signed().Degrees()-clean.off) / clean.u
				without := found(b, p.setup, leftOut(readings, which))
				left[i] = without.err == nil &&
					math.Abs((r.AgreeTo.Angle-geometry.Angle(b.Truth())).Signed().Degrees()-without.off) < 0.1*without.u
				named[i] = true
				for j, judged := range r.Readings {
					bad := slices.Contains(which, j)
					named[i] = named[i] && (judged.Suspect || !bad)
					if judged.Suspect && !bad {
						extra[i]++
					}
				}
			})
			within, asLeft, allNamed, tooMany, mean := 0, 0, 0, 0, 0.0
			for i, s := range shift {
				mean += s / float64(n)
				if s < aim {
					within++
				}
				if left[i] {
					asLeft++
				}
				if named[i] {
					allNamed++
				}
				tooMany += extra[i]
			}
			slices.Sort(shift)
			percent := func(k int) string { return fmt.Sprintf("%.1f %%", 100*float64(k)/float64(n)) }
			number := func(x float64) string { return fmt.Sprintf("%.3f", x) }
			fmt.Fprintf(&table, format, p.name, fmt.Sprint(count), number(mean), number(shift[n*99/100]), number(shift[n-1]),
				percent(within), percent(asLeft), percent(allNamed), percent(tooMany))
			if float64(within)/float64(n) < nearlyAll-benchtest.Chance(nearlyAll, n) {
				t.Errorf("%s: with %d mistyped TDC moves %g standard uncertainties or more in %d of %d jobs",
					strings.Join(strings.Fields(p.name), " "), count, aim, n-within, n)
			}
		}
	}
	t.Log("\n" + table.String())
}
