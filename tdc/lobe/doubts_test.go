package lobe_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
)

// sound is the even lobe of an invented cam, its nose 108 deg after TDC, read where a plan
// would, to a thousandth.
func sound(u ...float64) []lobe.Reading {
	c := lobetest.Cam{Shape: lobetest.Shapes[0], Nose: 108}
	var pairs []float64
	for _, at := range append(u, c.Planned(rand.New(rand.NewPCG(1, 2)), 1)...) {
		pairs = append(pairs, at, float64(int(1000*c.Lift(at)+0.5))/1000)
	}
	list := rows(pairs...)
	slices.SortFunc(list, func(a, b lobe.Reading) int { return int(float64(a.Angle-b.Angle) * 1e6) })
	for i := range list {
		list[i].Line = i + 2
	}
	return list
}

// found is the findings of a kind.
func found[F finding.Finding](list []finding.Finding) (of []F) {
	for _, f := range list {
		if is, ok := f.(F); ok {
			of = append(of, is)
		}
	}
	return of
}

// card is what that lobe does.
func card() lobe.Card {
	return lobe.Card{Lift: 1, HasEvents: true, Opens: geometry.Angle(opensAt) * deg, Closes: geometry.Angle(2*108-opensAt) * deg, Top: 9.2}
}

var opensAt = lobetest.Cam{Shape: lobetest.Shapes[0], Nose: 108}.Event(1, -1)

// A sound lobe is spoken of in nothing, and its cam has not moved.
func TestSoundLobe(t *testing.T) {
	m := measured(t, lobe.Lobe{Name: "inlet", Valve: lobe.Inlet, Card: card(), Readings: sound()})
	require.Nil(t, m.CannotTell)
	require.Nil(t, m.NoEvidence)
	require.Empty(t, m.Findings)
	require.InDelta(t, 0, m.Shift.Angle.Degrees(), 0.03) // bias of the straight line, 0.015, and the slope's
	require.InDelta(t, 0, m.Shift.Offset.Value, 0.003)
	require.Equal(t, lobe.NotTold, m.Which)
}

