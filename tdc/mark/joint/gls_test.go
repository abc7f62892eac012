package joint

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

// Three marks by hand. Two holes of the flywheel are 5 and 4 deg late, of own
// variance 1, the notch 1.5 deg, of 2; TDC leaves them all a variance of 1. So
//
//	V = [2 1 1; 1 2 1; 1 1 3], and with D = diag(1, 1, 2) and o = (1, 1, 1)
//	V^-1 = D^-1 - D^-1 o o' D^-1 / (1 + o' D^-1 o) = D^-1 - (...) / 3.5
//
// For the flywheel, a = (1, 1, 0) and d = (5, 4, 1.5):
//
//	a'V^-1 a = 2 - 2*2/3.5 = 6/7,  a'V^-1 d = 9 - 2*9.75/3.5 = 24/7,
//	d'V^-1 d = 42.125 - 9.75*9.75/3.5 = 419/28
//	x = 4 deg, u = sqrt(7/6) deg, chi-square = 419/28 - (24/7)^2 / (6/7) = 5/4
//
// of 2 degrees of freedom, so that P = exp(-5/8). Taken as sharing nothing, x
// would be 4.5.
func TestThreeMarksByHand(t *testing.T) {
	explain := func(notch float64) []Explanation {
		d, err := Explain(evidence.Setup{}, mark.Drive{}, []mark.Judged{marktest.Off("flywheel", 5, 1, 1), marktest.Off("flywheel", 4, 1, 1), marktest.Off("pulley", notch, 2, 1)}, nil)
		require.NoError(t, err)
		return d.Explanations
	}
	all := explain(1.5)
	require.Len(t, all, 2)
	e := all[0]
	require.Len(t, e.Slips, 1)
	require.Equal(t, []string{"flywheel on crank"}, e.Slips[0].Joints)
	require.InDelta(t, 4, e.Slips[0].Angle.Degrees(), 1e-12)
	require.InDelta(t, math.Sqrt(7.0/6), e.Slips[0].Uncertainty.Degrees(), 1e-12)
	require.InDelta(t, 5.0/4, e.ChiSquare, 1e-11)
	require.Equal(t, 2, e.DegreesOfFreedom)
	require.InDelta(t, math.Exp(-5.0/8), e.P, 1e-11)
	// All three late alike, o in place of a: x = (39/14)/(5/7) = 3.9 and chi-square
	// 419/28 - (39/14)^2/(5/7) = 4.1, within the 5.991 of 5 %. Its u, sqrt(7/5), is
	// widened by sqrt(4.1/2).
	require.Equal(t, []string{"TDC of cylinder 1"}, all[1].Slips[0].Joints)
	require.InDelta(t, 3.9, all[1].Slips[0].Angle.Degrees(), 1e-12)
	require.InDelta(t, 4.1, all[1].ChiSquare, 1e-11)
	require.InDelta(t, math.Sqrt(7.0/5*4.1/2), all[1].Slips[0].Uncertainty.Degrees(), 1e-12)
	// With the notch at 1 deg o is 3.8 late with 5.4 of chi-square, so +-1.96
	// sqrt(7/5*5.4/2) = 3.81: nought is inside, and it is no slip.
	require.Len(t, explain(1), 1)
}

// A mark's limit is a scatter of its own. Holes 5 and 4 deg late that share nothing,
// the one of a limit of 1.2 and an own variance of 0.52, so 0.52 + 1.2^2/3 = 1, the
// other of a variance of 1 and no limit: the flywheel is 4.5 late, known to
// sqrt(1/2), and leaves 1/4 + 1/4.
func TestLimitsScatterByHand(t *testing.T) {
	d, err := Explain(evidence.Setup{}, mark.Drive{}, []mark.Judged{marktest.Limited("flywheel", 5, 0.52, 1.2), marktest.Off("flywheel", 4, 1, 0)}, nil)
	require.NoError(t, err)
	e := d.Explanations[0]
	require.InDelta(t, 0.5, e.ChiSquare, 1e-11)
	require.InDelta(t, 4.5, e.Slips[0].Angle.Degrees(), 1e-11)
	require.InDelta(t, math.Sqrt(0.5), e.Slips[0].Uncertainty.Degrees(), 1e-11)
}

// A slip is no more than its marks' limits let it be. Of holes 3 and 0.9 deg late,
// each known to 0.196 (1.96 of 0.1) and made within 1, the first says 1.804 to
// 4.196 and the second -0.296 to 2.096: both say 1.95 +- 0.146.
func TestLimitsCutASlip(t *testing.T) {
	d, err := Explain(evidence.Setup{}, mark.Drive{}, []mark.Judged{marktest.Limited("flywheel", 3, 0.01, 1), marktest.Limited("flywheel", 0.9, 0.01, 1)}, nil)
	require.NoError(t, err)
	require.InDelta(t, 1.95, d.Explanations[0].Slips[0].Angle.Degrees(), 1e-4)
	require.InDelta(t, 0.146, d.Explanations[0].Slips[0].Expanded.Degrees(), 1e-4)
}

