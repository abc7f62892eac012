package joint

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// seven is the marks that a workshop measures: locking pin, pulley notch, gap of
// the crank wheel at its sensor, cam locks, and the cams' edges from that gap.
func seven(certain bool) []mark.Mark {
	d := geometry.Degree
	return []mark.Mark{
		{Name: "P", On: "flywheel", Limit: 1 * d, HasLimit: true},
		{Name: "N", On: "pulley", Limit: 2 * d, HasLimit: true},
		{Name: "G", On: "crank wheel", Limit: 1 * d, HasLimit: true, Certain: certain},
		{Name: "CI", On: "inlet cam", Limit: 2 * d, HasLimit: true, Certain: certain},
		{Name: "CE", On: "exhaust cam", Limit: 2 * d, HasLimit: true, Certain: certain},
		{Name: "WI", On: "inlet wheel", Against: "crank wheel", Off: &mark.Shift{}, Limit: 2 * d, HasLimit: true, Certain: certain},
		{Name: "WE", On: "exhaust wheel", Against: "crank wheel", Off: &mark.Shift{}, Limit: 2 * d, HasLimit: true, Certain: certain},
	}
}

var twoCams = mark.Drive{Layout: "two cams", CrankSprocket: 20, CrankWheel: "60-2", CrankPitches: 60, CrankWheelOn: "flywheel", FlywheelBolts: 6}

// fault is what each of the seven shows, per unit of one thing moved, and the
// joints that it may be: worked out on paper from what turns with what.
type fault struct {
	joints []string
	shows  []float64
}

var faults = []fault{
	{[]string{"flywheel on crank"}, []float64{1, 0, 1, 0, 0, -1, -1}},
	{[]string{"crank wheel on flywheel", "crank sensor"}, []float64{0, 0, 1, 0, 0, -1, -1}},
	{[]string{"pulley on crank", "N itself"}, []float64{0, 1, 0, 0, 0, 0, 0}},
	{[]string{"crank sprocket on crank", "drive on crank sprocket"}, []float64{0, 0, 0, 1, 1, 1, 1}},
	{[]string{"drive to exhaust sprocket", "exhaust cam on exhaust sprocket"}, []float64{0, 0, 0, 0, 1, 0, 1}},
	{[]string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}, []float64{0, 0, 0, 1, 0, 1, 0}},
	{[]string{"inlet wheel on inlet cam", "inlet cam sensor", "WI itself"}, []float64{0, 0, 0, 0, 0, 1, 0}},
	{[]string{"exhaust wheel on exhaust cam", "exhaust cam sensor", "WE itself"}, []float64{0, 0, 0, 0, 0, 0, 1}},
	{[]string{"P itself"}, []float64{1, 0, 0, 0, 0, 0, 0}},
	{[]string{"TDC of cylinder 1"}, []float64{1, 1, 1, 1, 1, 0, 0}},
}

func systemOf(t *testing.T, d mark.Drive, marks []mark.Mark) *system {
	tree, err := mark.TreeFor(d, marks)
	require.NoError(t, err)
	return newSystem(tree, marks, wheels(tree, marks), nil)
}

func rank(s *system) int {
	m := mat.NewDense(len(s.incidence), len(s.parts), slices.Concat(s.incidence...))
	var svd mat.SVD
	svd.Factorize(m, mat.SVDNone)
	return svd.Rank(1e-9)
}

func groupNames(s *system) [][]string {
	groups, _ := s.groups()
	var all [][]string
	for _, g := range groups {
		var names []string
		for _, j := range g.parts {
			names = append(names, s.parts[j].name)
		}
		all = append(all, names)
	}
	return all
}

// geared is the faults of an engine whose second cam is driven from the first: what
// drives the first moves both, and what drives the second only that.
func geared(first, second string, ofFirst, ofSecond []float64) []fault {
	return []fault{
		{[]string{"crank sprocket on crank", "drive to " + first + " sprocket"}, []float64{0, 0, 0, 1, 1, 1, 1}},
		{[]string{first + " cam on " + first + " sprocket"}, ofFirst},
		{[]string{"drive to " + second + " sprocket", second + " cam on " + second + " sprocket"}, ofSecond},
		{[]string{"P itself"}, []float64{1, 0, 0, 0, 0, 0, 0}},
	}
}

// Every fault shows as the table says, and in the group it says.
func TestIncidenceIsTheFaultTable(t *testing.T) {
	inlet, exhaust := []float64{0, 0, 0, 1, 0, 1, 0}, []float64{0, 0, 0, 0, 1, 0, 1}
	for layout, table := range map[string][]fault{
		"two cams":                faults,
		"two cams, inlet first":   geared("inlet", "exhaust", inlet, exhaust),
		"two cams, exhaust first": geared("exhaust", "inlet", exhaust, inlet),
	} {
		d := twoCams
		d.Layout = layout
		s := systemOf(t, d, seven(false))
		groups, unseen := s.groups()
		require.Empty(t, unseen)
		require.Len(t, groups, len(faults)+3, layout) // and G, CI and CE themselves
		for _, f := range table {
			found := false
			for k, names := range groupNames(s) {
				if names[0] == f.joints[0] {
					found = true
					require.ElementsMatch(t, f.joints, names, layout)
					require.Equal(t, f.shows, groups[k].column, f.joints[0])
				}
			}
			require.True(t, found, "%s: %s", layout, f.joints[0])
		}
	}
}

