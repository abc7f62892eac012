package tdc_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// typed is a reading's or a pair's angle as somebody whose wheel counts in sense
// would type it, taken by a job that states p.
func typed(p evidence.Protractor, sense evidence.Sense, angle geometry.Angle) (geometry.Angle, evidence.Side) {
	wheel := p
	wheel.Sense = sense
	w := evidence.Written{Angle: wheel.Shows(angle)}
	if p.Scale == evidence.Quadrants {
		w = evidence.Written{Angle: angle.Signed(), Side: evidence.ATDC}
		if w.Angle < 0 {
			w = evidence.Written{Angle: -w.Angle, Side: evidence.BTDC}
		}
	}
	crank, err := p.Crank(w)
	if err != nil {
		panic(err)
	}
	return crank, w.Side
}

// noTurnColumn is readings whose file says nothing of the turn: forward, all.
func noTurnColumn(readings []evidence.Reading) []evidence.Reading {
	readings = slices.Clone(readings)
	for i := range readings {
		readings[i].Turn = evidence.Forward
	}
	return readings
}

// Over every scale, both senses, one way and both ways, with a turn column and
// without: a job with the wrong counts is always told so and judges nothing, one with
// the right counts never. On quadrants, where each angle is written with its side,
// counts does not matter and is never blamed.
func TestWrongCountsAreTold(t *testing.T) {
	const jobsEach, seed = 12, 20261125
	rng := rand.New(rand.NewPCG(seed, 2))
	var jobs, wrong, missed, healthy, accused, refused int
	run := func(name string, p evidence.Protractor, sense evidence.Sense, setup evidence.Setup, c evidence.Cylinder) {
		for i, r := range c.Readings {
			c.Readings[i].Angle, c.Readings[i].Side = typed(p, sense, r.Angle)
		}
		for i, s := range c.Stops {
			c.Stops[i].Rising, _ = typed(p, sense, s.Rising)
			c.Stops[i].Falling, _ = typed(p, sense, s.Falling)
		}
		for i, d := range c.Dwell {
			c.Dwell[i].Still, _ = typed(p, sense, d.Still)
			c.Dwell[i].Moves, _ = typed(p, sense, d.Moves)
		}
		for i, v := range c.Views {
			c.Views[i].Before, _ = typed(p, sense, v.Before)
			c.Views[i].After, _ = typed(p, sense, v.After)
		}
		setup.Protractor = p
		r, err := tdc.Find(setup, c)
		jobs++
		told := err == nil && r.AgainstTurn()
		switch contradicts := sense != p.Sense && p.Scale != evidence.Quadrants; {
		case err != nil:
			refused++
		case contradicts && told:
			wrong++
			require.Equal(t, r.CannotTell, r.Findings[0])
			require.Equal(t, p.Sense, r.CannotTell.(finding.CountsContradicted).Counts)
		case contradicts:
			missed++
			t.Errorf("%s: wrong counts not told", name)
		case told:
			accused++
			t.Errorf("%s: right counts accused", name)
		default:
			healthy++
		}
	}
	for _, scale := range []evidence.Scale{evidence.Full, evidence.Halves, evidence.Quadrants} {
		for _, stated := range []evidence.Sense{evidence.With, evidence.Against} {
			for _, sense := range []evidence.Sense{evidence.With, evidence.Against} {
				for _, l := range layouts {
					pt := at(rng.IntN(len(engines)), rng.IntN(2), rng.IntN(3), l)
					p := pt.setup.Protractor
					p.Sense, p.Scale = stated, scale
					for i := range jobsEach {
						b := benchtest.Drawn(rng, pt.setup)
						if scale == evidence.Quadrants {
							b.Start = benchtest.Within(rng, 20*degree)
						}
						readings := b.Read(rng, pt.setup, l, benchtest.Noise{})
						name := fmt.Sprintf("%d, %v for %v, %s, job %d", scale, stated, sense, pt.name, i)
						run(name, p, sense, pt.setup, evidence.Cylinder{Number: 1, Readings: slices.Clone(readings)})
						if i%3 == 0 && l.Readings/l.Sweeps > 4 { // of four readings each way three steps tell little
							run(name+", no turn column", p, sense, pt.setup, evidence.Cylinder{Number: 1, Readings: noTurnColumn(readings)})
						}
					}
				}
				pt := at(0, 0, 2, benchtest.Balanced(1, 12))
				p := pt.setup.Protractor
				p.Sense, p.Scale = stated, scale
				tdcAt, half := geometry.Angle(benchtest.Within(rng, 20*degree)), geometry.Angle(8+10*rng.Float64())*geometry.Degree
				from, to := tdcAt-half, tdcAt+half
				for _, c := range []evidence.Cylinder{
					{Stops: []evidence.Stop{{Rising: from, Falling: to}}},
					{Views: []evidence.View{{Before: from, After: to, Turn: evidence.Forward}, {Before: from, After: to, Turn: evidence.Backward}}},
					{Dwell: []evidence.DwellPair{{Still: from, Moves: to, Turn: evidence.Forward}, {Still: to, Moves: from, Turn: evidence.Backward}}},
				} {
					run(fmt.Sprintf("%d, %v for %v, pairs", scale, stated, sense), p, sense, pt.setup, c)
				}
			}
		}
	}
	t.Logf("seed %d: %d jobs, %d refused; wrong counts: told %d, missed %d; right counts: %d, accused %d",
		seed, jobs, refused, wrong, missed, healthy, accused)
	require.Greater(t, wrong, 500)
	require.Greater(t, healthy, 1000)
	require.Less(t, refused, jobs/50)
}

