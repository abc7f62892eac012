package cams

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/plan"
)

const deg = geometry.Degree

// piston is a bench whose protractor shows TDC at so many degrees, and its piston's
// readings without error of their own.
func piston(t *testing.T, degrees float64) Bench {
	t.Helper()
	setup := evidence.Setup{Engine: evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
	best, err := plan.Best(setup, plan.Ground{Deepest: 8}, 12)
	require.NoError(t, err)
	readings := best.Readings(setup)
	for i := range readings {
		readings[i].Angle += geometry.Angle(degrees) * deg
	}
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: readings})
	require.NoError(t, err)
	return Bench{TDC: geometry.Angle(degrees) * deg, Result: result, Protractor: setup.Protractor}
}

// The cycloid is the textbook's rise of 20 mm in 60 deg of the cam (lobes.md 3, printed to
// six decimals); the 3-4-5 polynomial is at half the top half-way, and as far below the
// foot's side of that as above it, without speed or acceleration at its ends.
func TestProfiles(t *testing.T) {
	for i, want := range []float64{0.075117, 0.576689, 1.816901, 3.910022, 6.741784, 10} {
		require.InDelta(t, want, 20*cycloid(float64(i+1)*5/60), 5e-7)
		require.InDelta(t, 20-want, 20*cycloid(1-float64(i+1)*5/60), 5e-7)
	}
	require.InDelta(t, 0.5, polynomial(0.5), 1e-15)
	require.InDelta(t, 0.103515625, polynomial(0.25), 1e-15) // 10/64 - 15/256 + 6/1024
	for _, p := range []profile{cycloid, polynomial} {
		const h = 1e-4
		require.InDelta(t, 1, p(0.3)+p(0.7), 1e-14)
		require.Zero(t, p(0))
		require.InDelta(t, 1, p(1), 1e-15)
		require.Less(t, p(h), 20*h*h*h, "neither speed nor acceleration")
		require.Less(t, 1-p(1-h), 20*h*h*h)
		require.InDelta(t, 0.37, p(p.at(0.37)), 1e-12)
	}
}

// A healthy cam does what its card says, whatever its flanks; one that moved does so as
// much later, and lost lift opens it late and closes it early.
func TestGroundAsTheCardSays(t *testing.T) {
	leaning := 0
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 1))
		for _, valve := range []lobe.Valve{lobe.Inlet, lobe.Exhaust} {
			l := card(rng, valve)
			c := ground(rng, l)
			require.InDelta(t, l.Card.Opens.Degrees(), c.event(checking, -1), 1e-9)
			require.InDelta(t, l.Card.Closes.Degrees(), c.event(checking, 1), 1e-9)
			require.InDelta(t, checking, c.lift(l.Card.Opens.Degrees()), 1e-9)
			require.InDelta(t, checking, c.lift(l.Card.Closes.Degrees()), 1e-9)
			require.InDelta(t, c.top, c.lift(c.nose), 1e-12)
			require.Equal(t, valve == lobe.Inlet, c.nose > 0)
			if c.before != c.after {
				leaning++
			}
			late := c
			late.nose += 5
			require.InDelta(t, c.event(checking, -1)+5, late.event(checking, -1), 1e-9)
			late.lost = 0.2
			require.Greater(t, late.event(checking, -1), c.event(checking, -1)+5)
			require.Less(t, late.event(checking, 1), c.event(checking, 1)+5)
			require.InDelta(t, checking, late.lift(late.event(checking, 1)), 1e-9)
			require.Zero(t, late.lift(late.nose+300))
		}
	}
	require.InDelta(t, 40, leaning, 20, "half of them lean")
}

