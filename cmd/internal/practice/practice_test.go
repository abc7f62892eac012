package practice

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// plan is a plain one; what is practised is switched on by the tests.
func plan(seed uint64) Plan {
	return Plan{Seed: seed, Stroke: 86, Rod: 146, Readings: 12, Turns: []evidence.TurnDirection{evidence.Forward}}
}

// height is the piston pin's above the crank's axis by the triangle of crank, rod
// and bore, the bore a distance e to the side: no code of the program's.
func height(phi, e float64) float64 {
	return 43*math.Cos(phi) + math.Sqrt(146*146-math.Pow(43*math.Sin(phi)-e, 2))
}

// drop is how far the piston is below its highest point at u degrees from it.
func drop(u, e float64) float64 {
	top := math.Asin(e / (146 + 43))
	return height(top, e) - height(top+u*math.Pi/180, e)
}

// Every reading lies as near to the motion of a crank and a rod as the instruments'
// bounds let it: 0.25 + 0.25 deg of angle along the slope, 0.02 + 0.005 mm of depth.
func TestReadingsAreTheEngines(t *testing.T) {
	for seed := range uint64(40) {
		p := plan(seed)
		p.Offset = geometry.Length(seed%3) * 4
		p.Tilt = geometry.Angle(seed%4) * 5 * geometry.Degree
		b, err := p.bench()
		require.NoError(t, err)
		scale := 1 / math.Cos(float64(p.Tilt))
		for _, r := range b.take() {
			u := (geometry.Angle(r.Angle)*geometry.Degree - b.tdc).Signed().Degrees()
			got := (r.Depth - float64(b.zero)) / scale
			low := math.Min(drop(u-0.501, float64(p.Offset)), drop(u+0.501, float64(p.Offset)))
			high := math.Max(drop(u-0.501, float64(p.Offset)), drop(u+0.501, float64(p.Offset)))
			require.GreaterOrEqual(t, got, low-0.0251, "seed %d at %g deg", seed, r.Angle)
			require.LessOrEqual(t, got, high+0.0251, "seed %d at %g deg", seed, r.Angle)
			require.Equal(t, math.Round(r.Angle*2), r.Angle*2, "half degrees")
			require.InDelta(t, math.Round(r.Depth*100), r.Depth*100, 1e-6, "hundredths")
			require.True(t, r.Angle >= 0 && r.Angle < 360)
		}
	}
}

// The piston lags: rising it is half the lash lower than the crank has it, falling
// half the lash higher, and over the top it hangs until the lash is used up.
func TestLash(t *testing.T) {
	p := plan(1)
	p.Lash = 0.1
	b, err := p.bench()
	require.NoError(t, err)
	at := func(degrees ...float64) (angles []geometry.Angle) {
		for _, d := range degrees {
			angles = append(angles, geometry.Angle(d)*geometry.Degree)
		}
		return angles
	}
	low := b.low(at(-20, -10, 0.5, 10, 20))
	for i, want := range []float64{drop(20, 0) + 0.05, drop(10, 0) + 0.05, 0.05, drop(10, 0) - 0.05, drop(20, 0) - 0.05} {
		require.InDelta(t, want, float64(low[i]), 1e-9)
	}
	back := b.low(at(20, -10))
	require.InDelta(t, drop(20, 0)+0.05, float64(back[0]), 1e-9)
	require.InDelta(t, drop(10, 0)-0.05, float64(back[1]), 1e-9)
}

// A sweep goes through TDC in the direction of turning, half of it on either side.
func TestSweep(t *testing.T) {
	b, err := plan(3).bench()
	require.NoError(t, err)
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		angles := b.sweep(turn)
		require.Len(t, angles, 12)
		before := 0
		for i, u := range angles {
			if i > 0 {
				require.Greater(t, float64(turn)*float64(u-angles[i-1]), 0.0)
			}
			if float64(turn)*float64(u) < 0 {
				before++
			}
		}
		require.Equal(t, 6, before)
	}
}

// The same plan makes the same job; another seed, another.
func TestSeeds(t *testing.T) {
	p := plan(7)
	p.Typos, p.Lash, p.Tilt = 2, 0.05, 15*geometry.Degree
	late := 2.5 * geometry.Degree
	p.Pin = &late
	first, err := p.Make()
	require.NoError(t, err)
	again, err := p.Make()
	require.NoError(t, err)
	require.Equal(t, first, again)
	p.Seed = 8
	other, err := p.Make()
	require.NoError(t, err)
	require.NotEqual(t, first.Readings, other.Readings)
}

// The answer tells of each mistyped reading, and of no other.
func TestTypos(t *testing.T) {
	p := plan(5)
	p.Typos = 3
	j, err := p.Make()
	require.NoError(t, err)
	require.Len(t, j.Answer.Typos, 3)
	spoilt := map[int]Typo{}
	for _, typo := range j.Answer.Typos {
		spoilt[typo.Line] = typo
		require.InDelta(t, 1, math.Abs(typo.Depth-typo.Meant), 1e-9)
	}
	for i, r := range j.Readings {
		typo, is := spoilt[firstLine+i]
		require.Equal(t, is, math.Abs(r.Depth-r.meant) > 0.5)
		if is {
			require.InDelta(t, r.Depth, typo.Depth, 1e-6)
		}
	}
}

