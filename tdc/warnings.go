package tdc

import (
	"fmt"
	"math"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// warnings is what weakens the answer, each a sentence with what to do about it.
func (a *adjustment) warnings(r Result, f flanks, turned bool) []string {
	var w []string
	warn := func(when bool, format string, args ...any) {
		if when {
			w = append(w, fmt.Sprintf(format, args...))
		}
	}
	warn(turned, "The gauge counts the other way than stated: its numbers grow as the piston goes %s. "+
		"Taken so; mend \"counts\" under [gauge].", a.setup.Gauge.Counts)
	n := len(a.read)
	warn(n > 0 && n+2*len(a.pairs) < 6, "%d readings are few: a bad one would not show. Take at least 6, better 12.", n)
	if n > 0 {
		a.warnFlanks(f, warn)
	}
	a.warnPairs(r, warn)
	a.warnSuspects(r, warn)
	if r.WithAll != nil {
		show := func(e Estimate) float64 { return a.setup.Protractor.Shows(e.Angle).Degrees() }
		warn(true, "With every reading trusted TDC would be at %.2f ± %.2f deg.", show(*r.WithAll), r.WithAll.Expanded.Degrees())
	}
	warn(a.widening.factor > 1, "The readings scatter %.1f times as much as the instruments stated explain; "+
		"the uncertainty is widened to match.", a.widening.factor)
	scale := a.best.Beta[parScale]
	warn(r.ScaleOff(), "The curve's scale is %.3f where 1 was expected: check stroke and rod, and whether the gauge stands straight.",
		scale)
	a.warnAssumed(warn)
	return w
}

// ScaleOff tells whether the curve's scale is farther from 1 than stroke, rod and
// gauge explain; where the unit is in doubt nothing is said of it.
func (r Result) ScaleOff() bool {
	return r.fit != nil && math.Abs(r.fit.pull()) > farPull && r.fit.unit == ""
}

// vague is the half-width of an interval from which TDC is no answer: it does not
// tell a crank sprocket's tooth, 16 to 21 deg, from the next (common practice, no
// source).
const vague = 10 * geometry.Degree

// beyondReason is how much more than the instruments explain readings may scatter and
// still be of one piston: a protractor that slipped, or two jobs in one, does that.
const beyondReason = 20

// cannotTell says why TDC is no answer to go by; nothing when it is one.
func (a *adjustment) cannotTell(tdc Estimate) string {
	switch {
	case a.unit != "":
		return a.unit
	case a.best.Status != fit.Converged:
		return fmt.Sprintf("the curve fit did not settle (%s)", a.best.Status)
	case a.widening.factor > beyondReason:
		return fmt.Sprintf("they scatter %.0f times as much as the instruments explain", a.widening.factor)
	case tdc.Expanded > vague:
		return fmt.Sprintf("it may be anywhere within %.0f deg either way", tdc.Expanded.Degrees())
	}
	return ""
}

// mostNamed is how many readings that do not fit are named one by one: with more
// of them it is the job that is wrong, not a reading.
const mostNamed = 8

// warnSuspects is about readings that do not fit.
func (a *adjustment) warnSuspects(r Result, warn func(bool, string, ...any)) {
	suspects := 0
	for i, judged := range r.Readings {
		if !judged.Suspect {
			continue
		}
		if suspects++; suspects > mostNamed {
			continue
		}
		kept := "It has been left out"
		if judged.Weight > 0.005 {
			kept = fmt.Sprintf("It counts for %.0f %% of a reading", 100*judged.Weight)
		}
		warn(true, "%s does not fit: it is off by %+.3g mm, %.0f times its expected error. "+
			"%s; read it again.%s%s", a.where(judged.Reading), float64(judged.Residual), a.best.Distance(i), kept, a.dialTurn(judged.Residual), a.impossible(i))
	}
	warn(suspects > mostNamed, "And %d more readings of %d do not fit: with so many, suspect the set-up or the engine's dimensions before the readings.",
		suspects-mostNamed, len(a.read))
}

// warnFlanks is about where the readings lie that are used.
func (a *adjustment) warnFlanks(f flanks, warn func(bool, string, ...any)) {
	var count [2]int // before, after TDC, deep enough to tell an angle
	var deepest [2]float64
	for i := range a.read {
		side := 0
		if a.suspect[i] {
			continue
		}
		if a.angle[i] > f.rough.tdc {
			side = 1
		}
		if drop := (a.depth[i] - f.rough.zero) / f.rough.scale; drop >= f.shallowest() {
			count[side]++
			deepest[side] = math.Max(deepest[side], drop)
		}
	}
	sign := ""
	if first := a.read[0]; a.setup.Protractor.Scale != evidence.Full && oneSided(a.read) {
		sign = fmt.Sprintf(" If some were read there, their sign was left out: write %s, for such a one as %s.", otherSide(a.setup.Protractor, first.Angle), a.where(first))
	}
	names := [2]string{"before TDC (piston rising)", "after TDC (piston falling)"}
	if count[0]+count[1] == 0 {
		warn(true, "All readings lie within %s mm of the top, where the piston hardly moves: read farther down both flanks, 1 to 3 mm.", geometry.Decimal(f.shallowest(), 2))
		return
	}
	for side, name := range names {
		warn(count[side] == 0, "No reading %s: TDC rests on the engine's dimensions alone. Read that side too.%s", name, sign)
		warn(count[side] > 0 && count[side] < 3 && count[1-side] >= 3, "Only %s %s: take more there.", plural(count[side], "reading"), name)
	}
	for side := range names {
		warn(count[0] > 0 && count[1] > 0 && deepest[side] > 2*deepest[1-side],
			"The flanks are lopsided: %.1f mm deep %s, %.1f mm on the other side. Read both to the same depth.",
			deepest[side], names[side], deepest[1-side])
	}
}

// warnAssumed is about dimensions that nobody stated.
func (a *adjustment) warnAssumed(warn func(bool, string, ...any)) {
	warn(a.assumed.Stroke > 0, "The stroke is unknown: the curve's sharpness is left to the readings.")
	warn(a.assumed.Rod > 0 && a.assumed.Stroke == 0, "The rod's length is unknown: %.0f ± %.0f mm is assumed.",
		float64(a.assumed.Rod), float64(a.assumed.RodKnownTo))
}

// dialTurn says what a residual of a dial gauge's turn is; nothing of another.
func (a *adjustment) dialTurn(residual geometry.Length) string {
	const turn, about = 1 * geometry.Millimetre, 0.1 * geometry.Millimetre // common practice, no source
	if off := math.Abs(float64(residual)); a.setup.Gauge.Kind == evidence.Dial && math.Abs(off-float64(turn)) < float64(about) {
		return " One turn of a dial gauge is 1 mm."
	}
	return ""
}

// impossible says that a reading lies where no piston of this stroke comes; nothing of
// another.
func (a *adjustment) impossible(i int) string {
	drop := geometry.Length((a.depth[i] - a.best.Beta[parZero]) / a.best.Beta[parScale])
	stroke := a.setup.Engine.Stroke
	switch {
	case stroke > 0 && drop > 1.1*stroke: // more than a slant and a wrong zero make
		return fmt.Sprintf(" No piston comes there: the stroke is %v in all.", stroke)
	case drop < -suspectBeyond*a.setup.Gauge.Uncertainty()-a.setup.Gauge.Lash-a.setup.Gauge.LashKnownTo:
		return fmt.Sprintf(" No piston comes there: it would stand %.3g mm above its highest point.", -float64(drop))
	}
	return ""
}

// where names a reading as its user would find it, in the file and at the bench.
func (a *adjustment) where(r evidence.Reading) string {
	at := evidence.ShortNumber(a.setup.Protractor.Shows(r.Angle).Degrees())
	if r.File == "" {
		return fmt.Sprintf("Reading %d (%s deg, %s)", r.Line, at, r.Turn)
	}
	return fmt.Sprintf("%s line %d (%s deg, %s)", r.File, r.Line, at, r.Turn)
}

func plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
