package mark

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Judged is a mark against TDC, or against the member it was measured from. One that was
// read in several sets is one mark, and its Read is that of the first of them in the job.
type Judged struct {
	Mark
	Sets         []InSet        // that it was read in, the earliest first; none of one that was measured without the protractor
	Position     geometry.Angle // crank, after TDC; the shift of a mark measured without the protractor
	Nominal      geometry.Angle // what Position should be; zero of one that is only measured
	gum.Estimate                // Angle is how far it is off, late positive: Position of one that is only measured
	Verdict      Verdict
	Settles      geometry.Angle  // the expanded uncertainty that would call one too close to call
	ToSettle     finding.Finding // what would bring it there; nil unless it is too close, or nothing is known
	Notes        []finding.Finding

	index     int                // among the marks, of the first of its name
	Period    geometry.Angle     // the shift is known but for whole ones
	measuring gum.Spread         // of Position
	nominal   gum.Spread         // of Nominal
	seen      *position.Combined // Position as the protractor showed it; nil of a mark measured without it
	last      int                // readings in the set that the crank stands in; zero where it was not read there
	Shared    []float64          // radians: the parts of Nominal's uncertainty that each source leaves all marks
}

// Check is what is wrong with marks or with the drive that they are on, an *Error;
// nil when they can be judged.
func Check(drive Drive, marks []Mark) error {
	_, err := TreeFor(drive, marks)
	return err
}

// Judge holds each mark against the TDC that result found in the set that it was read in,
// but those that may have been read before the protractor moved; one read in several sets
// is combined. What is wrong with a mark or the drive is an *Error.
func Judge(setup evidence.Setup, result tdc.Result, drive Drive, marks []Mark) ([]Judged, error) {
	t, err := TreeFor(drive, marks)
	if err != nil {
		return nil, err
	}
	findings := make([]Judged, 0, len(marks))
	for _, g := range bySet(marks) {
		if g = g.since(marks, result); len(g) == 0 {
			continue
		}
		f, err := t.judge(setup, result, g.of(marks))
		if err != nil {
			return nil, g.wrong(marks, err)
		}
		f.index = g[0]
		findings = append(findings, f)
	}
	return findings, nil
}

// judge is a mark, as each set has it.
func (t *Tree) judge(setup evidence.Setup, result tdc.Result, sets []Mark) (Judged, error) {
	m := sets[0]
	f := Judged{Mark: m, Verdict: NoLimitSaid}
	switch {
	case m.Lobe != nil:
		f.ofLobe(result, sets)
	case m.Off == nil:
		if err := f.readOff(t, result, sets); err != nil {
			return Judged{}, err
		}
	default:
		if err := f.measured(t); err != nil {
			return Judged{}, err
		}
	}
	if err := f.holdAgainst(setup); err != nil {
		return Judged{}, err
	}
	f.Estimate = joined(f.measuring, f.nominal).Estimate(Wrapped(f.Position-f.Nominal, f.Period))
	switch {
	case f.OnlyMeasured():
		f.Verdict = NothingToHoldAgainst
	case m.HasLimit:
		f.Verdict = Decide(f.Angle, f.Expanded, m.Limit)
	}
	if f.Verdict == TooClose {
		f.Settles = settles(f.Angle, m.Limit)
		f.ToSettle = f.toSettle(setup, result)
	}
	f.Notes = append(f.Notes, f.doubts(setup)...)
	return f, nil
}

// OnlyMeasured tells whether a mark is compared with nothing: nobody said what it
// should be, and no healthy engine showed it.
func (f Judged) OnlyMeasured() bool { return f.Unknown && f.Healthy == nil }

// Part parts what is compared with something from what is only measured, each in
// its order.
func Part(findings []Judged) (judged, measured []Judged) {
	for _, f := range findings {
		if f.OnlyMeasured() {
			measured = append(measured, f)
		} else {
			judged = append(judged, f)
		}
	}
	return judged, measured
}

