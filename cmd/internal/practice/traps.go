package practice

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc"
)

// traps is the ways to go wrong with a job's readings.
func (b bench) traps(j Job, r tdc.Result) (list []Trap) {
	list = append(list, Trap{"the highest reading taken for TDC", new(shown(b.highest(j))),
		"Near TDC the piston hardly moves, so the highest reading says little about the angle; farther down the flanks depth shows it."})
	if len(b.Turns) == 1 && b.Lash > 0 && len(r.Levels) > 0 {
		list = append(list, Trap{"lash, with the crank turned one way", new(shown(r.Levels[0].Midpoint)), fmt.Sprintf(
			"The piston lags by the lash, here %s mm, so half-way between equal drops comes late in the direction of turning, most of "+
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
		if one.Depth != one.Meant {
			t.Why += fmt.Sprintf(" line %d says %.2f and should be %.2f.", FirstLine+i, one.Depth, one.Meant)
		}
	}
	t.Why += " A bad reading stands out among the residuals."
	return t
}

func trimmed(x float64) string { return geometry.Decimal(places(x, 4), 17) }