// What the limit calls right holds what the readings can tell in every job: the
// adjustment's own answer is right in all of 60, one way or both, seeds 0 to 59.
func TestTheBestAnswerIsRight(t *testing.T) {
	for seed := range uint64(60) {
		p := plan(seed)
		p.Lash = geometry.Length(seed%4) * 0.04
		p.Typos = int(seed % 2)
		if seed%3 == 0 {
			p.Turns = append(p.Turns, evidence.Backward)
		}
		j, err := p.Make()
		require.NoError(t, err)
		r, err := tdc.Find(p.setup(), evidence.Cylinder{Number: 1, Readings: j.evidence()})
		require.NoError(t, err)
		require.True(t, j.Answer.Mark(r.TDC.Angle).Within(), "seed %d", seed)
		require.Less(t, j.Answer.Limit, 2.0, "seed %d", seed) // 12 readings to half a degree with one mistyped
	}
}

// An answer is marked by how far it lies from the truth, round the protractor's
// zero too, and a wrong one is laid to the trap that it lies in.
func TestMark(t *testing.T) {
	trap := func(name string, at float64) Trap { return Trap{Name: name, TDC: &at} }
	a := Answer{TDC: 359.9, Limit: 0.2, Traps: []Trap{trap("top", 6), {Name: "lean"}, trap("lash", 0.5), trap("mirror", 0.1)}}
	for _, c := range []struct {
		given, off float64
		within     bool
		near       string
	}{
		{359.9, 0, true, ""}, {0.1, 0.2, true, ""}, {359.7, -0.2, true, ""}, // on the limit is within it
		{0.45, 0.55, false, "lash"}, {0.2, 0.3, false, "mirror"}, {5.8, 5.9, false, "top"}, {3, 3.1, false, ""}, {359.6, -0.3, false, ""},
		{180, -179.9, false, ""},
	} {
		m := a.Mark(geometry.Angle(c.given) * geometry.Degree)
		require.InDelta(t, c.off, m.Off, 1e-9, fmt.Sprint(c.given))
		require.Equal(t, c.within, m.Within(), c.given)
		if c.near == "" {
			require.Nil(t, m.Near, c.given)
		} else {
			require.NotNil(t, m.Near, c.given)
			require.Equal(t, c.near, m.Near.Name)
		}
	}
}

// The traps are where the wrong ways lead: the highest reading to the angle that
// shows the least depth; lash, read one way, late by what it is over twice the
// slope at the shallowest reading; the mirror image to 360 deg less the answer; plain
// numbers across the zero to half a turn from it.
func TestTraps(t *testing.T) {
	p := plan(20)
	p.Lash, p.Typos, p.Offset, p.Tilt = 0.1, 1, 3, 15*geometry.Degree
	j, err := p.Make()
	require.NoError(t, err)
	traps := map[string]Trap{}
	for _, trap := range j.Answer.Traps {
		traps[trap.Name] = trap
		require.NotEmpty(t, trap.Why)
	}
	require.Len(t, traps, 7)
	least := j.Readings[0]
	for _, r := range j.Readings {
		if r.Depth < least.Depth {
			least = r
		}
	}
	require.InDelta(t, least.Angle, *traps["the highest reading taken for TDC"].TDC, 1e-3)
	require.InDelta(t, 360-j.Answer.TDC, *traps["the protractor read the wrong way round"].TDC, 1e-9)

	require.InDelta(t, 180, math.Abs(apart(*traps["half-way across the protractor's zero, of plain numbers"].TDC, j.Answer.TDC)), 1e-9)

	late := apart(*traps["lash, with the crank turned one way"].TDC, j.Answer.TDC)
	slope := drop(8.5, 3) - drop(7.5, 3) // mm per degree where the shallowest is read
	const angles = 0.5                   // deg: two angles to half a degree, each wrong by up to 0.5, halved
	require.InDelta(t, 0.1/2/slope, late, angles)
	require.Greater(t, late, 0.0)

	p.Turns, p.Lash, p.Typos, p.Offset, p.Tilt = append(p.Turns, evidence.Backward), 0, 0, 0, 0
	j, err = p.Make()
	require.NoError(t, err)
	require.Len(t, j.Answer.Traps, 3, "nothing is switched on")
}

func TestPlansThatCannotBe(t *testing.T) {
	for says, spoil := range map[string]func(*Plan){
		"too short": func(p *Plan) { p.Rod = 40 }, "expected 6 to 60": func(p *Plan) { p.Readings = 5 },
		"expected 0 to 3": func(p *Plan) { p.Typos = 4 }, "0 to 45 deg": func(p *Plan) { p.Tilt = -0.1 },
		"0 to 0.5": func(p *Plan) { p.Lash = 0.6 }, "no direction": func(p *Plan) { p.Turns = nil },
	} {
		p := plan(1)
		spoil(&p)
		_, err := p.Make()
		require.ErrorContains(t, err, says)
	}
}
