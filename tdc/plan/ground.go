package plan

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// Ground is where readings can be taken.
type Ground struct {
	Deepest geometry.Length // below the top, as far as the gauge reaches
	OneWay  bool            // forward only: never turned back
	Round   geometry.Length // drops are multiples of it where that costs next to nothing; 0: half a millimetre
}

// Deepest is how far down a gauge of a kind is commonly read (common practice, no
// source): a dial gauge of 10 mm travel that is pressed in by 1 to 2 mm at TDC, a
// rod or a borescope well down the bore.
func Deepest(kind evidence.GaugeKind) geometry.Length {
	if kind == evidence.Dial {
		return 8
	}
	return 25
}

// Places are not nearer to TDC than shallowest, nor those of one sweep much nearer
// to each other than apart. Beyond steepest the piston moves no faster.
const (
	shallowest = 2 * geometry.Degree
	apart      = 1 * geometry.Degree
	steepest   = 75 * geometry.Degree
)

// pair is the two places of one sweep at which the piston is equally deep.
type pair struct {
	drop   geometry.Length
	half   geometry.Angle  // between the two
	places [2]adjust.Place // before and after TDC
}

// pairs are the pairs that can be read, the deepest first, at drops that are easy
// to set. Turned back they lie between those of the forward sweep.
func (g Ground) pairs(setup evidence.Setup) ([]pair, error) {
	crank, err := setup.Kinematics()
	if err != nil {
		return nil, err
	}
	reach := steepest
	if early, late, err := crank.AnglesAt(g.Deepest); err == nil {
		reach = min(reach, (late-early)/2)
	}
	var pairs []pair
	step := max(apart, setup.Protractor.Step)
	for sweep, turn := range g.turns() {
		for u := reach - step*geometry.Angle(sweep)/2; u >= shallowest; u -= step {
			p := pair{drop: roundDown(crank.Drop(u))}
			if p.drop <= 0 || len(pairs) > 0 && pairs[len(pairs)-1].sameAs(p.drop, turn) {
				continue // a small engine has no two such drops
			}
			if p, err = pairAt(crank, p.drop, turn); err != nil {
				return nil, err
			}
			pairs = append(pairs, p)
		}
	}
	switch enough := len(pairs) >= 4*len(g.turns()); {
	case !enough && shallowest+4*step > steepest:
		return nil, errTooCoarse
	case !enough && reach == steepest:
		return nil, errMovesTooLittle
	case !enough:
		return nil, TooShallow{g.Deepest, crank.Drop(shallowest + 4*step)}
	}
	return pairs, nil
}

// pairAt is the pair at a drop.
func pairAt(crank geometry.SliderCrank, drop geometry.Length, turn evidence.TurnDirection) (pair, error) {
	early, late, err := crank.AnglesAt(drop)
	if err != nil {
		return pair{}, err
	}
	return pair{drop, (late - early) / 2, [2]adjust.Place{{Angle: early, Turn: turn}, {Angle: late, Turn: turn}}}, nil
}

// sameAs tells whether a pair is of the same drop in the same sweep.
func (p pair) sameAs(drop geometry.Length, turn evidence.TurnDirection) bool {
	return p.drop == drop && p.places[0].Turn == turn
}

// roundDown is a length to tenths of a millimetre, or hundredths below three, where a
// tenth is more than a third of a degree.
func roundDown(l geometry.Length) geometry.Length {
	steps := 10.0
	if l < 3 {
		steps = 100
	}
	return geometry.Length(math.Floor(float64(l)*steps+1e-9) / steps)
}

// turns are the ways the crank may be turned.
func (g Ground) turns() []evidence.TurnDirection {
	if g.OneWay {
		return []evidence.TurnDirection{evidence.Forward}
	}
	return []evidence.TurnDirection{evidence.Forward, evidence.Backward}
}
