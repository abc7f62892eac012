package standing

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

// Misfit says that the last reading is not where those before it say; fits tells whether
// another in its place would be.
func (j State) Misfit(before State) (text string, fits func(evidence.Reading) bool) {
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
		blame, j.Bench().SignedDepth(by), times, j.Bench().Depth(depth), j.Bench().Depth(falling(last.Depth)))
	return text, before.Fits
}

// Fits tells whether a reading lies on the curve of these, as near as its expected error
// allows. They have a curve.
func (j State) Fits(r evidence.Reading) bool {
	_, _, times := j.off(r)
	return times < misfitBeyond
}

// FitsWorn tells whether a reading lies on the curve of these, or as near to it as a worn
// engine makes.
func (j State) FitsWorn(r evidence.Reading) bool {
	by, _, _ := j.off(r)
	return j.Fits(r) || geometry.Length(math.Abs(float64(by))) < blunder.Worn(j.Job.Setup.Gauge)
}

// off is how far a reading lies from the curve of these, what the gauge should show there,
// and how many times its expected error it is off.
func (j State) off(r evidence.Reading) (by, depth geometry.Length, times float64) {
	depth, sigma := j.Result.Expect(r.Angle, r.Turn)
	by = j.Job.Setup.Gauge.Falling(r.Depth) - depth
	return by, depth, math.Abs(float64(by / sigma))
}

// Firm tells whether these are enough, and agree well enough, to say where another must lie.
func (j State) Firm() bool {
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