// Every error of lobes.md and the issue is told as what it is.
func TestLobeErrors(t *testing.T) {
	read := sound()
	at := func(change func(l *lobe.Lobe)) lobe.Measured {
		l := lobe.Lobe{Name: "inlet", Valve: lobe.Inlet, Card: card(), Readings: slices.Clone(read)}
		change(&l)
		return measured(t, l)
	}
	lifts := func(l *lobe.Lobe, of func(x geometry.Length) geometry.Length) {
		for i := range l.Readings {
			l.Readings[i].Lift = of(l.Readings[i].Lift)
		}
	}

	other := at(func(l *lobe.Lobe) { l.Valve = lobe.Exhaust })
	require.IsType(t, finding.OtherValve{}, other.NoEvidence)

	low := at(func(l *lobe.Lobe) { l.Card.Lift = 0.2 })
	straddle := low.CannotTell.(finding.LiftNotStraddled)
	require.Equal(t, finding.OpeningFlank, straddle.Flank)
	require.Nil(t, straddle.Below)
	require.InDelta(t, float64(read[0].Lift), float64(*straddle.Above), 1e-12)
	require.Nil(t, low.Events)
	far := at(func(l *lobe.Lobe) { l.Card.Lift = 2.5 }).CannotTell.(finding.LiftNotStraddled) // 25 deg lie between
	require.Less(t, float64(*far.Below), 2.5)
	require.Greater(t, float64(*far.Above), 2.5)
	gap := at(func(l *lobe.Lobe) { l.Readings = slices.Delete(l.Readings, 1, 3) })
	require.Equal(t, finding.OpeningFlank, found[finding.StraddledWide](gap.Findings)[0].Flank)
	require.InDelta(t, 7.5, found[finding.StraddledWide](gap.Findings)[0].Apart.Degrees(), 0.8) // as planned, missed by 0.4 at either end

	backward := at(func(l *lobe.Lobe) {
		for _, i := range []int{2, 12} {
			l.Readings[i].Turn = evidence.Backward
			l.Readings[i].Lift += 0.5 // as slack has it
		}
	})
	rows := found[finding.BackwardRows](backward.Findings)
	require.Equal(t, 2, rows[0].Rows)
	require.Equal(t, 4, rows[0].Line)
	require.InDelta(t, 0, backward.Shift.Angle.Degrees(), 0.1)

	zero := at(func(l *lobe.Lobe) {
		l.Readings = sound(-75, -62)
		lifts(l, func(x geometry.Length) geometry.Length { return x + 0.2 })
	})
	require.InDelta(t, 0.2, float64(found[finding.HeelNotZero](zero.Findings)[0].Lift), 0.002)
	require.InDelta(t, -0.2, float64(found[finding.LiftOffset](zero.Findings)[0].Offset), 0.02)
	require.InDelta(t, 0, zero.Shift.Angle.Degrees(), 0.05)
	below := at(func(l *lobe.Lobe) { l.Readings = sound(-75); l.Readings[0].Lift = -0.15 })
	require.InDelta(t, -0.15, float64(found[finding.HeelNotZero](below.Findings)[0].Lift), 1e-9)

	inches := at(func(l *lobe.Lobe) { lifts(l, func(x geometry.Length) geometry.Length { return x / 25.4 }) })
	require.InDelta(t, 1/25.4, found[finding.TopOff](inches.Findings)[0].Times, 1e-3)
	rocker := at(func(l *lobe.Lobe) { lifts(l, func(x geometry.Length) geometry.Length { return 1.5 * x }) })
	require.InDelta(t, 1.5, found[finding.TopOff](rocker.Findings)[0].Times, 1e-3)
	stated := at(func(l *lobe.Lobe) {
		l.Ratio, l.Lash = 1.5, 0.1
		lifts(l, func(x geometry.Length) geometry.Length { return 1.5*x - 0.1 })
	})
	require.Empty(t, found[finding.TopOff](stated.Findings))
	require.InDelta(t, 1.4, float64(stated.Events.Lift), 1e-12)
	require.InDelta(t, 0, stated.Shift.Angle.Degrees(), 0.03)

	later := at(func(l *lobe.Lobe) { l.Readings[5], l.Readings[12] = l.Readings[12], l.Readings[5] }) // read on other laps
	require.Nil(t, later.CannotTell)
	require.InDelta(t, 0, later.Shift.Angle.Degrees(), 0.03)
	turn := at(func(l *lobe.Lobe) { // on another lap, and at the place of another lift
		l.Readings[5], l.Readings[12] = l.Readings[12], l.Readings[5]
		l.Readings[5].Lift, l.Readings[12].Lift = l.Readings[12].Lift+2, l.Readings[5].Lift-2
	})
	require.IsType(t, finding.RoundTwice{}, turn.CannotTell)
	again := at(func(l *lobe.Lobe) { l.Readings = slices.Insert(l.Readings, 8, l.Readings[2]) }) // gone back, and come up again
	require.Nil(t, again.CannotTell)
	require.InDelta(t, 0, again.Shift.Angle.Degrees(), 0.03)

	few := at(func(l *lobe.Lobe) { l.Readings = l.Readings[:3] })
	require.IsType(t, finding.LobeFewReadings{}, few.CannotTell)
	none := at(func(l *lobe.Lobe) { l.Readings = nil })
	require.IsType(t, finding.LobeFewReadings{}, none.CannotTell)
	flat := at(func(l *lobe.Lobe) { lifts(l, func(geometry.Length) geometry.Length { return 0 }) })
	require.IsType(t, finding.LobeFewReadings{}, flat.CannotTell)
}

// On a ramp the centre is good to 2 or 3 deg, and says nothing of a moved cam.
func TestOnARamp(t *testing.T) {
	c := lobetest.Cam{Shape: lobetest.Shapes[2], Nose: 108}
	var pairs []float64
	for _, u := range []float64{-66, -62, -58, -54, 30, 108, 190, 270, 274, 278, 282} {
		pairs = append(pairs, u, c.Lift(u))
	}
	m := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 0.15, HasCentre: true, Centre: 108 * deg}, Readings: rows(pairs...)})
	require.Nil(t, m.CannotTell)
	ramp := m.NoEvidence.(finding.OnRamp)
	require.InDelta(t, 0.25/30, ramp.Slope, 0.002)
}

