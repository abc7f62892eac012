package cams

import (
	"fmt"
	"math"
	"math/rand/v2"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
)

// Job is a lobe to practise on, with its answer.
type Job struct {
	Lobe   lobe.Lobe // as the learner is told of it, with the readings
	Answer Answer
}

// File is the readings' file.
func (j Job) File() string { return string(j.Lobe.Valve) + ".csv" }

// Bench is what the lobes stand on: where the protractor shows TDC, what the piston's
// readings say of that, and the protractor.
type Bench struct {
	TDC        geometry.Angle
	Result     tdc.Result
	Protractor evidence.Protractor
}

// Make is the lobes that are wanted. The same seed makes the same ones. An error is of what
// cannot be wanted (Check), and of a lobe whose lifts tell no event.
func Make(seed uint64, w Wanted, b Bench) (list []Job, err error) {
	if err := w.Check(); err != nil {
		return nil, err
	}
	rng := rand.New(rand.NewPCG(seed, 0x63616d73))
	for _, valve := range w.Valves {
		j, err := w.one(rng, valve, b)
		if err != nil {
			return nil, err
		}
		list = append(list, j)
	}
	return list, nil
}

// one is a lobe on one valve.
func (w Wanted) one(rng *rand.Rand, valve lobe.Valve, b Bench) (Job, error) {
	l := card(rng, valve)
	healthy := ground(rng, l)
	c := healthy
	late, lost := w.befallen(rng)
	c.nose, c.lost = c.nose+late, lost
	l.Readings = b.read(rng, c, l.Gauge, places(rng, c))
	m := lobe.Measure(b.Protractor, lobe.From{Result: b.Result}, l)
	if m.Events == nil {
		return Job{}, fmt.Errorf("these lifts tell nothing: lost lift of %.2f mm", lost)
	}
	return Job{Lobe: l, Answer: answer(c, late, m, b)}, nil
}

// checking is the checking lift of every card, mm.
const checking = 1.0

// card is a lobe as its maker has it, events in whole degrees.
func card(rng *rand.Rand, valve lobe.Valve) lobe.Lobe {
	l := lobe.Lobe{Name: string(valve) + " lobe", On: string(valve) + " cam", Valve: valve, Cylinder: 1, Gauge: lobe.DefaultGauge(),
		Limit: 2 * geometry.Degree, HasLimit: true, Source: "invented"}
	near, far := geometry.Angle(6+rng.IntN(15)), geometry.Angle(44+rng.IntN(15))
	l.Card = lobe.Card{Lift: checking, HasEvents: true, Top: geometry.Length(rounded(8+2*rng.Float64(), 0.1)),
		Opens: -near * geometry.Degree, Closes: (180 + far) * geometry.Degree}
	if valve == lobe.Exhaust {
		l.Card.Opens, l.Card.Closes = (-180-far)*geometry.Degree, near*geometry.Degree
	}
	return l
}

// ground is a cam that does at the checking lift what its card says, with flanks alike or
// not; and what its gauge and its bearings leave open.
func ground(rng *rand.Rand, l lobe.Lobe) cam {
	c := cam{profile: cycloid, top: l.Card.Top.Millimetres(), runOut: l.Gauge.RunOut.Millimetres(), phase: 2 * math.Pi * rng.Float64(),
		scale: 1 + within(rng, l.Gauge.ScaleKnownTo)}
	if rng.IntN(2) == 0 {
		c.profile = polynomial
	}
	open := 1 - c.at(checking/c.top) // of a flank
	whole := (l.Card.Closes - l.Card.Opens).Degrees() / open
	c.before = whole * (0.5 + []float64{0, 0, 0.02, -0.02}[rng.IntN(4)])
	c.after = whole - c.before
	c.nose = l.Card.Opens.Degrees() + c.before*open
	return c
}

// places is where a hand reads the cam, in the order turned, crank degrees after TDC: two
// on each side about the checking lift, three higher up, and the top.
func places(rng *rand.Rand, c cam) (list []float64) {
	const aHand = 0.5
	about := func(u float64) { list = append(list, u+within(rng, aHand)) }
	shares := []float64{0.25, 0.5, 0.75}
	about(c.event(checking, -1) - 2.5)
	about(c.event(checking, -1) + 2.5)
	for _, share := range shares {
		about(c.event(share*c.top, -1))
	}
	about(c.nose + within(rng, 1.5))
	for i := range shares {
		about(c.event(shares[len(shares)-1-i]*c.top, 1))
	}
	about(c.event(checking, 1) - 2.5)
	about(c.event(checking, 1) + 2.5)
	return list
}

// read is what protractor and gauge show there.
func (b Bench) read(rng *rand.Rand, c cam, g lobe.Gauge, places []float64) (list []lobe.Reading) {
	for _, u := range places {
		angle := rounded(b.TDC.Degrees()+u+within(rng, b.Protractor.Error.Degrees()), b.Protractor.Step.Degrees())
		lift := rounded(c.shows(u)+within(rng, g.Error.Millimetres()), g.Step.Millimetres())
		list = append(list, lobe.Reading{Angle: (geometry.Angle(angle) * geometry.Degree).Positive(), Lift: geometry.Length(lift), Turn: evidence.Forward})
	}
	return list
}
