package plan

import (
	"fmt"
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// Looks is what to look for through a borescope in place of depths judged by eye: at about
// which angles from TDC, and how well it tells TDC.
type Looks struct {
	Dwell    []evidence.DwellPair
	Views    []evidence.View
	Foreseen adjust.Foreseen // of all of them
	// TDC by one kind alone, the protractor's own error in it.
	ByDwell, ByViews gum.Estimate
	DwellOneWay      *gum.Estimate // of as many dwells all turned forward; nil: they are
}

// Turned is those of the looks at which the crank is turned one way.
func (l Looks) Turned(turn evidence.TurnDirection) (one Looks) {
	for _, d := range l.Dwell {
		if d.Turn == turn {
			one.Dwell = append(one.Dwell, d)
		}
	}
	for _, v := range l.Views {
		if v.Turn == turn {
			one.Views = append(one.Views, v)
		}
	}
	return one
}

// Through a borescope a piston is seen to move once it has moved by stirs, and each look
// is taken so often that a slip of the hand shows (common practice, no source).
const (
	stirs  = 0.1 * geometry.Millimetre
	dwells = 4
	views  = 4
	stops  = 3 // contacts a side at each length of a stop
)

// Views lie apartViews from each other, the farthest of them no farther from TDC than
// farViews: beyond that a crown is out of the light.
const (
	apartViews = 5 * geometry.Degree
	nearViews  = 25 * geometry.Degree // the farthest of them is no nearer
	farViews   = 50 * geometry.Degree
)

// Look is what to look for on a ground, at the angles that leave TDC least uncertain; an error
// where the ground has no places for it.
func Look(setup evidence.Setup, ground Ground) (Looks, error) {
	var looks Looks
	dwell, err := dwellPairs(setup, ground)
	if err != nil {
		return looks, err
	}
	farthest, err := surest(setup, func(half geometry.Angle) (evidence.Cylinder, error) {
		list, err := viewPairs(setup, ground, half)
		return evidence.Cylinder{Views: list}, err
	})
	if err != nil {
		return looks, err
	}
	looks.Dwell, looks.Views = dwell, farthest.Views
	all, err := foreseen(setup, evidence.Cylinder{Dwell: looks.Dwell, Views: looks.Views})
	if err != nil {
		return looks, err
	}
	looks.Foreseen = all
	if looks.ByDwell, err = reached(setup, evidence.Cylinder{Dwell: looks.Dwell}); err != nil {
		return looks, err
	}
	if looks.ByViews, err = reached(setup, farthest); err != nil || ground.OneWay {
		return looks, err
	}
	if dwell, err = dwellPairs(setup, ground.turned(true)); err != nil {
		return looks, err
	}
	oneWay, err := reached(setup, evidence.Cylinder{Dwell: dwell})
	looks.DwellOneWay = &oneWay
	return looks, err
}

// Stop is TDC by a positive stop set to two lengths, the protractor's own error in it.
func Stop(setup evidence.Setup) (gum.Estimate, error) {
	c, err := surest(setup, func(half geometry.Angle) (evidence.Cylinder, error) {
		var c evidence.Cylinder
		for _, u := range []geometry.Angle{half, half - 2*apartViews} {
			early, late, err := across(setup, u, evidence.Forward)
			if err != nil {
				return c, err
			}
			for range stops {
				c.Stops = append(c.Stops, evidence.Stop{Rising: early, Falling: late})
			}
		}
		return c, nil
	})
	if err != nil {
		return gum.Estimate{}, err
	}
	return reached(setup, c)
}

// TurnsBack tells whether the crank is turned back for any of them.
func (l Looks) TurnsBack() bool { return l.DwellOneWay != nil }

// dwellPairs are where motion is seen to end and to begin, both ways in turn.
func dwellPairs(setup evidence.Setup, ground Ground) (list []evidence.DwellPair, err error) {
	crank, err := setup.Kinematics()
	if err != nil {
		return nil, err
	}
	early, late, err := crank.AnglesAt(stirs)
	if err != nil {
		return nil, err
	}
	for k := range dwells {
		if ground.turn(k, dwells) == evidence.Forward {
			list = append(list, evidence.DwellPair{Still: early, Moves: late, Turn: evidence.Forward})
		} else {
			list = append(list, evidence.DwellPair{Still: late, Moves: early, Turn: evidence.Backward})
		}
	}
	return list, nil
}

// viewPairs are pairs of equal views, the farthest at an angle from TDC: turned back they
// lie between those turned forward.
func viewPairs(setup evidence.Setup, ground Ground, farthest geometry.Angle) (list []evidence.View, err error) {
	for k := range views {
		turn := ground.turn(k, views)
		u := farthest - apartViews*geometry.Angle(k)
		if !ground.OneWay {
			u = farthest - apartViews*geometry.Angle(2*k%views+2*k/views)
		}
		first, second, err := across(setup, u, turn)
		if err != nil {
			return nil, err
		}
		list = append(list, evidence.View{Before: first, After: second, Turn: turn})
	}
	return list, nil
}

// turn is the way to turn for one of so many looks: the first half of them forward, and the
// rest back where that is allowed.
func (g Ground) turn(i, of int) evidence.TurnDirection {
	if g.OneWay || i < of/2 {
		return evidence.Forward
	}
	return evidence.Backward
}

// across is an angle on the side that the crank comes from, and where the piston is as deep
// again past TDC.
func across(setup evidence.Setup, half geometry.Angle, turn evidence.TurnDirection) (first, second geometry.Angle, err error) {
	crank, err := setup.Kinematics()
	if err != nil {
		return 0, 0, err
	}
	first = -half * geometry.Angle(turn)
	early, late, err := crank.AnglesAt(crank.Drop(first))
	if turn == evidence.Backward {
		return first, early, err
	}
	return first, late, err
}

// surest is the evidence whose farthest angle, of whole steps, leaves TDC least uncertain.
func surest(setup evidence.Setup, at func(geometry.Angle) (evidence.Cylinder, error)) (best evidence.Cylinder, err error) {
	least := geometry.Angle(math.Inf(1))
	for half := nearViews; half <= farViews; half += apartViews {
		c, err := at(half)
		if err != nil {
			return best, err
		}
		estimate, err := reached(setup, c)
		if err != nil {
			return best, err
		}
		if estimate.Expanded < least {
			best, least = c, estimate.Expanded
		}
	}
	return best, nil
}

// reached is TDC as evidence without error would tell it.
func reached(setup evidence.Setup, c evidence.Cylinder) (gum.Estimate, error) {
	f, err := foreseen(setup, c)
	return f.TDC, err
}

// foreseen is what Find says of evidence without error.
func foreseen(setup evidence.Setup, c evidence.Cylinder) (adjust.Foreseen, error) {
	c.Number = 1
	result, err := tdc.Find(setup, c)
	if err != nil {
		return adjust.Foreseen{}, fmt.Errorf("looking for TDC: %w", err)
	}
	return adjust.Foreseen{TDC: result.TDC, AgreeTo: result.AgreeTo, Budget: result.Budget}, nil
}
