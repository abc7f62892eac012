package mark_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
	"evendrop/tdc/mark/marktest"
)

func healthyPin(at, u float64) []mark.Healthy {
	return []mark.Healthy{{
		Name: "pin", On: "flywheel", Against: "crank", Angle: marktest.Deg(at), Uncertainty: marktest.Deg(u), OfTDC: marktest.Deg(u / 2), DegreesOfFreedom: math.Inf(1), Engines: 1,
	}}
}

// Worked by hand. Three engines at 0, 0.3 and 0.6, each known to 0.1: chi-square
// 18 on 2, so Birge's ratio is 3 and the mean is known to 0.1/sqrt(3)*3; what is
// left of the scatter is (18 - 2)/(300 - 100) = 0.08, and together with 0.01 that
// is the sample variance of 0.09. Two at 0 and 0.3 known to 0.1 and 0.2: mean
// 25*0.3/125 = 0.06, chi-square 0.09/0.05 = 1.8 on 1, scatter 0.8/(125 - 10625/125).
// Two 0.2 apart across 180 deg: chi-square 2 on 1. Two that agree: no scatter, and no ratio below 1.
func TestCombine(t *testing.T) {
	for _, c := range []struct {
		engines                      [][2]float64
		at, u, scatter, free, shared float64
	}{
		{[][2]float64{{0, .1}, {.3, .1}, {.6, .1}}, .3, .1 * math.Sqrt(3), math.Sqrt(.08), 2, .05 / math.Sqrt(3)},
		{[][2]float64{{0, .1}, {.3, .2}}, .06, math.Sqrt(1.8 / 125), math.Sqrt(.02), 1, math.Hypot(100*.05, 25*.1) / 125},
		{[][2]float64{{.1, .1}, {.1, .1}}, .1, .1 / math.Sqrt(2), 0, math.Inf(1), .05 / math.Sqrt(2)},
		{[][2]float64{{-2, .1}}, -2, .1, 0, math.Inf(1), .05},
		{[][2]float64{{179.9, .1}, {-179.9, .1}}, 180, .1, math.Sqrt(.01), 1, .05 / math.Sqrt(2)},
	} {
		var engines [][]mark.Healthy
		for _, e := range c.engines {
			engines = append(engines, healthyPin(e[0], e[1]))
		}
		kept, err := mark.Combine(engines...)
		require.NoError(t, err)
		require.Len(t, kept, 1)
		h := kept[0]
		require.InDelta(t, 0, (h.Angle - marktest.Deg(c.at)).Signed().Degrees(), 1e-9, c.engines)
		require.InDelta(t, c.u, h.Uncertainty.Degrees(), 1e-9, c.engines)
		require.InDelta(t, c.scatter, h.Scatter.Degrees(), 1e-6, c.engines) // chi-square less its freedom loses digits before the root
		require.InDelta(t, c.shared, h.OfTDC.Degrees(), 1e-9, c.engines)
		require.Equal(t, c.free, h.DegreesOfFreedom, c.engines)
		require.Equal(t, len(c.engines), h.Engines)
		require.InDelta(t, math.Hypot(c.u, c.scatter), h.Estimate().Uncertainty.Degrees(), 1e-6, c.engines)
	}
}

// Marks come in the order they first come, the strictest limit counts, and the
// fewest degrees of freedom.
func TestCombineKeepsTheStrictest(t *testing.T) {
	a, b := healthyPin(0, .1), healthyPin(0, .1)
	a[0].Limit, a[0].HasLimit = marktest.Deg(2), true
	b[0].Limit, b[0].HasLimit = marktest.Deg(1), true
	b[0].DegreesOfFreedom = 4
	b = append([]mark.Healthy{{Name: "notch", On: "pulley", Against: "crank", Uncertainty: marktest.Deg(.1), DegreesOfFreedom: 7, Engines: 1}}, b...)
	kept, err := mark.Combine(a, b)
	require.NoError(t, err)
	require.Equal(t, "pin", kept[0].Name)
	require.Equal(t, marktest.Deg(1), kept[0].Limit)
	require.Equal(t, 4.0, kept[0].DegreesOfFreedom)
	require.Equal(t, "notch", kept[1].Name)
	require.Equal(t, 1, kept[1].Engines)
	a[0].TwoTurns = true // known but for one turn in b
	kept, err = mark.Combine(a, b)
	require.NoError(t, err)
	require.False(t, kept[0].TwoTurns)
}

