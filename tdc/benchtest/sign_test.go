package benchtest_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// TestSignLost types one angle of a sweep on the wrong side of the protractor's zero, TDC
// within 4 deg of that: its row is named, and hardly ever another (real-bench.md B: 72 to
// 100 %, by the order of the rows).
func TestSignLost(t *testing.T) {
	slow(t)
	n := run.Count(100, 1000)
	var table strings.Builder
	for i, plan := range plans()[:5] {
		named, other, lost := 0, 0, 0
		for j := range n {
			rng := rand.New(rand.NewPCG(run.Seed, uint64(i*100_000+j)))
			setup := petrol(0.5, 0.25)
			b := benchtest.Drawn(rng, setup)
			b.Start = benchtest.Within(rng, 4*benchtest.Degree)
			read, which := benchtest.Mirrored(rng, b.Settled().Read(rng, setup, plan.Layout, benchtest.Noise{}))
			r, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: read})
			if err != nil || which < 0 {
				continue
			}
			lost++
			for _, f := range r.Findings {
				if row, is := f.(finding.RowUnsigned); is && row.Line == read[which].Line {
					named++
				} else if is {
					other++
				}
			}
		}
		fmt.Fprintf(&table, "%s: named %.1f %%, another %.1f %%\n", plan.name, 100*float64(named)/float64(lost), 100*float64(other)/float64(lost))
		aim := 0.72
		if plan.Readings == 8 { // two of a sweep's four stand so near TDC that the other sign is in order too
			aim = 0.6
		}
		require.Greater(t, float64(named)/float64(lost), aim-benchtest.Chance(aim, lost), plan.name)
		require.Less(t, float64(other), 0.01*float64(lost)+1, plan.name)
	}
	t.Log("\n" + table.String())
}
