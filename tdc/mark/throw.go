package mark

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// JudgedThrow is a cylinder's crank throw and crown against the engine's limits. What has
// no limit, or rests on a TDC that cannot be determined, is not judged: NoLimitSaid.
type JudgedThrow struct {
	tdc.Throw
	Verdict      Verdict // of the throw
	CrownVerdict Verdict
	CannotTell   bool // its TDC
	Moved        bool // the protractor moved between the first one's TDC and its own: they are of unlike scales
}

// JudgeThrows judges every cylinder of an engine, one a result.
func JudgeThrows(engine evidence.Engine, results []tdc.Result, throws []tdc.Throw) []JudgedThrow {
	anyUntold := slices.ContainsFunc(results, untold)
	against := slices.ContainsFunc(results, func(r tdc.Result) bool { return r.AgainstTurn() })
	var list []JudgedThrow
	for i, t := range throws {
		j := JudgedThrow{t, NoLimitSaid, NoLimitSaid, untold(results[i]), movedSince(results[:i+1])}
		if engine.ThrowLimit > 0 && t.Expanded > 0 && !j.CannotTell && !j.Moved && !untold(results[0]) && !against {
			j.Verdict = Decide(t.Angle, t.Expanded, engine.ThrowLimit)
		}
		if engine.CrownLimit > 0 && t.Crown != nil && !anyUntold {
			j.CrownVerdict = Decide(geometry.Length(t.Crown.Value), geometry.Length(t.Crown.Expanded), engine.CrownLimit)
		}
		list = append(list, j)
	}
	return list
}

// movedSince tells whether the protractor moved while any cylinder after the first was
// read: TDC is then of another scale than the first one's, which is of the end of its own
// session.
func movedSince(results []tdc.Result) bool {
	return slices.ContainsFunc(results[1:], func(r tdc.Result) bool { return r.MovedAfter() > 0 })
}

func untold(r tdc.Result) bool { return r.CannotTell != nil }

// Worst is the verdict of the two that a person has to look at first.
func (t JudgedThrow) Worst() Verdict {
	for _, v := range []Verdict{Outside, TooClose, Within} {
		if t.Verdict == v || t.CrownVerdict == v {
			return v
		}
	}
	return NoLimitSaid
}

// Open tells whether a verdict is anything but fine: outside, or too close to call.
func (v Verdict) Open() bool { return v == Outside || v == TooClose }