// measured is a shift that was measured without the protractor. A cam comes
// round once in two turns of the crank.
func (f *Judged) measured(t *Tree) error {
	off, half, assumed, err := t.crankAngle(f.Mark)
	if err != nil {
		return err
	}
	if assumed {
		f.Notes = append(f.Notes, finding.KnownToAssumed{Mark: f.about(), KnownTo: half})
	}
	f.Position = off
	f.Period = geometry.Turn
	if t.AtCamSpeed(f.On) || t.AtCamSpeed(f.Reference()) {
		f.Period = 2 * geometry.Turn
	}
	f.measuring = gum.Spread{Rectangular: []float64{float64(half) / math.Sqrt(3)}}
	return nil
}

// holdAgainst sets where the mark should be and how sure that is: what healthy
// engines showed, or the nominal angle. Nominals of one origin share the doubt in the
// offset, or the healthy engines' TDC.
func (f *Judged) holdAgainst(setup evidence.Setup) error {
	var ofOffset, ofHealthy float64
	switch {
	case f.Healthy != nil:
		f.Nominal, f.nominal = f.Healthy.Angle, f.Healthy.spread()
		f.Period = min(f.Period, f.Healthy.period())
		ofHealthy = float64(f.Healthy.OfTDC)
	case f.Unknown:
	case f.Lobe != nil:
		f.Nominal, f.nominal, ofHealthy = f.ShouldBe, f.Lobe.spread(), float64(f.Lobe.Doubt)
	case f.Off != nil:
		f.Nominal = f.ShouldBe
	case f.Zero == Throw:
		toTDC, half, err := setup.ThrowToTDC()
		if err != nil {
			return err
		}
		f.Nominal = f.ShouldBe - toTDC
		ofOffset = float64(half) / math.Sqrt(3)
		f.nominal.Rectangular = []float64{ofOffset}
	default:
		f.Nominal = f.ShouldBe
	}
	if f.Unstated && f.Healthy == nil {
		f.Notes = append(f.Notes, finding.ShouldBeAssumed{Mark: f.about(), FromThrow: f.Zero == Throw})
	}
	if f.Off == nil {
		f.Shared = []float64{ofOffset, ofHealthy}
	}
	return nil
}

// Covariance is what two marks' shifts share, radians squared: the TDCs that both were
// read from, the protractor's error along them, and what their nominal angles count from. A mark measured without the
// protractor shares nothing.
func (f Judged) Covariance(g Judged) float64 {
	sum := 0.0
	for i := range min(len(f.Shared), len(g.Shared)) {
		sum += f.Shared[i] * g.Shared[i]
	}
	if f.seen != nil && g.seen != nil {
		sum += f.seen.Covariance(*g.seen)
	}
	return sum
}

// joined is the spread of a sum.
func joined(a, b gum.Spread) gum.Spread {
	return gum.Spread{Normal: slices.Concat(a.Normal, b.Normal), Rectangular: slices.Concat(a.Rectangular, b.Rectangular)}
}

// countsTwoTurns tells whether angles were read on a scale of 720 deg.
func countsTwoTurns(read []geometry.Angle) bool {
	for _, a := range read {
		if math.Abs(float64(a)) >= float64(geometry.Turn) {
			return true
		}
	}
	return false
}

// Wrapped is an angle less whole periods, within half of one either way.
func Wrapped(a, period geometry.Angle) geometry.Angle {
	return (a * geometry.Turn / period).Signed() * period / geometry.Turn
}

// AsBuilt is the standard uncertainty of where a sound mark was made: anywhere
// within its limit, so a rectangular distribution (JCGM100 4.3.7). What several
// healthy engines scatter by is known better, and is in the nominal angle already.
func (f Judged) AsBuilt() float64 {
	if !f.HasLimit || f.Healthy != nil && f.Healthy.Engines > 1 || f.Lobe != nil && f.Lobe.Engines > 1 {
		return 0
	}
	return f.Limit.Radians() / math.Sqrt(3)
}

// OfEngines is the part of the variance, radians squared, that is how several healthy
// engines differ, the mean's and another's: it is in the nominal angle.
func (f Judged) OfEngines() float64 {
	h := f.Healthy
	if h == nil || h.Engines < 2 {
		return 0
	}
	of := sq(float64(h.Scatter))
	return of + math.Max(0, math.Min(of/float64(h.Engines), sq(float64(h.Uncertainty))-sq(float64(h.OfTDC))))
}