// A lift beside the checking lift that a dial's turn was added to makes that flank many times as
// steep as the other, even where it still rises to the top: it is named, and nothing is made of
// it. A sound lobe, and one of unlike flanks, are not spoken of.
func TestFlanksUnlike(t *testing.T) {
	read := sound()
	i := slices.IndexFunc(read, func(r lobe.Reading) bool { return r.Lift > 1 })
	read = slices.Delete(read, i+1, i+3) // far from the next, so that it rises all the same
	read[i].Lift++
	l := lobe.Lobe{Name: "inlet", Valve: lobe.Inlet, Card: card(), Readings: read}
	m := measured(t, l)
	require.Nil(t, m.CannotTell)
	unlike := found[finding.FlanksUnlike](m.Findings)
	require.Len(t, unlike, 1)
	require.Equal(t, m.NoEvidence, unlike[0])
	require.Equal(t, finding.OpeningFlank, unlike[0].Flank)
	require.Equal(t, [2]int{read[i-1].Line, read[i].Line}, [2]int{unlike[0].Steep[0].Line, unlike[0].Steep[1].Line})
	require.Greater(t, unlike[0].Times, 2.0)
	for _, shape := range lobetest.Shapes {
		for seed := range uint64(20) {
			c := lobetest.Cam{Shape: shape, Nose: 108}
			var pairs []float64
			for _, u := range c.Planned(rand.New(rand.NewPCG(seed, 3)), 1) {
				pairs = append(pairs, u, c.Lift(u))
			}
			m := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 1}, Readings: rows(pairs...)})
			require.Empty(t, found[finding.FlanksUnlike](m.Findings), shape.Name)
		}
	}
}

// One level off the line of the others is a bad reading, and named.
func TestLevelApart(t *testing.T) {
	read := sound()
	read[2].Angle += 2 * deg // and still before the next
	p := evidence.DefaultProtractor()
	m := lobe.Measure(p, tdcAt(t, 0, p), lobe.Lobe{Valve: lobe.Inlet, Card: card(), Readings: read, Gauge: lobe.DefaultGauge()})
	apart := found[finding.LevelApart](m.Findings)
	require.Len(t, apart, 1)
	require.Equal(t, 4, apart[0].Line)
	require.InDelta(t, 1, apart[0].By.Degrees(), 0.5) // half of it
}

// A protractor of 720 deg tells whether the piston was read about the firing TDC or the
// one that the lobe's events count from.
func TestWhichTDC(t *testing.T) {
	p, g := quiet()
	p.Scale = evidence.Cycle
	for off, which := range map[geometry.Angle]lobe.TDCKind{0: lobe.OverlapTDC, 360: lobe.Firing} {
		l := lobe.Lobe{Valve: lobe.Inlet, Card: card(), Gauge: g, Readings: sound()}
		for i := range l.Readings {
			l.Readings[i].Angle += off * deg
		}
		m := lobe.Measure(p, tdcAt(t, 0, p), l)
		require.Equal(t, which, m.Which)
		require.InDelta(t, 0, m.Shift.Angle.Degrees(), 0.03)
	}
}

// A lobe of another cylinder counts from that cylinder's TDC, by the throw between them.
func TestThrowOfAnotherCylinder(t *testing.T) {
	p, g := quiet()
	from := tdcAt(t, 0, p)
	from.Throw = 90 * deg
	l := lobe.Lobe{Valve: lobe.Inlet, Card: card(), Gauge: g, Readings: sound()}
	for i := range l.Readings {
		l.Readings[i].Angle += 90 * deg
	}
	m := lobe.Measure(p, from, l)
	require.InDelta(t, 108, m.Events.Centre.Angle.Degrees(), 0.03)
	require.InDelta(t, opensAt, m.Events.Opens.Angle.Degrees(), 0.03)
}

