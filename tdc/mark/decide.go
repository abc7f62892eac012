package mark

import (
	"math"

	"evendrop/geometry"
)

// Verdict is whether a mark is within its limit.
type Verdict string

// The three zones of ISO 14253-1, and what is said without a limit, or without
// anything to hold the mark against.
const (
	Within      Verdict = "within"
	Outside     Verdict = "outside"
	TooClose    Verdict = "too close to call"
	NoLimitSaid Verdict = "no limit given"

	NothingToHoldAgainst Verdict = "only measured"
)

// Decide calls a mark only when its whole 95 % interval lies on one side of the
// limit (ISO14253; JCGM106 8.3). It is a rule of numbers: angles and lengths alike.
func Decide[Quantity ~float64](off, expanded, limit Quantity) Verdict {
	size := Quantity(math.Abs(float64(off)))
	switch {
	case size+expanded <= limit:
		return Within
	case size-expanded > limit:
		return Outside
	}
	return TooClose
}

// settles is the expanded uncertainty that a mark as far off as this one would
// have to be known to before it could be called; zero when it lies on its
// limit, and no uncertainty would do.
func settles(off, limit geometry.Angle) geometry.Angle {
	return geometry.Angle(math.Abs(math.Abs(float64(off)) - float64(limit)))
}
