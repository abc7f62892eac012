package lobes_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
	"evendrop/tdc/plan"
	"evendrop/tdc/plan/lobes"
)

const deg = geometry.Degree

func setup(step, bound float64) evidence.Setup {
	return evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: benchtest.Protractor(step, bound), Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
}

// inlet is a lobe with the card of lobes.md 5, and no readings.
func inlet() lobe.Lobe {
	return lobe.Lobe{Name: "inlet lobe", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(),
		Card: lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg, Top: 9.2}}
}

func planned(t *testing.T, s evidence.Setup, l lobe.Lobe, from *lobe.From) lobes.Plan {
	t.Helper()
	piston, err := plan.Best(s, plan.Ground{Deepest: 8}, 12)
	require.NoError(t, err)
	p, err := lobes.Of(s, piston, l, from)
	require.NoError(t, err)
	return p
}

// found is the finding of a kind in a list; nil without.
func found[F finding.Finding](list []finding.Finding) *F {
	for _, f := range list {
		if of, is := f.(F); is {
			return &of
		}
	}
	return nil
}

// A lobe is read up one flank, at its top once, and down the other, at the same lifts;
// two on each side of either event, 5 deg apart.
func TestOrder(t *testing.T) {
	p := planned(t, setup(0.5, 0.25), inlet(), nil)
	require.Len(t, p.Points, 11)
	require.Equal(t, 5, p.Needed())
	require.Equal(t, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}, p.Left())
	for i, point := range p.Points {
		across := p.Points[len(p.Points)-1-i]
		require.InDelta(t, float64(point.Lift), float64(across.Lift), 1e-9)
		require.InDelta(t, 2*108, (*point.Angle + *across.Angle).Degrees(), 1e-9, "the flanks are taken as alike about the card's centre")
		require.Equal(t, i < 5, point.Flank == finding.OpeningFlank)
		require.Equal(t, i > 5, point.Flank == finding.ClosingFlank)
		require.InDelta(t, float64(point.Lift)/9.2, point.Share, 1e-9)
		if i > 0 {
			require.Greater(t, *point.Angle, *p.Points[i-1].Angle)
		}
	}
	for i, use := range []lobes.Use{lobes.ForEvent, lobes.ForEvent, lobes.ForShape, lobes.ForShape, lobes.ForShape, lobes.ForTop} {
		require.Equal(t, use, p.Points[i].Use)
	}
	require.InDelta(t, -14.5, p.Points[0].Angle.Degrees(), 1e-9)
	require.InDelta(t, -9.5, p.Points[1].Angle.Degrees(), 1e-9)
	require.Less(t, p.Points[0].Lift, geometry.Length(1))
	require.Greater(t, p.Points[1].Lift, geometry.Length(1))
	require.InDelta(t, 108, p.Points[5].Angle.Degrees(), 1e-9)
	require.Empty(t, p.Lacking)
}

// A lift that the event's readings lie about already is not read for the shape as well:
// it would lie between the two, and take the event's place.
func TestNothingBetweenTheTwo(t *testing.T) {
	l := inlet()
	l.Card.Lift, l.Card.Opens, l.Card.Closes = 4.5, 31*deg, 185*deg
	p := planned(t, setup(0.5, 0.25), l, nil)
	require.Len(t, p.Points, 9)
	for i, share := range []float64{0.25, 0.46, 0.52, 0.75, 1} {
		require.InDelta(t, share, p.Points[i].Share, 0.02)
	}
}