// Slack of the drive lets a closing lobe run ahead: half of it is added to the closing, a
// quarter to the centre.
func TestSlack(t *testing.T) {
	read := sound()
	bare := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: card(), Readings: read})
	slack := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: card(), Readings: read, Slack: 4 * deg})
	require.InDelta(t, 2, (slack.Events.Closes.Angle - bare.Events.Closes.Angle).Degrees(), 1e-9)
	require.InDelta(t, 1, (slack.Events.Centre.Angle - bare.Events.Centre.Angle).Degrees(), 1e-9)
	require.InDelta(t, 0, (slack.Events.Opens.Angle - bare.Events.Opens.Angle).Degrees(), 1e-9)
	// S^2/48 of the centre (lobes.md 4)
	require.InDelta(t, 4/6.928203, slack.Events.Centre.Uncertainty.Degrees(), 0.05) // beside it the quiet instruments' own, in squares
}

// A card that says the centre alone is compared with it, at its lift.
func TestCentreOnACard(t *testing.T) {
	m := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 1, HasCentre: true, Centre: 105 * deg}, Readings: sound()})
	require.InDelta(t, 3, m.Shift.Angle.Degrees(), 0.03)
	require.Nil(t, m.Shift.Offset)
	require.InDelta(t, 105, m.Shift.Nominal.Degrees(), 1e-12)
	bare := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 1}, Readings: sound()})
	require.Nil(t, bare.Shift)
	require.NotNil(t, bare.Events)
}

// What is an event's own, and a centre's and a duration's, is as lobes.md 4 has it: its two
// readings by their weights, roundings and lifts, and the heel that runs out. Of a duration
// lobes.md has a bound on what the heel does, R^2/2 (1/so + 1/sc)^2; here it is less.
func TestUncertaintyOfAnEvent(t *testing.T) {
	p := evidence.DefaultProtractor()
	g := lobe.Gauge{Step: 0.05, Error: 0.03}
	at := func(g lobe.Gauge) *lobe.Events {
		read := rows(0, 0.8, 3, 1.2, 60, 6, 100, 9, 140, 6, 197, 1.2, 200, 0.8) // an even lobe: half-way between the two
		return lobe.Measure(p, tdcAt(t, 0, p), lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 1}, Readings: read, Gauge: g}).Events
	}
	e := at(g)
	slope := float64(e.OpeningSlope())
	lift := math.Sqrt(0.05*0.05/12 + 0.03*0.03/3)
	w := e.Opens.Angle.Degrees() / 3 // of the second reading
	weights := w*w + (1-w)*(1-w)
	own := weights * (math.Pow(float64(p.Step), 2)/12 + math.Pow(lift/slope, 2))
	bias := 4 * w * (1 - w) * 0.018 * benchtest.Degree / math.Sqrt(3)
	require.InDelta(t, math.Sqrt(own), e.Opens.Seen.Own.Standard, 1e-9)
	require.InDelta(t, math.Sqrt(own/2), e.Centre.Seen.Own.Standard, 1e-9)
	require.InDelta(t, math.Sqrt(2*own), e.Duration.Seen.Own.Standard, 1e-9)
	stated := e.Opens.Seen.Spread().Rectangular
	require.InDelta(t, bias, stated[len(stated)-1], 1e-9) // TDC of the bench is known to 1e-5 of a radian

	g.RunOut = 0.1
	out := at(g)
	heel := 0.1 / slope
	require.InDelta(t, own+heel*heel/2, math.Pow(out.Opens.Seen.Own.Standard, 2), 1e-9)
	require.InDelta(t, own/2+heel*heel/8, math.Pow(out.Centre.Seen.Own.Standard, 2), 1e-9)
	require.InDelta(t, 2*own+1.5*heel*heel, math.Pow(out.Duration.Seen.Own.Standard, 2), 1e-9)
	g.RunOut, g.ScaleKnownTo = 0, 0.03
	stated = at(g).Opens.Seen.Spread().Rectangular
	require.InDelta(t, 1*0.03/slope/math.Sqrt(3), stated[len(stated)-1], 1e-9) // h kappa / s
}