func TestCombineRefuses(t *testing.T) {
	for says, spoil := range map[string]func(*mark.Healthy){
		"it is on the pulley here and on the flywheel there": func(h *mark.Healthy) { h.On = "pulley" },
		"measured against the pulley here":                   func(h *mark.Healthy) { h.Against = "pulley" },
		"given as a shift":                                   func(h *mark.Healthy) { h.Measured = true },
	} {
		other := healthyPin(0, .1)
		spoil(&other[0])
		_, err := mark.Combine(healthyPin(0, .1), other)
		require.ErrorContains(t, err, `mark "pin": `)
		require.ErrorContains(t, err, says)
	}
}

// Held against what it showed itself an engine is off by nothing, with what was
// measured twice in its uncertainty, and what the offset does to a nominal angle
// out of it.
func TestHeldAgainstItself(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	list := []mark.Mark{
		{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(5.4)}, Zero: mark.Throw, Limit: marktest.Deg(1), HasLimit: true},
		{Name: "flats", On: "inlet cam", Off: &mark.Shift{Value: 4, Unit: mark.CrankDegrees, KnownTo: 0.5}},
		{Name: "new", On: "pulley", Read: []geometry.Angle{marktest.Deg(3.5)}},
	}
	drive := mark.Drive{Layout: "two cams"}
	first, err := mark.Judge(s, result, drive, list)
	require.NoError(t, err)
	kept := mark.Keep(first[:2])
	require.Equal(t, "crank", kept[0].Against)
	require.True(t, kept[1].Measured && kept[1].TwoTurns && !kept[0].TwoTurns)
	require.LessOrEqual(t, kept[0].OfTDC, kept[0].Uncertainty)
	// what TDC's own uncertainty leaves a mark beside it, and what may have moved
	moved := slices.IndexFunc(result.Budget, func(c adjust.Contribution) bool { return c.Source == adjust.MovedSource })
	own := math.Hypot(float64(result.AgreeTo.Uncertainty), float64(result.Budget[moved].Angle))
	require.InEpsilon(t, own, float64(kept[0].OfTDC), 0.01)
	list[0].HasLimit = false
	kept[0].Limit, kept[0].HasLimit = marktest.Deg(0.7), true
	held, err := mark.HoldAgainst(list, kept)
	require.NoError(t, err)
	require.Nil(t, list[0].Healthy)
	require.Nil(t, held[2].Healthy)
	require.Equal(t, marktest.Deg(0.7), held[0].Limit)
	again, err := mark.Judge(s, result, drive, held)
	require.NoError(t, err)
	for i := range kept {
		require.InDelta(t, 0, again[i].Angle.Degrees(), 1e-9)
		require.InEpsilon(t, math.Sqrt2*float64(kept[i].Uncertainty), float64(again[i].Uncertainty), 1e-9)
		require.Empty(t, again[i].Notes)
	}
	require.Equal(t, mark.Within, again[0].Verdict)
	require.InDelta(t, 0.5, again[2].Angle.Degrees(), 1e-6)

	// Off by what an offset of 8 mm makes, asin(8/189) = 2.426 deg: it is the same
	// piston's TDC that the healthy engine's marks count from, so nothing to ask.
	held[0].Read, held[0].Zero = []geometry.Angle{marktest.Deg(5.4 - 2.426)}, mark.Piston
	off, err := mark.Judge(s, result, drive, held[:1])
	require.NoError(t, err)
	require.InDelta(t, -2.426, off[0].Angle.Degrees(), 1e-3)
	require.Empty(t, off[0].Notes)
	d, err := joint.Explain(s, drive, off, nil)
	require.NoError(t, err)
	for _, slip := range d.Explanations[0].Slips {
		require.Contains(t, slip.Joints, seen.TDC)
		for _, note := range slip.Notes {
			require.NotEqual(t, finding.TDCByOffset{}.Kind(), note.Kind())
		}
	}

	held[0].On, held[0].Name = "pulley", "pin"
	_, err = mark.HoldAgainst(held, kept)
	var of *mark.Error
	require.ErrorAs(t, err, &of)
	require.Zero(t, of.Index)
	require.ErrorContains(t, err, `mark "pin": it is on the pulley here and on the flywheel there`)
}