// Every reading lies as near to the cam as its instruments' bounds let it: 0.25 + 0.25 deg
// of angle along the slope, 0.02 + 0.005 mm of lift, 0.02 of run-out either way, 1.5 % of
// scale.
func TestReadingsAreTheCams(t *testing.T) {
	b := piston(t, 5)
	for seed := range uint64(30) {
		rng := rand.New(rand.NewPCG(seed, 2))
		l := card(rng, lobe.Inlet)
		c := ground(rng, l)
		c.nose, c.lost = c.nose+4, 0.2
		read := b.read(rng, c, l.Gauge, places(rng, c))
		require.Len(t, read, 11)
		for i, r := range read {
			u := apart(r.Angle.Degrees(), 5)
			if u < c.nose-180 {
				u += 360
			}
			low, high := math.Min(c.lift(u-0.501), c.lift(u+0.501)), math.Max(c.lift(u-0.501), c.lift(u+0.501))
			if i == 5 {
				high = c.top - c.lost
			}
			require.GreaterOrEqual(t, float64(r.Lift), 0.985*(low-0.02)-0.0251, "seed %d, %d", seed, i)
			require.LessOrEqual(t, float64(r.Lift), 1.015*(high+0.02)+0.0251, "seed %d, %d", seed, i)
			require.InDelta(t, 0, math.Remainder(r.Angle.Degrees(), 0.5), 1e-9)
			require.InDelta(t, 0, math.Remainder(float64(r.Lift), 0.01), 1e-9)
			require.Equal(t, evidence.Forward, r.Turn)
		}
		for k, want := range map[int]float64{0: c.event(checking, -1) - 2.5, 1: c.event(checking, -1) + 2.5, 9: c.event(checking, 1) - 2.5, 10: c.event(checking, 1) + 2.5} {
			require.InDelta(t, 0, apart(read[k].Angle.Degrees()-5, want), 0.5+0.5+1e-9, "a hand and the protractor")
		}
	}
}

// What counts as right holds what the readings can tell, in every job; what befell the cam
// can be told from nothing by what find says; and without wishes each fate comes as often.
func TestTheBestAnswerIsRight(t *testing.T) {
	b, fates, told := piston(t, 5), map[Fault]int{}, 0
	const seeds = 150
	for seed := range uint64(seeds) {
		jobs, err := Make(seed, Wanted{Valves: []lobe.Valve{lobe.Inlet, lobe.Exhaust}}, b)
		require.NoError(t, err)
		for _, j := range jobs {
			m := lobe.Measure(b.Protractor, lobe.From{Result: b.Result}, j.Lobe)
			a, e := j.Answer, m.Events
			for q, angle := range map[Quantity]geometry.Angle{Opens: e.Opens.Angle, Closes: e.Closes.Angle, Centre: e.Centre.Angle, Late: m.Shift.Angle} {
				marked := a.Mark(q, angle)
				require.True(t, marked.Within(), "seed %d, %s", seed, q)
				require.Less(t, marked.Limit, 2.0)
			}
			require.True(t, a.Valid())
			fates[a.Fault]++
			moved := math.Abs(m.Shift.Angle.Degrees()) > m.Shift.Expanded.Degrees()
			lost := false
			for _, f := range m.Findings {
				_, is := f.(finding.LiftOffset)
				lost = lost || is
			}
			if map[Fault][2]bool{Nothing: {}, Moved: {true, false}, Lift: {false, true}}[a.Fault] == [2]bool{moved, lost} {
				told++
			}
		}
	}
	require.Zero(t, fates[Both])
	for _, f := range []Fault{Nothing, Moved, Lift} {
		require.InDelta(t, 2*seeds/3, fates[f], 3*math.Sqrt(2*seeds*2/9), f) // three standard deviations of the binomial
	}
	// of three in 20 some interval of two lies beside zero by chance, at 95 %
	require.Greater(t, told, 2*seeds*85/100)
}

// The same seed makes the same lobes; what is wished for is what is made.
func TestWanted(t *testing.T) {
	b := piston(t, -3)
	both := []lobe.Valve{lobe.Inlet, lobe.Exhaust}
	first, err := Make(4, Wanted{Valves: both}, b)
	require.NoError(t, err)
	again, err := Make(4, Wanted{Valves: both}, b)
	require.NoError(t, err)
	require.Equal(t, first, again)
	require.Equal(t, []string{"inlet.csv", "exhaust.csv"}, []string{first[0].File(), first[1].File()})
	other, err := Make(5, Wanted{Valves: both}, b)
	require.NoError(t, err)
	require.NotEqual(t, first[0].Lobe.Readings, other[0].Lobe.Readings)
	for _, c := range []struct {
		late, lost float64
		fault      Fault
	}{{0, 0, Nothing}, {-4, 0, Moved}, {0, 0.2, Lift}, {7.5, 0.2, Both}} {
		for seed := range uint64(5) {
			jobs, err := Make(seed, Wanted{both, new(geometry.Angle(c.late) * deg), new(geometry.Length(c.lost))}, b)
			require.NoError(t, err)
			for _, j := range jobs {
				require.InDelta(t, c.late, j.Answer.Late.Truth, 1e-9)
				require.InDelta(t, c.lost, j.Answer.Lost, 1e-9)
				require.Equal(t, c.fault, j.Answer.Fault)
			}
		}
	}
	alone, err := Make(1, Wanted{Valves: both, Late: new(3 * deg)}, b)
	require.NoError(t, err)
	require.Equal(t, Moved, alone[0].Answer.Fault, "what is not wished for has not happened")
	none, err := Make(1, Wanted{}, b)
	require.NoError(t, err)
	require.Empty(t, none)
	for _, w := range []Wanted{{Late: new(deg)}, {Lost: new(geometry.Length(0.1))}, {both, new(46 * deg), nil}, {both, new(geometry.Angle(math.NaN())), nil}, {both, nil, new(geometry.Length(0.6))}, {both, nil, new(geometry.Length(-0.1))}} {
		_, err := Make(1, w, b)
		require.Error(t, err)
	}
}

