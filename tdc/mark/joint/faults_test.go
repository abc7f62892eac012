package joint

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

// workshop is the marks with what each is known to, degrees: those against the
// crank share 0.15 of TDC.
var workshop = struct {
	own    []float64
	shared float64
}{[]float64{0.2, 0.5, 0.2, 0.5, 0.5, 0.3, 0.3}, 0.15}

// drawn is the marks shifted by what is shown, with noise.
func drawn(rng *rand.Rand, marks []mark.Mark, shown []float64) []mark.Judged {
	common := workshop.shared * rng.NormFloat64()
	var findings []mark.Judged
	for i, m := range marks {
		off := shown[i] + workshop.own[i]*rng.NormFloat64()
		u := workshop.own[i]
		f := mark.Judged{Mark: m, Period: geometry.Turn}
		if i >= 3 {
			f.Period *= 2
		}
		if m.Against == "" {
			off += common
			u = math.Hypot(u, workshop.shared)
			f.Shared = []float64{workshop.shared * float64(geometry.Degree)}
		}
		spread := gum.Spread{Normal: []gum.Component{{Standard: u * float64(geometry.Degree), Degrees: math.Inf(1)}}}
		f.Estimate = spread.Estimate(mark.Wrapped(geometry.Angle(off)*geometry.Degree, f.Period))
		findings = append(findings, f)
	}
	return findings
}

func times(x float64, shows []float64) []float64 {
	out := make([]float64, len(shows))
	for i, s := range shows {
		out[i] = x * s
	}
	return out
}

const seed = 20240229

// A single fault of any size well beyond the limits is named, with its group and
// nothing else, in at least 98 of 100 noisy draws; so is the whole turn that
// half a turn of the flywheel can hide. Nearer to the limits others are shown
// beside it: at 5 deg of limits of 2 as much less likely, at 3 as likely, and it
// must be among them.
func TestSingleFaultsAreNamed(t *testing.T) {
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	drawsOf := map[float64]int{-8: 1000, 5: 1000, 180: 200, 3: 200}
	if testing.Short() {
		drawsOf = map[float64]int{-8: 100, 5: 100, 180: 50, 3: 50}
	}
	worst := map[float64]tally{}
	for _, f := range marktest.Faults {
		for _, size := range []float64{-8, 5, 180, 3} {
			var got tally
			draws := drawsOf[size]
			for range draws {
				got.count(t, drawn(rng, marktest.Seven(false), times(size, f.Shows)), []marktest.Fault{f}, []float64{size})
			}
			if size > 3 || size < 0 {
				require.GreaterOrEqual(t, got.alone, draws*98/100, "%s by %g", f.Joints[0], size)
			}
			if math.Abs(size) > 5 {
				require.GreaterOrEqual(t, got.bare, draws*98/100, "%s by %g", f.Joints[0], size)
			}
			require.GreaterOrEqual(t, got.shown+got.nothing, draws*98/100, "%s by %g", f.Joints[0], size)
			worst[size] = worst[size].worse(got)
		}
	}
	for size, w := range worst {
		t.Logf("by %g deg, at the worst of %d: alone %d, with nothing less likely beside it %d, first %d, shown %d, nothing moved %d", size, drawsOf[size], w.alone, w.bare, w.first, w.shown, w.nothing)
	}
}

// tally is how often the truth was the only likely explanation, the only one, the
// first, or among those shown, and how often nothing was thought to have moved.
type tally struct{ alone, bare, first, shown, nothing int }

func (c tally) worse(d tally) tally {
	if c == (tally{}) {
		return d
	}
	return tally{min(c.alone, d.alone), min(c.bare, d.bare), min(c.first, d.first), min(c.shown, d.shown), max(c.nothing, d.nothing)}
}

func (c *tally) count(t *testing.T, findings []mark.Judged, truth []marktest.Fault, sizes []float64) {
	x, err := newExplainer(evidence.Setup{}, marktest.TwoCams, findings, nil)
	require.NoError(t, err)
	fits, tried, _ := x.fewestSlips()
	if tried == 0 {
		c.nothing++
	}
	for i, f := range fits {
		if !x.same(f, truth, sizes) {
			continue
		}
		c.shown++
		if i == 0 {
			c.first++
		}
		if x.onlyRewritten(fits, f) {
			c.bare++
		}
		if x.onlyRewritten(likely(fits), f) {
			c.alone++
		}
	}
}

// likely is the sets that are not much less likely than the first.
func likely(fits []fitted) (likely []fitted) {
	for _, f := range fits {
		if f.likely(fits[0].chiSquare) {
			likely = append(likely, f)
		}
	}
	return likely
}

// same tells whether a set is the truth: the same groups, by the same amounts
// within six standard uncertainties, or the degree that limits may hide.
func (x *explainer) same(f fitted, truth []marktest.Fault, sizes []float64) bool {
	if len(f.set) != len(truth) {
		return false
	}
	for i, one := range truth {
		found := false
		for k, g := range f.set {
			if slices.Equal(x.Groups[g].Column, one.Shows) {
				allowed := math.Max(6*f.slips[k].Uncertainty.Degrees(), 1)
				found = math.Abs(math.Remainder(f.shift[k]*180/math.Pi-sizes[i], 360)) < allowed
			}
		}
		if !found {
			return false
		}
	}
	return true
}

// onlyRewritten tells whether every set kept leaves the marks what this one
// does: two slips may be written as two others that add up to the same, and no
// measurement of these marks tells them apart.
func (x *explainer) onlyRewritten(fits []fitted, f fitted) bool {
	for _, other := range fits {
		if math.Abs(other.chiSquare-f.chiSquare) > 1e-6*(1+f.chiSquare) {
			return false
		}
	}
	return true
}

// Two faults at once, of sizes that neither hide nor mimic one another, are
// shown in at least nine draws of ten, with nothing beside them but the same
// written otherwise.
func TestPairsOfFaultsAreNamed(t *testing.T) {
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 2))
	const draws = 100
	var all, worst tally
	pairs := 0
	for i := range marktest.Faults {
		for j := range i {
			for _, sizes := range [][]float64{{12, 18}, {-7, 25}} {
				shown := times(sizes[0], marktest.Faults[i].Shows)
				for k, s := range times(sizes[1], marktest.Faults[j].Shows) {
					shown[k] += s
				}
				var got tally
				for range draws {
					got.count(t, drawn(rng, marktest.Seven(false), shown), []marktest.Fault{marktest.Faults[i], marktest.Faults[j]}, sizes)
				}
				if got.alone < draws*90/100 {
					t.Errorf("%s by %g and %s by %g: %+v of %d", marktest.Faults[i].Joints[0], sizes[0], marktest.Faults[j].Joints[0], sizes[1], got, draws)
				}
				worst = worst.worse(got)
				all = tally{all.alone + got.alone, all.bare + got.bare, all.first + got.first, all.shown + got.shown, all.nothing + got.nothing}
				pairs++
			}
		}
	}
	t.Logf("of %d draws of %d pairs: %+v; the worst pair, of %d: %+v", pairs*draws, pairs, all, draws, worst)
}
