package halve

import (
	"math"
	"slices"

	"evendrop/fit/gum"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Pattern is how the midpoints of equal drop go with the drop.
type Pattern string

// The patterns, and what each points to (simulated: lash makes midpoints late by
// lash over slope; an offset or a wheel off its centre moves them in proportion to
// the drop; a mistyped reading moves its own level alone).
const (
	Flat        Pattern = "flat"
	LikeLash    Pattern = "shrinking with drop"
	LikeOffset  Pattern = "growing with drop"
	OneLevel    Pattern = "one level apart"
	NoPattern   Pattern = "none that a single cause makes"
	TooFewToSay Pattern = "too few levels to say"
)

// Trend is the pattern of the midpoints and its size.
type Trend struct {
	Pattern Pattern
	Lash    gum.Measured // mm, when shrinking with drop
	Growth  gum.Measured // degrees of midpoint per mm of drop, when growing with it
	Line    int          // of the reading, when one level is apart
}

// trendChance is how unlikely midpoints must be under a pattern to refuse it, and
// fewestLevels how many it takes to speak of one.
const (
	trendChance  = 0.01
	fewestLevels = 4
)

// trend is the first pattern, the plainest first, that explains the midpoints.
func (f Flanks) trend(levels []Level) Trend {
	levels = distinct(levels)
	if len(levels) < fewestLevels {
		return Trend{Pattern: TooFewToSay}
	}
	if p, _ := explained(levels, nil); p >= trendChance {
		return Trend{Pattern: Flat}
	}
	// by how much a millimetre of lash makes a midpoint late, and of drop moves it
	byLash := func(l Level) float64 {
		early, late, err := f.Crank.AnglesAt(l.Drop)
		if err != nil {
			return 0
		}
		return float64(l.Turn) / 2 / f.slope(float64(late-early)/2)
	}
	byDrop := func(l Level) float64 { return float64(l.Drop) }
	pLash, lash := explained(levels, byLash)
	pDrop, growth := explained(levels, byDrop)
	pOne, line := oneApart(levels)
	switch best := math.Max(pLash, math.Max(pDrop, pOne)); {
	case best < trendChance:
		return Trend{Pattern: NoPattern}
	case pLash == best:
		return Trend{Pattern: LikeLash, Lash: lash}
	case pDrop == best:
		return Trend{Pattern: LikeOffset, Growth: gum.Measured{Value: growth.Value * 180 / math.Pi, Uncertainty: growth.Uncertainty * 180 / math.Pi}}
	}
	return Trend{Pattern: OneLevel, Line: line}
}

// distinct is the levels without those that say again what one at the same drop in
// the same direction said: both flanks' readings there ask for it.
func distinct(levels []Level) []Level {
	var out []Level
	for _, l := range levels {
		again := slices.ContainsFunc(out, func(o Level) bool {
			return o.Turn == l.Turn && math.Abs(float64(o.Drop-l.Drop)) < 1e-4 && math.Abs(float64(o.Midpoint-l.Midpoint)) < 1e-6
		})
		if !again {
			out = append(out, l)
		}
	}
	return out
}

// explained is the probability of the midpoints' scatter about a constant and, when
// by is not nil, an amount times by; and that amount.
func explained(levels []Level, by func(Level) float64) (p float64, amount gum.Measured) {
	n, m := len(levels), 1
	if by != nil {
		m = 2
	}
	design, right := mat.NewDense(n, m, nil), mat.NewVecDense(n, nil)
	for i, l := range levels {
		weight := 1 / float64(l.Uncertainty)
		design.Set(i, 0, weight)
		if by != nil {
			design.Set(i, 1, weight*by(l))
		}
		right.SetVec(i, weight*float64((l.Midpoint-levels[0].Midpoint).Signed()))
	}
	var qr mat.QR
	qr.Factorize(design)
	var beta, rest mat.VecDense
	if n <= m || qr.SolveVecTo(&beta, false, right) != nil {
		return 0, gum.Measured{}
	}
	rest.MulVec(design, &beta)
	rest.SubVec(right, &rest)
	chiSquare := mat.Dot(&rest, &rest)
	if by != nil {
		var square, inverse mat.Dense
		square.Mul(design.T(), design)
		if inverse.Inverse(&square) == nil {
			amount = gum.Measured{Value: beta.AtVec(1), Uncertainty: math.Sqrt(inverse.At(1, 1))}
		}
	}
	return distuv.ChiSquared{K: float64(n - m)}.Survival(chiSquare), amount
}

// oneApart is the probability of the midpoints without the one that is farthest
// from the others, and that one's line.
func oneApart(levels []Level) (p float64, line int) {
	for i := range levels {
		others := append(append([]Level{}, levels[:i]...), levels[i+1:]...)
		if q, _ := explained(others, nil); q > p {
			p, line = q, levels[i].line
		}
	}
	return p, line
}