// Marks held against one healthy engine share its TDC: all off by 1.7 of what that
// is known to is one error, about 1.7 squared of chi-square, and not five.
func TestHealthyTDCIsShared(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.Error, s.Protractor.OffCentre = marktest.Deg(0.001), 0
	s.Engine.KnownTo.Offset = 0.01
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	var list []mark.Mark
	var kept []mark.Healthy
	for _, name := range []string{"first", "second", "third", "fourth", "fifth"} {
		list = append(list, mark.Mark{Name: name, On: "flywheel", Read: slices.Repeat([]geometry.Angle{marktest.Deg(3)}, 400)})
		kept = append(kept, mark.Healthy{
			Name: name, On: "flywheel", Against: "crank", Angle: marktest.Deg(-1.7), Uncertainty: marktest.Deg(1.0), OfTDC: marktest.Deg(0.999),
			DegreesOfFreedom: math.Inf(1), Engines: 1,
		})
	}
	held, err := mark.HoldAgainst(list, kept)
	require.NoError(t, err)
	findings, err := mark.Judge(s, result, mark.Drive{}, held)
	require.NoError(t, err)
	d, err := joint.Explain(s, mark.Drive{}, findings, nil)
	require.NoError(t, err)
	require.Zero(t, d.Tried)
	// 1.7^2 / (0.999^2 + 0.0447^2/5 + what TDC here is known to): the last is 1 %
	require.InEpsilon(t, 1.7*1.7, d.Explanations[0].ChiSquare, 0.02)
}

// A cam that a healthy engine showed but for one turn is not called a turn out.
func TestHealthyOfOneTurn(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	for _, c := range []struct {
		two  bool
		want float64
	}{{true, 360}, {false, 0}} {
		m := mark.Mark{Name: "lock", On: "cam", Read: []geometry.Angle{marktest.Deg(363)}, Healthy: &mark.Healthy{
			Name: "lock", On: "cam", Against: "crank", TwoTurns: c.two, Uncertainty: marktest.Deg(.1), DegreesOfFreedom: math.Inf(1),
		}}
		f, err := mark.Judge(s, result, mark.Drive{Layout: "one cam"}, []mark.Mark{m})
		require.NoError(t, err)
		require.InDelta(t, c.want, math.Abs(f[0].Angle.Degrees()), 1e-6)
	}
}

// The few engines that scatter widen what is held against them: with one degree
// of freedom by Student's 12.7 (his tables).
func TestScatterOfTwoEngines(t *testing.T) {
	kept, err := mark.Combine(healthyPin(-1, 1e-4), healthyPin(1, 1e-4))
	require.NoError(t, err)
	e := kept[0].Estimate()
	// the mean's 1 and the scatter's sqrt(2) have that one degree each, which Welch
	// and Satterthwaite take for (1+2)^2/(1+4) = 1.8 together; Student's t of 1.8 is
	// between 12.7 of one and 4.3 of two.
	require.InDelta(t, math.Sqrt(3), e.Uncertainty.Degrees(), 1e-3)
	require.InDelta(t, 1.8, e.DegreesOfFreedom, 1e-3)
	require.Greater(t, float64(e.Expanded/e.Uncertainty), 4.3)
	require.Less(t, float64(e.Expanded/e.Uncertainty), 12.7)
}

