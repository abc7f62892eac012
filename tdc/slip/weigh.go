package slip

import (
	"cmp"
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/refit"
)

// weighed is a hypothesis after the readings.
type weighed struct {
	hypothesis
	refit.Refit
	weight float64 // its probability among all
}

// weigh gives each hypothesis its probability; the first is that nothing happened. What
// one gains counts the less the more the readings scatter about the best one.
func weigh(list []weighed) {
	nothing, scatter := list[0], sq(scatterOfBest(list))
	most := math.Inf(-1)
	for i := range list {
		w := &list[i]
		w.weight = math.Log(w.chance) + (nothing.Cost-w.Cost)/(2*scatter) + nothing.LnSigma - w.LnSigma + math.Min(0, w.lnRoom()-nothing.lnRoom())
		most = math.Max(most, w.weight)
	}
	sum := 0.0
	for i := range list {
		list[i].weight = math.Exp(list[i].weight - most)
		sum += list[i].weight
	}
	for i := range list {
		list[i].weight /= sum
	}
}

// lnRoom is the logarithm of the room that the readings leave a hypothesis of what it
// had: what could have explained anything explains little (Occam's factor).
func (w weighed) lnRoom() float64 {
	switch w.Part {
	case curve.Protractor:
		return w.LnRoom + lnCauchy(w.Step, angleScale)
	case curve.GaugeZero:
		return w.LnRoom + lnCauchy(w.Step, depthScale)
	}
	return w.LnRoom
}

// lnCauchy is the logarithm of Cauchy's density, over that of a normal one of deviation
// 1 at its middle.
func lnCauchy(step, scale float64) float64 {
	return math.Log(math.Sqrt(2*math.Pi) / (math.Pi * scale * (1 + sq(step/scale))))
}

// scatterOfBest is how much more than the instruments explain the readings scatter
// about the hypothesis that fits best; at least 1.
func scatterOfBest(list []weighed) float64 {
	best := slices.MinFunc(list, func(a, b weighed) int { return cmp.Compare(a.Cost, b.Cost) })
	if best.Degrees < 1 {
		return 1
	}
	return math.Max(1, math.Sqrt(best.ChiSquare/best.Degrees))
}

// probability is that of all hypotheses of a kind together.
func probability(list []weighed, of func(weighed) bool) (sum float64) {
	for _, w := range list {
		if of(w) {
			sum += w.weight
		}
	}
	return sum
}

// best is the most probable hypothesis of a kind.
func best(list []weighed, of func(weighed) bool) (found weighed) {
	for _, w := range list {
		if of(w) && w.weight > found.weight {
			found = w
		}
	}
	return found
}

// mixture is TDC by all hypotheses together.
func mixture(list []weighed, side func(refit.Refit) refit.Turning) (m gum.Mixture) {
	for _, w := range list {
		if w.weight > negligible {
			m = append(m, w.possible(side(w.Refit), w.weight))
		}
	}
	return m
}

// possible is TDC by one hypothesis.
func (w weighed) possible(t refit.Turning, weight float64) gum.Possible {
	return gum.Possible{Weight: weight, At: t.At, Normal: math.Hypot(w.Widened*t.Read, t.Ranges), Half: math.Sqrt(3) * t.Range}
}

func sq(x float64) float64 { return x * x }