// Where the cams' sensor wheels are clamped with the sprockets, a cam that slips on
// its sprocket shows in its flats alone.
func TestWheelsOnTheSprockets(t *testing.T) {
	d := twoCams
	d.CamWheelOn = "sprocket"
	s := systemOf(t, d, seven(false))
	groups, _ := s.groups()
	for k, names := range groupNames(s) {
		switch names[0] {
		case "inlet cam on inlet sprocket":
			require.Equal(t, []float64{0, 0, 0, 1, 0, 0, 0}, groups[k].column)
			require.Contains(t, names, "CI itself")
		case "drive to inlet sprocket":
			require.Equal(t, []float64{0, 0, 0, 1, 0, 1, 0}, groups[k].column)
			require.Equal(t, []string{"drive to inlet sprocket"}, names)
		}
	}
	require.Contains(t, groupNames(s), []string{"inlet wheel on inlet sprocket", "inlet cam sensor", "WI itself"})
}

// Fifteen joints in seven marks, worked out on paper: ten columns that differ, of
// rank seven, and the groups named. The sensors of the two cam wheels, which stand
// with their wheels, make it seventeen.
func TestRanksOfSevenMarks(t *testing.T) {
	marks := seven(true)
	marks[1].On = "ring"
	joints := []mark.Joint{
		{Carried: "flywheel", Carrier: "crank"}, {Carried: "crank wheel", Carrier: "flywheel"},
		{Carried: "hub", Carrier: "crank"}, {Carried: "ring", Carrier: "hub"},
		{Carried: "crank sprocket", Carrier: "crank"},
		{Carried: "inlet sprocket", Carrier: "crank sprocket", Drive: true},
		{Carried: "inlet cam", Carrier: "inlet sprocket"}, {Carried: "inlet wheel", Carrier: "inlet cam"},
		{Carried: "exhaust sprocket", Carrier: "inlet sprocket", Drive: true},
		{Carried: "exhaust cam", Carrier: "exhaust sprocket"}, {Carried: "exhaust wheel", Carrier: "exhaust cam"},
	}
	s := systemOf(t, mark.Drive{Joints: joints}, marks)
	require.Len(t, s.parts, 17)
	require.Equal(t, 7, rank(s))
	require.ElementsMatch(t, [][]string{
		{"flywheel on crank"}, {"crank wheel on flywheel", "crank sensor"},
		{"hub on crank", "ring on hub", "N itself"},
		{"crank sprocket on crank", "drive to inlet sprocket"},
		{"drive to exhaust sprocket", "exhaust cam on exhaust sprocket"},
		{"inlet cam on inlet sprocket"}, {"P itself"}, {"TDC of cylinder 1"},
		{"inlet wheel on inlet cam", "inlet cam sensor"}, {"exhaust wheel on exhaust cam", "exhaust cam sensor"},
	}, groupNames(s))

	// With the wheel on the pulley, nothing tells the flywheel from the pin's boss,
	// and the hub shows in notch, gap and both cam edges.
	onPulley := twoCams
	onPulley.CrankWheelOn = "pulley"
	s = systemOf(t, onPulley, seven(true))
	require.Contains(t, groupNames(s), []string{"flywheel on crank", "P itself"})
	groups, _ := s.groups()
	require.Equal(t, []float64{0, 1, 1, 0, 0, -1, -1}, groups[1].column)

	// A scope alone: later cams and an earlier crank wheel are one line.
	s = systemOf(t, twoCams, seven(true)[5:])
	require.Equal(t, 2, rank(s))
	groups, _ = s.groups()
	require.Contains(t, groupNames(s), []string{"flywheel on crank", "crank wheel on flywheel", "crank sprocket on crank",
		"drive on crank sprocket", "crank sensor"})
	require.Equal(t, []float64{1, 1, -1, -1, 1}, groups[0].signs)
}

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
	for _, f := range faults {
		for _, size := range []float64{-8, 5, 180, 3} {
			var got tally
			draws := drawsOf[size]
			for range draws {
				got.count(t, drawn(rng, seven(false), times(size, f.shows)), []fault{f}, []float64{size})
			}
			if size > 3 || size < 0 {
				require.GreaterOrEqual(t, got.alone, draws*98/100, "%s by %g", f.joints[0], size)
			}
			if math.Abs(size) > 5 {
				require.GreaterOrEqual(t, got.bare, draws*98/100, "%s by %g", f.joints[0], size)
			}
			require.GreaterOrEqual(t, got.shown+got.nothing, draws*98/100, "%s by %g", f.joints[0], size)
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

func (c *tally) count(t *testing.T, findings []mark.Judged, truth []fault, sizes []float64) {
	x, err := newExplainer(evidence.Setup{}, twoCams, findings)
	require.NoError(t, err)
	fits, tried := x.fewestSlips()
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
func (x *explainer) same(f fitted, truth []fault, sizes []float64) bool {
	if len(f.set) != len(truth) {
		return false
	}
	for i, one := range truth {
		found := false
		for k, g := range f.set {
			if slices.Equal(x.groups[g].column, one.shows) {
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
	for i := range faults {
		for j := range i {
			for _, sizes := range [][]float64{{12, 18}, {-7, 25}} {
				shown := times(sizes[0], faults[i].shows)
				for k, s := range times(sizes[1], faults[j].shows) {
					shown[k] += s
				}
				var got tally
				for range draws {
					got.count(t, drawn(rng, seven(false), shown), []fault{faults[i], faults[j]}, sizes)
				}
				if got.alone < draws*90/100 {
					t.Errorf("%s by %g and %s by %g: %+v of %d", faults[i].joints[0], sizes[0], faults[j].joints[0], sizes[1], got, draws)
				}
				worst = worst.worse(got)
				all = tally{all.alone + got.alone, all.bare + got.bare, all.first + got.first, all.shown + got.shown, all.nothing + got.nothing}
				pairs++
			}
		}
	}
	t.Logf("of %d draws of %d pairs: %+v; the worst pair, of %d: %+v", pairs*draws, pairs, all, draws, worst)
}
