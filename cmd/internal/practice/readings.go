package practice

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// The crank angles from TDC that are read, degrees.
const (
	nearest  = 8.0
	farthest = 28.0
)

// Taken is a reading as the learner gets it.
type Taken struct {
	Angle, Depth float64 // degrees and mm, as the instruments show them
	Turn         evidence.TurnDirection
	// Meant is the depth that was read, where Depth is mistyped; else Depth.
	meant float64
}

// sweep is the angles from TDC of a run of readings, in the order of turning. A
// person aims at even steps and misses a little.
func (b bench) sweep(turn evidence.TurnDirection) (angles []geometry.Angle) {
	before := b.Readings / 2
	for i := range b.Readings {
		side, n, of := -1.0, before-1-i, before
		if i >= before {
			side, n, of = 1, i-before, b.Readings-before
		}
		u := nearest + (farthest-nearest)*float64(n)/math.Max(1, float64(of-1)) + within(b.rng, 1)
		angles = append(angles, geometry.Angle(float64(turn)*side*u)*geometry.Degree)
	}
	return angles
}

// take reads the instruments in every direction.
func (b bench) take() (list []Taken) {
	protractor, gauge := evidence.DefaultProtractor(), evidence.DefaultGauge(evidence.Dial)
	for _, turn := range b.Turns {
		angles := b.sweep(turn)
		for i, low := range b.low(angles) {
			angle := (b.tdc + angles[i]).Degrees() + within(b.rng, protractor.Error.Degrees())
			shown := geometry.Angle(rounded(angle, protractor.Step.Degrees())) * geometry.Degree
			depth := float64(b.zero) + b.scale()*float64(low) + within(b.rng, float64(gauge.Error))
			depth = rounded(depth, float64(gauge.Step))
			list = append(list, Taken{
				Angle: rounded(shown.Positive().Degrees(), protractor.Step.Degrees()), Depth: depth, meant: depth, Turn: turn,
			})
		}
	}
	return list
}

// low is how far below its highest point the piston is at angles passed in their
// order. It lags the crank by half the lash, and on reversing stays where it is
// until all of it is used up. A sweep starts with the lash taken up, rising.
func (b bench) low(angles []geometry.Angle) (list []geometry.Length) {
	low, rising := geometry.Length(0), true
	for i, u := range angles {
		drop := b.crank.Drop(u)
		if i == 0 {
			low = drop + b.Lash/2
		}
		if rising && i > 0 && angles[i-1]*u < 0 { // come over the top
			low, rising = b.Lash/2, false
		}
		low = max(drop-b.Lash/2, min(drop+b.Lash/2, low))
		list = append(list, low)
	}
	return list
}

// mistype spoils as many readings as planned, each by a whole millimetre: a turn
// of the dial's pointer, counted wrong.
func (b bench) mistype(list []Taken) {
	order := b.rng.Perm(len(list))
	for _, i := range order[:b.Typos] {
		slip := 1.0
		if b.rng.IntN(2) == 0 && list[i].Depth > 1 {
			slip = -1
		}
		list[i].Depth += slip
	}
}

// traps is the ways to go wrong with a job's readings.
func (b bench) traps(j Job, r tdc.Result) (list []Trap) {
	list = append(list, Trap{"the highest reading taken for TDC", new(shown(b.highest(j))),
		"Near TDC the piston hardly moves, so the highest reading says little about the angle; farther down the flanks depth shows it."})
	if len(b.Turns) == 1 && b.Lash > 0 && len(r.Levels) > 0 {
		list = append(list, Trap{"lash, with the crank turned one way", new(shown(r.Levels[0].Midpoint)), fmt.Sprintf(
			"The piston lags by the lash, here %s mm. So half-way between equal drops comes late in the direction of turning, most of "+
				"all near the top. Turn both ways, where that is safe, and it cancels.", trimmed(b.Lash.Millimetres()))})
	}
	if b.Typos > 0 {
		list = append(list, b.typoTrap(j, r))
	}
	if b.Tilt > 0 {
		list = append(list, Trap{"a gauge that leans", nil, fmt.Sprintf(
			"It leans by %s deg and shows %.1f %% too much. Both flanks read to the same depth, that does not move TDC; with one flank, or a "+
				"curve whose scale is fixed, it does.", trimmed(b.Tilt.Degrees()), 100*(b.scale()-1))})
	}
	if b.Offset != 0 {
		list = append(list, Trap{"an offset that nobody stated", nil, fmt.Sprintf(
			"The bore stands %s mm beside the crank's axis, so half-way drifts as the drop grows.", trimmed(b.Offset.Millimetres()))})
	}
	// TDC of a practice job lies so near the zero that its flanks lie on either side
	list = append(list, Trap{"half-way across the protractor's zero, of plain numbers", new(shown(b.tdc + geometry.Turn/2)),
		"355 and 5 are ten degrees apart, with 0 half-way; half their plain sum is 180, half a turn out. Write 355 as -5."})
	return append(list, Trap{"the protractor read the wrong way round", new(shown(-b.tdc)),
		"This protractor's numbers grow in the running direction; counted the other way, TDC comes out as its mirror image."})
}

// highest is the middle of the angles with the least depth.
func (b bench) highest(j Job) geometry.Angle {
	least, sum, n := math.Inf(1), geometry.Angle(0), 0.0
	for _, r := range j.Readings {
		u := (geometry.Angle(r.Angle)*geometry.Degree - b.tdc).Signed()
		switch {
		case r.Depth < least-1e-9:
			least, sum, n = r.Depth, u, 1
		case r.Depth < least+1e-9:
			sum, n = sum+u, n+1
		}
	}
	return b.tdc + sum/geometry.Angle(n)
}

// typoTrap is every reading trusted.
func (b bench) typoTrap(j Job, r tdc.Result) Trap {
	t := Trap{Name: "every reading trusted", Why: "A dial's turn was counted wrong:"}
	if r.WithAll != nil {
		t.TDC = new(shown(r.WithAll.Angle))
	}
	for i, one := range j.Readings {
		if one.Depth != one.meant {
			t.Why += fmt.Sprintf(" line %d says %.2f and should be %.2f.", firstLine+i, one.Depth, one.meant)
		}
	}
	t.Why += " A bad reading lies far off the curve through the others."
	return t
}

func trimmed(x float64) string { return geometry.Decimal(places(x, 4), 17) }
