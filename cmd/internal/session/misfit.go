package session

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/session/blunder"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// misfitBeyond is how many times its expected error a reading is off to be asked
// about: one good reading in 16,000 is. Among few any other may be the wrong one.
const (
	misfitBeyond = 4
	few          = 6
)

// misfit says that the last reading is not where those before it say; fits tells whether
// another in its place would be.
func (j State) misfit(before State) (text string, fits func(evidence.Reading) bool) {
	if !before.fitted() {
		return "", nil
	}
	falling := j.Job.Setup.Gauge.Falling
	last := j.Readings[len(j.Readings)-1]
	by, depth, times := before.off(last)
	worn := len(j.Current) <= blunder.Most && math.Abs(float64(by)) < float64(blunder.Worn(j.Job.Setup.Gauge))
	if times < misfitBeyond || worn || !j.againstLast() {
		return "", nil
	}
	blame := ""
	if len(j.Current) <= few {
		blame = ", or one before it is wrong"
	}
	text = fmt.Sprintf("This reading does not fit%s: it is off by %s, %.0f times its expected error. The gauge should show near %s here, and %s was typed.",
		blame, j.bench().SignedDepth(by), times, j.bench().Depth(depth), j.bench().Depth(falling(last.Depth)))
	return text, func(r evidence.Reading) bool {
		_, _, times := before.off(r)
		return times < misfitBeyond
	}
}

// off is how far a reading lies from the curve of these, what the gauge should show there,
// and how many times its expected error it is off.
func (j State) off(r evidence.Reading) (by, depth geometry.Length, times float64) {
	depth, sigma := j.Result.Expect(r.Angle, r.Turn)
	by = j.Job.Setup.Gauge.Falling(r.Depth) - depth
	return by, depth, math.Abs(float64(by / sigma))
}

// firm tells whether these are enough, and agree well enough, to say where another must lie.
func (j State) firm() bool {
	return j.fitted() && len(j.Current) > few && !j.Result.Contradicted()
}

// againstLast tells whether the last reading speaks against the others even of the curve
// that it is counted in. A curve through few readings may lie elsewhere than it seems.
func (j State) againstLast() bool {
	if !j.fitted() {
		return true
	}
	return j.Result.Contradicted() || j.Result.Readings[len(j.Result.Readings)-1].Suspect
}