// Of jobs in which nothing was found, the limit that is told holds the slip that
// there was, of any joint and size, at least 95 times in 100.
func TestDetectionLimitHolds(t *testing.T) {
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 5))
	missed, held := 0, 0
	for range 4000 {
		f := marktest.Faults[rng.IntN(len(marktest.Faults))]
		size := 6*rng.Float64() - 3
		x, err := newExplainer(evidence.Setup{}, marktest.TwoCams, drawn(rng, marktest.Seven(false), times(size, f.Shows)), nil)
		require.NoError(t, err)
		if _, tried, _ := x.fewestSlips(); tried > 0 {
			continue
		}
		missed++
		if math.Abs(size) <= slices.Max(x.search.limits()).Degrees() {
			held++
		}
	}
	t.Logf("nothing found %d times, limit held %d", missed, held)
	require.Greater(t, missed, 1000)
	require.Greater(t, held, missed*95/100)
}

// No uncertainty at all weighs more than any number can.
func TestNoUncertaintyIsRefused(t *testing.T) {
	_, err := Explain(evidence.Setup{}, mark.Drive{}, []mark.Judged{marktest.Off("flywheel", 3, 0, 0)}, nil)
	require.ErrorContains(t, err, "state known_to")
}

// twelve is a drive of twelve joints with a mark on each, which nothing explains.
func twelve() (mark.Drive, []mark.Judged) {
	var d mark.Drive
	var findings []mark.Judged
	rng := rand.New(rand.NewPCG(seed, 6))
	carrier := mark.Crank
	for i := range 12 {
		carried := string(rune('a' + i))
		d.Joints = append(d.Joints, mark.Joint{Carried: carried, Carrier: carrier})
		findings = append(findings, marktest.Off(carried, 100*rng.Float64()-50, 0.1, 0.1))
		if i%3 < 2 {
			carrier = carried
		} else {
			carrier = mark.Crank
		}
	}
	return d, findings
}

// A person waits for it: 12 joints and three slips at once within 0.1 s.
func TestTwelveJointsInTime(t *testing.T) {
	d, findings := twelve()
	start := time.Now()
	got, err := Explain(evidence.Setup{}, d, findings, nil)
	require.NoError(t, err)
	require.Empty(t, got.Explanations)
	require.Equal(t, 3, got.Tried)
	t.Logf("%v", time.Since(start))
	require.Less(t, time.Since(start), 100*time.Millisecond)
}

func BenchmarkTwelveJointsThreeSlips(b *testing.B) {
	d, findings := twelve()
	for b.Loop() {
		if _, err := Explain(evidence.Setup{}, d, findings, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// The seven marks of a workshop with three joints moved, from twenty-odd parts.
func BenchmarkSevenMarksThreeSlips(b *testing.B) {
	findings := drawn(rand.New(rand.NewPCG(seed, 7)), marktest.Seven(false), []float64{60, 23, 60, 18, 18, -42, -42})
	for b.Loop() {
		if _, err := Explain(evidence.Setup{}, marktest.TwoCams, findings, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// Where limits forgive nothing, the truth is kept as often as chi-square at 5 %
// keeps it.
func TestLevelOfChiSquare(t *testing.T) {
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 8))
	marks := marktest.Seven(false)
	for i := range marks {
		marks[i].Limit = 0
	}
	const draws = 1000
	var got tally
	for range draws {
		got.count(t, drawn(rng, marks, times(30, marktest.Faults[0].Shows)), marktest.Faults[:1], []float64{30})
	}
	t.Logf("kept %d of %d", got.shown, draws)
	require.InDelta(t, 0.95, float64(got.shown)/draws, 0.021) // three times sqrt(0.95*0.05/1000)
}

// One notch plainly outside among thirty fine ones: chi-square would overlook
// it, 12.25 being nothing for 31 marks.
func TestOneOutsideAmongMany(t *testing.T) {
	var findings []mark.Judged
	for range 30 {
		findings = append(findings, marktest.Off("flywheel", 0, 0.09, 0))
	}
	notch := marktest.Off("pulley", 1.05, 0.09, 0)
	notch.Limit, notch.HasLimit = geometry.Angle(0.4)*geometry.Degree, true
	d, err := Explain(evidence.Setup{}, mark.Drive{}, append(findings, notch), nil)
	require.NoError(t, err)
	require.Equal(t, []string{"pulley on crank"}, d.Explanations[0].Slips[0].Joints)
	require.Len(t, d.Explanations, 1)
}
