package mark_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// A throw is judged in degrees and a crown in millimetres by one rule, each by its own
// limit; nothing rests on a TDC that cannot be determined.
func TestThrowsAreJudged(t *testing.T) {
	engine := evidence.Engine{ThrowLimit: 1 * geometry.Degree, CrownLimit: 0.5 * geometry.Millimetre}
	throw := func(off, crown float64) tdc.Throw {
		return tdc.Throw{
			Estimate: gum.Estimate{Angle: geometry.Angle(off) * geometry.Degree, Expanded: 0.2 * geometry.Degree},
			Crown:    &tdc.Estimated{Value: crown, Expanded: 0.1},
		}
	}
	first := tdc.Throw{Crown: &tdc.Estimated{Value: 0, Expanded: 0.1}}
	throws := []tdc.Throw{first, throw(-2, 0.3), throw(0.9, -0.7), throw(0, 0.45)}
	sound := make([]tdc.Result, 4)
	verdicts := func(results []tdc.Result) (list [][2]mark.Verdict) {
		for _, j := range mark.JudgeThrows(engine, results, throws) {
			list = append(list, [2]mark.Verdict{j.Verdict, j.CrownVerdict})
		}
		return list
	}
	require.Equal(t, [][2]mark.Verdict{
		{mark.NoLimitSaid, mark.Within}, // the others are compared with it
		{mark.Outside, mark.Within}, {mark.TooClose, mark.Outside}, {mark.Within, mark.TooClose},
	}, verdicts(sound))

	// without one TDC its throw goes unjudged, and every crown: the others' are of its middle
	sound[2].CannotTell = finding.TooVague{}
	require.Equal(t, [][2]mark.Verdict{
		{mark.NoLimitSaid, mark.NoLimitSaid}, {mark.Outside, mark.NoLimitSaid}, {mark.NoLimitSaid, mark.NoLimitSaid}, {mark.Within, mark.NoLimitSaid},
	}, verdicts(sound))
	sound[2].CannotTell, sound[0].CannotTell = nil, finding.TooVague{}
	for _, v := range verdicts(sound) {
		require.Equal(t, [2]mark.Verdict{mark.NoLimitSaid, mark.NoLimitSaid}, v)
	}
	engine = evidence.Engine{}
	for _, v := range verdicts(make([]tdc.Result, 4)) {
		require.Equal(t, [2]mark.Verdict{mark.NoLimitSaid, mark.NoLimitSaid}, v, "no limit, no verdict")
	}
}

// The worse of the two verdicts goes first.
func TestWorst(t *testing.T) {
	for want, pair := range map[mark.Verdict][2]mark.Verdict{
		mark.Outside: {mark.Within, mark.Outside}, mark.TooClose: {mark.TooClose, mark.Within}, mark.Within: {mark.NoLimitSaid, mark.Within},
		mark.NoLimitSaid: {mark.NoLimitSaid, mark.NoLimitSaid},
	} {
		j := mark.JudgedThrow{Verdict: pair[0], CrownVerdict: pair[1]}
		require.Equal(t, want, j.Worst())
		require.Equal(t, want == mark.Outside || want == mark.TooClose, j.Worst().Open())
	}
}