// A few runs the wrong way are a remark on those, and no doubt of the counts; which
// sides BTDC and ATDC mean is doubted where they were written.
func TestOrderOfReadings(t *testing.T) {
	car := benchtest.Bench{Throw: 43, Rod: 146}.Settled()
	sweep := func(turn evidence.TurnDirection, order ...float64) (read []evidence.Reading) {
		for _, u := range order {
			read = append(read, evidence.Reading{Angle: degrees(u + 2), Depth: geometry.Length(car.Drop(u * degree)), Turn: turn, Line: len(read) + 2})
		}
		return read
	}
	forward, backward := []float64{-30, -25, -20, -15, -10, 10, 15, 20, 25, 30}, []float64{30, 25, 20, 15, 10, -10, -15, -20, -25, -30}
	one, two := sweep(evidence.Forward, forward...), sweep(evidence.Backward, backward...)
	setup := carEngine(86, 146)
	mislabelled := slices.Concat(one, two, sweep(evidence.Forward, backward...))
	r := find(t, setup, mislabelled)
	require.False(t, r.AgainstTurn())
	require.Equal(t, evidence.Forward, all[finding.AgainstTurn](r)[0].Turn)
	for name, read := range map[string][]evidence.Reading{
		"right":                    slices.Concat(one, two),
		"twice over":               slices.Concat(one, one),
		"flanks by depth":          sweep(evidence.Forward, -5, -10, -15, -20, -25, -30, 5, 10, 15, 20, 25),
		"flanks by depth, falling": sweep(evidence.Forward, 5, 10, 15, 20, 25, 30, -5, -10, -15, -20, -25, -30),
		"in pairs":                 sweep(evidence.Forward, -30, 30, -25, 25, -20, 20, -15, 15, -10, 10),
		"both up":                  slices.Concat(sweep(evidence.Forward, -30, -25, -20, -15, -10), sweep(evidence.Backward, 30, 25, 20, 15, 10)),
	} {
		require.False(t, find(t, setup, read).AgainstTurn(), name)
	}
	contrary := sweep(evidence.Forward, backward...)
	for i := range contrary {
		contrary[i].Side = evidence.ATDC
	}
	r = find(t, setup, contrary)
	require.True(t, r.AgainstTurn())
	require.Equal(t, finding.SidesContradicted{}, r.Findings[0])
}