// Where to expect a lift is right to 6 deg for cams of another make, and of one
// that leans, whose flanks the plan takes as alike, to 11: what the gauge shows counts, and
// the angle only says where to slow down.
func TestExpectedPlaces(t *testing.T) {
	for i, most := range []float64{6, 11, 6} {
		shape, worst := lobetest.Shapes[i], 0.0
		c := lobetest.Cam{Shape: shape, Nose: 105}
		for _, checking := range []float64{1, 1.27, 4.5} {
			l := inlet()
			l.Card = lobe.Card{Lift: geometry.Length(checking), HasEvents: true, Top: geometry.Length(shape.Top),
				Opens: geometry.Angle(c.Event(checking, -1)) * deg, Closes: geometry.Angle(c.Event(checking, 1)) * deg}
			for _, point := range planned(t, setup(0.5, 0.25), l, nil).Points {
				truth := c.Nose
				if point.Flank == finding.OpeningFlank {
					truth = c.Event(float64(point.Lift), -1)
				} else if point.Flank == finding.ClosingFlank {
					truth = c.Event(float64(point.Lift), 1)
				}
				worst = math.Max(worst, math.Abs(point.Angle.Degrees()-truth))
			}
		}
		t.Logf("%s: off by up to %.1f deg", shape.Name, worst)
		require.Less(t, worst, most)
	}
}

// What leaves the shift in doubt adds up as squares, and what shrinks it does.
func TestLimit(t *testing.T) {
	coarse := *found[finding.LobeLimit](planned(t, setup(0.5, 0.25), inlet(), nil).Findings)
	square := func(angles ...geometry.Angle) (sum float64) {
		for _, a := range angles {
			sum += a.Degrees() * a.Degrees()
		}
		return sum
	}
	require.InDelta(t, square(coarse.Known), square(coarse.Protractor, coarse.Heel, coarse.Gauge, coarse.Rest), 1e-9)
	for _, part := range []geometry.Angle{coarse.Protractor, coarse.Heel, coarse.Gauge, coarse.Rest} {
		require.Greater(t, part.Degrees(), 0.05)
	}
	require.InDelta(t, square(coarse.Known)-square(coarse.Protractor)/2, square(coarse.Moved), 1e-9) // JCGM 100, 4.2.3, of the protractor's part
	// what the protractor is read to is part of what it makes
	reach := planned(t, setup(0.5, 0.25), inlet(), nil).Reach.Shift
	require.Greater(t, square(coarse.Protractor), 1.2*(square(reach.Known)-square(reach.AgreeTo)))
	fine := *found[finding.LobeLimit](planned(t, setup(0.1, 0.1), inlet(), nil).Findings)
	require.Nil(t, fine.Finer)
	require.InDelta(t, fine.Known.Degrees(), coarse.Finer.Degrees(), 1e-9)
	require.Less(t, fine.Protractor, coarse.Protractor/2)
	require.InDelta(t, coarse.Heel.Degrees(), fine.Heel.Degrees(), 0.01, "the heel is the cam's")

	loose := inlet()
	loose.Slack = 3 * deg
	slack := *found[finding.LobeLimit](planned(t, setup(0.5, 0.25), loose, nil).Findings)
	require.Equal(t, 3*deg, slack.Slack)
	require.Greater(t, slack.Rest, 2*coarse.Rest)

	still := inlet()
	still.Gauge.RunOut = 0
	quiet := *found[finding.LobeLimit](planned(t, setup(0.5, 0.25), still, nil).Findings)
	require.InDelta(t, square(coarse.Known)-square(coarse.Heel), square(quiet.Known), 0.002) // but for a hundredth of it
	require.Zero(t, quiet.Heel.Degrees())
	require.Equal(t, geometry.Length(0.02), coarse.RunOut)
}

