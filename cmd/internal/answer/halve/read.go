package halve

import (
	"slices"
	"strings"

	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	halving "evendrop/tdc/halve"
	"evendrop/tdc/job/measure"
)

// Of halves pairs of angles, typed as the protractor shows them. An error is of what is no
// angle, of an odd number of them, and of pairs that halve.Pairs refuses.
func Of(p evidence.Protractor, args []string) (Halve, error) {
	p, pairs, err := typed(p, args)
	if err != nil {
		return Halve{}, err
	}
	halved, err := halving.Pairs(p, pairs)
	return Halve{protractor: p, pairs: pairs, Halved: halved}, err
}

// OfLobe halves pairs of angles at equal lift on a cam lobe; tdc is what the protractor
// shows at TDC, nil where nobody said. An error is of what is no angle, of an odd number of
// them, and of pairs that halve.Lobe refuses.
func OfLobe(p evidence.Protractor, args []string, tdc *string) (Lobe, error) {
	at, err := given(p, tdc)
	if err != nil {
		return Lobe{}, err
	}
	p, pairs, err := typed(p, args)
	if err != nil {
		return Lobe{}, err
	}
	centred, err := halving.Lobe(p, pairs)
	return Lobe{protractor: p, pairs: pairs, Centred: centred, tdc: at}, err
}

// given is an angle that may have been typed.
func given(p evidence.Protractor, text *string) (*geometry.Angle, error) {
	if text == nil {
		return nil, nil
	}
	at, err := usage.Angle(p, *text)
	return &at, err
}

// typed is pairs of angles, and the protractor that shows them as they were typed.
func typed(p evidence.Protractor, args []string) (evidence.Protractor, []halving.Pair, error) {
	as, texts := p, withSides(args)
	if len(texts) == 0 || len(texts)%2 != 0 {
		return as, nil, usage.Errorf("halve takes pairs of angles, and was given %s: type for example evendrop halve 348.6 11.8", words.Count(len(texts), "angle"))
	}
	var pairs []halving.Pair
	for pair := range slices.Chunk(texts, 2) {
		first, err := usage.Angle(p, pair[0])
		if err != nil {
			return as, nil, err
		}
		second, err := usage.Angle(p, pair[1])
		if err != nil {
			return as, nil, err
		}
		pairs = append(pairs, halving.Pair{First: first, Second: second})
		as = asTyped(asTyped(as, pair[0]), pair[1])
	}
	return as, pairs, nil
}

// asTyped is the protractor that shows angles as one was typed: with its side, and in
// quadrants where it was counted from bottom dead centre.
func asTyped(p evidence.Protractor, text string) evidence.Protractor {
	w, err := measure.ParseAngle(text)
	switch {
	case err != nil || w.Side == evidence.NoSide || p.Scale == evidence.Quadrants:
	case w.Side == evidence.BBDC || w.Side == evidence.ABDC:
		p.Scale = evidence.Quadrants
	default:
		p.Scale, p.Sides = evidence.Halves, true
	}
	return p
}

// sideWords are the sides that may be typed apart from their number.
var sideWords = []string{"BTDC", "ATDC", "BBDC", "ABDC"}

// withSides joins a side that was typed apart to its number.
func withSides(args []string) []string {
	var joined []string
	for _, arg := range args {
		if n := len(joined); n > 0 && slices.Contains(sideWords, strings.ToUpper(arg)) {
			joined[n-1] += " " + arg
		} else {
			joined = append(joined, arg)
		}
	}
	return joined
}
