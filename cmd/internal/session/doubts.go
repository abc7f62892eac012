package session

import (
	"fmt"
	"math"
	"strings"
)

// misfitBeyond is how many times its expected error a reading is off to be asked
// about: one good reading in 16,000 is. Among few any other may be the wrong one.
const (
	misfitBeyond = 4
	few          = 6
)

// misfit asks about the last reading when it is not where those before it say.
func (j State) misfit(before State) string {
	if !before.fitted() {
		return ""
	}
	last := j.Readings[len(j.Readings)-1]
	depth, sigma := before.Result.Expect(last.Angle, last.Turn)
	off := j.Job.Setup.Gauge.Falling(last.Depth) - depth
	times := math.Abs(float64(off / sigma))
	if times < misfitBeyond {
		return ""
	}
	blame := ""
	if len(j.Readings) <= few {
		blame = ", or one before it is wrong"
	}
	return fmt.Sprintf("This reading does not fit%s: it is off by %s, %.0f times its expected error. Retype, or keep? Type undo and then "+
		"the reading again, or go on to keep it.", blame, j.bench().SignedDepth(off), times)
}

// suspects names the readings before the last that have come to be suspect.
func (j State) suspects(before State) string {
	if j.Result == nil {
		return ""
	}
	old := map[int]bool{}
	if before.Result != nil {
		for _, r := range before.Result.Readings {
			old[r.Line] = r.Suspect
		}
	}
	var names []string
	for i, r := range j.Result.Readings {
		if r.Suspect && !old[r.Line] && i < len(j.Readings)-1 {
			names = append(names, fmt.Sprintf("reading %d, %s deg %s", i+1, j.bench().Reads(r.Angle, 1), j.bench().Depth(j.Job.Setup.Gauge.Falling(j.Readings[i].Depth))))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "Suspect now: " + strings.Join(names, "; ") + ". Read there again."
}