// The protractor's own error comes on top of what the readings agree to, least where it
// cancels most, and nothing that has to do with a card is promised without one.
func TestReach(t *testing.T) {
	carded := planned(t, setup(0.5, 0.25), inlet(), nil)
	r := carded.Reach
	for _, b := range []lobes.Bound{r.Opens, r.Closes, r.Centre, r.Duration, *r.Shift} {
		require.Greater(t, b.Known, b.AgreeTo)
	}
	require.Less(t, r.Shift.Known, r.Opens.Known)
	require.InDelta(t, 0.04, float64(r.Missing), 0.01) // twice about 0.02 (lobes.md 4)
	require.Equal(t, r.Shift.Known, found[finding.LobeLimit](carded.Findings).Known)

	l := inlet()
	l.Card = lobe.Card{Lift: 1, Top: 9.2}
	bare := planned(t, setup(0.5, 0.25), l, nil)
	require.Nil(t, bare.Reach.Shift)
	require.Zero(t, bare.Reach.Missing)
	require.Equal(t, bare.Reach.Centre.Known, found[finding.LobeLimit](bare.Findings).Known)
	require.False(t, found[finding.LobeUncarded](bare.Findings).Centred)
	for _, point := range bare.Points {
		require.Nil(t, point.Angle)
	}
	l.Card.Centre, l.Card.HasCentre = 468*deg, true
	centred := planned(t, setup(0.5, 0.25), l, nil)
	require.Equal(t, centred.Reach.Centre, *centred.Reach.Shift)
	require.Zero(t, centred.Reach.Missing)
	require.Equal(t, finding.LobeUncarded{Mark: finding.Mark{Name: "inlet lobe"}, Centred: true, Lift: 1, Duration: 240 * deg}, *found[finding.LobeUncarded](centred.Findings))
	for _, point := range centred.Points {
		if require.Equal(t, point.Flank == finding.TopOfLobe, point.Angle != nil); point.Angle != nil {
			require.InDelta(t, 108, point.Angle.Degrees(), 1e-9, "less whole turns")
		}
	}
}

// What is not stated is taken and said; what cannot be is not planned.
func TestAssumed(t *testing.T) {
	p := planned(t, setup(0.5, 0.25), inlet(), nil)
	require.Nil(t, found[finding.LobeTopAssumed](p.Findings))
	require.Nil(t, found[finding.LobeUncarded](p.Findings))
	l := inlet()
	l.Card.Top = 0
	require.Equal(t, geometry.Length(9), found[finding.LobeTopAssumed](planned(t, setup(0.5, 0.25), l, nil).Findings).Top)
	l.Card.Lift = 4
	require.Equal(t, geometry.Length(10), found[finding.LobeTopAssumed](planned(t, setup(0.5, 0.25), l, nil).Findings).Top)
	l.Card.Lift, l.Card.Top = 0.15, 9
	require.Equal(t, geometry.Length(0.15), found[finding.LobeLowLift](planned(t, setup(0.5, 0.25), l, nil).Findings).Lift)
	l.Card.Lift = 0.01
	require.InDelta(t, 0.01/3, float64(planned(t, setup(0.5, 0.25), l, nil).Points[0].Lift), 1e-9, "above the heel")
	l.Card.Lift, l.Card.Top = 8, 9
	high := planned(t, setup(0.5, 0.25), l, nil)
	require.Empty(t, high.Points)
	require.Equal(t, []finding.Finding{finding.LobeLiftHigh{Mark: finding.Mark{Name: "inlet lobe"}, Lift: 8, Top: 9}}, high.Findings)
	// of a lobe on a rocker, by what the gauge shows
	l = inlet()
	l.Ratio, l.Lash, l.Card.Lift, l.Card.Top = 1.5, 0.2, 0.8, 6.2666666
	rocker := planned(t, setup(0.5, 0.25), l, nil)
	require.InDelta(t, 9.2, float64(rocker.Points[5].Lift), 1e-3)
	require.InDelta(t, p.Reach.Shift.Known.Degrees(), rocker.Reach.Shift.Known.Degrees(), 1e-4)
}

// A lobe without a card that is checked high on its flank is taken to lift that much for less
// long, so that all its places lie within one turn (found by invented jobs).
func TestUncardedAndHigh(t *testing.T) {
	l := inlet()
	l.Card = lobe.Card{Lift: 4.5, Top: 6.69}
	p := planned(t, setup(0.5, 0.25), l, nil)
	require.Len(t, p.Points, 11)
	require.InDelta(t, 132, found[finding.LobeUncarded](p.Findings).Duration.Degrees(), 1e-9) // 240 deg at a fifth of the top: 66 deg either side by asin sqrt(lift/top)
	l.Card.Lift = 1
	require.InDelta(t, 240, found[finding.LobeUncarded](planned(t, setup(0.5, 0.25), l, nil).Findings).Duration.Degrees(), 1e-9)
}