// A mark that nobody said what it should be is measured and judged by nothing; a
// healthy engine's makes it one like any other. A shift's own should_be counts.
func TestUnknownNominal(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	list := []mark.Mark{
		{Name: "gap", On: "crank wheel", Read: []geometry.Angle{marktest.Deg(-81)}, Unknown: true, Limit: marktest.Deg(1), HasLimit: true},
		{Name: "place", On: "inlet wheel", Against: "crank wheel", Off: &mark.Shift{Value: 50, Unit: mark.CrankDegrees, KnownTo: 0.5}, Unknown: true},
		{Name: "flats", On: "inlet cam", Off: &mark.Shift{Value: 50, Unit: mark.CrankDegrees, KnownTo: 0.5}, ShouldBe: marktest.Deg(48)},
		{Name: "notch", On: "pulley", Read: []geometry.Angle{marktest.Deg(5.5)}, Unknown: true}, // where an offset would be asked about
	}
	drive := mark.Drive{Layout: "two cams"}
	findings, err := mark.Judge(s, result, drive, list)
	require.NoError(t, err)
	judged, measured := mark.Part(findings)
	require.Len(t, judged, 1)
	require.InDelta(t, 2, judged[0].Angle.Degrees(), 1e-9)
	require.Len(t, measured, 3)
	for i, at := range []float64{-84, 50, 2.5} {
		require.Equal(t, mark.NothingToHoldAgainst, measured[i].Verdict)
		require.InDelta(t, at, measured[i].Angle.Degrees(), 1e-6)
		require.Empty(t, measured[i].Notes)
	}
	kept := mark.Keep(measured[:2])
	require.Equal(t, marktest.Deg(1), kept[0].Limit)
	list = list[:3]
	list[0].Read, list[1].Off = []geometry.Angle{marktest.Deg(-78.5)}, &mark.Shift{Value: 51, Unit: mark.CrankDegrees, KnownTo: 0.5}
	held, err := mark.HoldAgainst(list, kept)
	require.NoError(t, err)
	findings, err = mark.Judge(s, result, drive, held)
	require.NoError(t, err)
	judged, measured = mark.Part(findings)
	require.Empty(t, measured)
	require.InDelta(t, 2.5, judged[0].Angle.Degrees(), 1e-6)
	require.Equal(t, mark.Outside, judged[0].Verdict)
	require.InDelta(t, 1, judged[1].Angle.Degrees(), 1e-6)
}

// A mark that is not the same in two jobs is named by its place in the second.
func TestChangesNameTheMark(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	judged := func(shouldBe float64) []mark.Judged {
		list := []mark.Mark{
			{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(3)}},
			{Name: "notch", On: "pulley", Read: []geometry.Angle{marktest.Deg(3)}, ShouldBe: marktest.Deg(shouldBe)},
		}
		findings, err := mark.Judge(s, result, mark.Drive{}, list)
		require.NoError(t, err)
		return findings
	}
	_, err := mark.Changes(judged(0), judged(10))
	var e *mark.Error
	require.ErrorAs(t, err, &e)
	require.Equal(t, 1, e.Index)
	_, err = mark.Changes(judged(0), judged(10)[1:])
	require.ErrorAs(t, err, &e)
	require.Equal(t, 1, e.Index)
}

// A limit that a job gives itself stands before the known-good file's.
func TestOwnLimitStands(t *testing.T) {
	kept := healthyPin(0, .1)
	kept[0].Limit, kept[0].HasLimit = marktest.Deg(2), true
	held, err := mark.HoldAgainst([]mark.Mark{{Name: "pin", On: "flywheel", Limit: marktest.Deg(1), HasLimit: true}}, kept)
	require.NoError(t, err)
	require.Equal(t, marktest.Deg(1), held[0].Limit)
}

// What several healthy engines scatter by stands in place of the limit, of a lobe as of a
// mark; one engine says nothing of that.
func TestAsBuilt(t *testing.T) {
	limit := 3 * geometry.Degree
	of := func(engines int) float64 {
		return mark.Judged{Mark: mark.Mark{Limit: limit, HasLimit: true, Lobe: &mark.Lobe{Engines: engines}}}.AsBuilt()
	}
	require.InDelta(t, float64(limit)/math.Sqrt(3), of(0), 1e-12)
	require.InDelta(t, float64(limit)/math.Sqrt(3), of(1), 1e-12)
	require.Zero(t, of(2))
}
