package motion

import (
	"fmt"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// trapped is what becomes of liquid above the piston as it rises.
type trapped struct {
	outcome string
	fullAt  *geometry.Angle // where it fills the space, before TDC; nil: nowhere
	ratio   *float64        // what compression becomes; nil: there is no room left
}

// The outcomes.
const (
	fillsBefore = "full before TDC"
	neverFull   = "not full at TDC"
	alwaysFull  = "full even at BDC"
)

// trapped is what becomes of the liquid asked for, in an engine whose bore and
// compression are known. Valves are taken as shut and the liquid as unyielding.
func (m Motion) trapped(e engine) (trapped, error) {
	c := e.cylinder
	largest := c.Clearance() + c.Swept()
	switch {
	case m.liquid < c.Clearance():
		return trapped{outcome: neverFull, ratio: new(float64((largest - m.liquid) / (c.Clearance() - m.liquid)))}, nil
	case m.liquid > largest:
		return trapped{outcome: alwaysFull}, nil
	}
	before, _, err := c.AnglesAtVolume(m.liquid)
	return trapped{outcome: fillsBefore, fullAt: &before}, err
}

// liquidCaution is common practice, no source.
const liquidCaution = "Liquid does not give: where the space is full the crank stops, or something bends. So an engine that may hold liquid is never tried with the starter. With plugs or injectors out, turn it two " +
	"full turns by hand first, and stop at any hard resistance. These volumes come from the dimensions typed, not from the maker, and " +
	"pressure is dangerous well before the space is full."

// liquidSentences says it in words, an engine a sentence.
func (m Motion) liquidSentences() ([]string, error) {
	var out []string
	for n, e := range m.engines {
		t, err := m.trapped(e)
		if err != nil {
			return nil, err
		}
		whose := ""
		if len(m.engines) > 1 {
			whose = "Engine " + m.letter(n) + ": "
		}
		out = append(out, whose+m.liquidSentence(e, t))
	}
	return out, nil
}

// liquidSentence has every volume in cubic centimetres, which are the millilitres that
// the liquid was typed in.
func (m Motion) liquidSentence(e engine, t trapped) string {
	amount := words.Plain(m.liquid.CubicCentimetres()) + " ml of trapped liquid"
	clearance := e.cylinder.Clearance().CubicCentimetres()
	switch t.outcome {
	case neverFull:
		return fmt.Sprintf("%s does not fill the %s cm3 left at TDC, but makes a compression of %s into %s.",
			amount, words.Fixed(clearance, 1), words.Plain(e.compression), words.Fixed(*t.ratio, 1))
	case alwaysFull:
		return fmt.Sprintf("%s is more than the cylinder holds at BDC, %s cm3: the piston cannot rise at all.",
			amount, words.Fixed(clearance+e.cylinder.Swept().CubicCentimetres(), 1))
	}
	return fmt.Sprintf("%s fills the space above the piston %s deg before TDC, where the piston is still %s down.",
		amount, words.Fixed(-t.fullAt.Degrees(), 1), m.bench().Drop(e.Drop(*t.fullAt)))
}