// An answer is marked by how far it lies from the truth, and a wrong one is laid to the
// trap of the same quantity that it lies in.
func TestMark(t *testing.T) {
	a := Answer{Late: Value{3, 0.5}, Closes: Value{226, 0.8}, Traps: []Trap{{"zero", Late, 8, ""}, {"top", Late, 4.4, ""}, {"zero", Closes, -129, ""}}}
	for _, c := range []struct {
		q          Quantity
		given, off float64
		within     bool
		near       string
	}{
		{Late, 3.5, 0.5, true, ""}, {Late, 2.5, -0.5, true, ""}, {Late, 2.4, -0.6, false, ""}, {Late, 8.3, 5.3, false, "zero"}, {Late, 4.2, 1.2, false, "top"}, {Late, 3.6, 0.6, false, ""},
		{Closes, -134, 0, true, ""}, {Closes, 231, 5, false, "zero"}, {Closes, 8, 142, false, ""},
	} {
		m := a.Mark(c.q, geometry.Angle(c.given)*deg)
		require.InDelta(t, c.off, m.Off, 1e-6)
		require.Equal(t, c.within, m.Within(), c.given)
		if c.near == "" {
			require.Nil(t, m.Near, c.given)
		} else {
			require.NotNil(t, m.Near, c.given)
			require.Equal(t, c.near, m.Near.Name)
		}
	}
}

// The traps are where the wrong ways lead: TDC forgotten, so late by what it shows; the
// highest reading for the centre; and, where lift is missing, one side alone.
func TestTraps(t *testing.T) {
	b := piston(t, 5)
	jobs, err := Make(2, Wanted{[]lobe.Valve{lobe.Inlet}, new(geometry.Angle(0)), new(geometry.Length(0.25))}, b)
	require.NoError(t, err)
	j := jobs[0]
	at := map[Quantity]map[string]float64{Late: {}, Opens: {}, Closes: {}, Centre: {}}
	for _, trap := range j.Answer.Traps {
		at[trap.What][trap.Name] = trap.At
	}
	for _, q := range []Quantity{Late, Opens, Closes, Centre} {
		require.InDelta(t, 5, apart(at[q]["the protractor's zero"], j.Answer.value(q).Truth), j.Answer.value(q).Limit+0.01)
	}
	require.InDelta(t, apart(j.Answer.Opens.Truth, j.Lobe.Card.Opens.Degrees()), at[Late]["the opening alone"], j.Answer.Opens.Limit)
	require.InDelta(t, apart(j.Answer.Closes.Truth, j.Lobe.Card.Closes.Degrees()), at[Late]["the closing alone"], j.Answer.Closes.Limit)
	require.Greater(t, at[Late]["the opening alone"], 2.0)
	require.Less(t, at[Late]["the closing alone"], -2.0)
	for seed := range uint64(30) { // some of which put one side alone outside by luck
		moved, err := Make(seed, Wanted{[]lobe.Valve{lobe.Inlet}, new(6 * deg), nil}, b)
		require.NoError(t, err)
		for _, trap := range moved[0].Answer.Traps {
			require.NotContains(t, trap.Name, "alone")
		}
	}
}

// What no lobe was answered with is not taken for an answer.
func TestValid(t *testing.T) {
	good := Answer{Valve: "inlet", Fault: Moved, Opens: Value{1, 1}, Closes: Value{1, 1}, Centre: Value{1, 1}, Late: Value{1, 1}}
	require.True(t, good.Valid())
	for _, spoil := range []func(a *Answer){
		func(a *Answer) { a.Valve = "x" }, func(a *Answer) { a.Fault = "" }, func(a *Answer) { a.Opens.Limit = 0 }, func(a *Answer) { a.Closes.Limit = math.Inf(1) },
		func(a *Answer) { a.Centre.Truth = math.NaN() }, func(a *Answer) { a.Late.Truth = 1e9 }, func(a *Answer) { a.Traps = []Trap{{At: math.Inf(-1)}} },
	} {
		bad := good
		spoil(&bad)
		require.False(t, bad.Valid())
	}
}
