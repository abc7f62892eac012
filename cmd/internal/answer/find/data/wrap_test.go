package data

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/job"

	"github.com/stretchr/testify/require"
)

// An interval that reaches farther one way than the other does so on every scale,
// wherever TDC stands.
func TestIntervalsAreNotMirrored(t *testing.T) {
	deg := geometry.Degree
	for _, p := range answertest.Scales() {
		for _, at := range answertest.NearWrap() {
			name := fmt.Sprintf("wraps %d counts %d TDC at %v", p.Scale, p.Sense, at)
			f := encoder{}
			f.Job.Setup.Protractor = p
			estimate := (geometry.Angle(at) * deg).Signed()
			ends := [2]geometry.Angle{estimate - 0.1*deg, estimate + 0.3*deg}
			trials := adjust.Trials{Estimate: estimate, Uncertainty: 0.1 * deg, Symmetric: ends, Shortest: ends}
			below, above := 0.1, 0.3
			if answertest.Falls(p) {
				below, above = above, below
			}
			out := f.trials(trials)
			for _, interval := range [][2]float64{out.Symmetric, out.Shortest} {
				require.InDelta(t, below, out.Protractor-interval[0], 1e-9, name)
				require.InDelta(t, above, interval[1]-out.Protractor, 1e-9, name)
			}
		}
	}
}

// The curve fit of a job read about the end of a scale: TDC lies within its interval and
// the trials', whose ends agree with it. Of 2,000 draws an end strays by 0.06 standard
// uncertainties; four times that are allowed, and 4 % of the interval for its shape.
func TestFindAndTrialsAgreeAtTheWrap(t *testing.T) {
	for _, p := range answertest.Scales() {
		for _, at := range answertest.NearWrap() {
			name := fmt.Sprintf("wraps %d counts %d TDC at %v", p.Scale, p.Sense, at)
			setup := answertest.Setup()
			setup.Protractor = p
			f := encoder{found.All{Job: job.Job{Setup: setup}}}
			r := answertest.Result(t, setup, at)
			alone := r.Methods[slices.IndexFunc(r.Methods, func(m tdc.Method) bool { return m.Name == tdc.CurveFit })]
			first, drawn := f.estimate(alone.Estimate), f.trials(r.Trials(2_000, 5, nil))
			require.Less(t, first.Interval[0], first.Protractor, name)
			require.Greater(t, first.Interval[1], first.Protractor, name)
			allowed := 4*0.06*first.Uncertainty + 0.04*(first.Interval[1]-first.Interval[0])
			turns := 360 * math.Round((first.Protractor-drawn.Protractor)/360)
			for i := range 2 {
				require.InDelta(t, first.Interval[i], drawn.Symmetric[i]+turns, allowed, name)
			}
			require.Less(t, drawn.Shortest[0], drawn.Shortest[1], name)
		}
	}
}
