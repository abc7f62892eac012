package find

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/caution"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// The caution for turning back is there exactly when something asks for it: a finding,
// the greatest part of the uncertainty, or lash seen in midpoints read one way.
func TestCautionForTurningBack(t *testing.T) {
	result := func(change func(*tdc.Result)) Answer {
		r := tdc.Result{
			Budget:    []adjust.Contribution{{Source: adjust.AngleReadings, Angle: 0.1 * geometry.Degree}, {Source: adjust.LashSource, Angle: 0.01 * geometry.Degree}},
			Agreement: &tdc.Agreement{},
			Readings:  []adjust.Judged{{Reading: evidence.Reading{Turn: evidence.Forward}}, {Reading: evidence.Reading{Turn: evidence.Forward}}},
			Trend:     halve.Trend{Pattern: halve.Flat},
			Findings:  []finding.Finding{finding.FewReadings{Readings: 5}},
		}
		change(&r)
		return Answer{All: found.All{Results: []tdc.Result{{Budget: []adjust.Contribution{{Source: adjust.Scatter}}}, r}}}
	}
	lash := halve.Trend{Pattern: halve.LikeLash, Lash: gum.Measured{Value: 0.06, Uncertainty: 0.01}}
	for name, c := range map[string]struct {
		change func(*tdc.Result)
		asks   bool
	}{
		"nothing asks":     {func(*tdc.Result) {}, false},
		"a finding":        {func(r *tdc.Result) { r.Findings = append(r.Findings, finding.DwellOneWay{}) }, true},
		"another finding":  {func(r *tdc.Result) { r.Findings = append(r.Findings, finding.SuspectReading{}) }, false},
		"lash is greatest": {func(r *tdc.Result) { r.Budget[1].Angle = geometry.Degree }, true},
		"the eye is": {func(r *tdc.Result) {
			r.Budget[1] = adjust.Contribution{Source: adjust.EyeLag, Angle: geometry.Degree}
		}, true},
		"lash one way": {func(r *tdc.Result) { r.Trend = lash }, true},
		"lash both ways": {func(r *tdc.Result) {
			r.Trend = lash
			r.Readings[1].Turn = evidence.Backward
		}, false},
	} {
		answer := result(c.change)
		if text := answer.cautions(true); c.asks {
			require.Contains(t, text, caution.Back, name)
		} else {
			require.NotContains(t, text, caution.Back, name)
		}
	}
}
