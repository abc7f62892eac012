package halve

import (
	"slices"
	"strings"

	"evendrop/cmd/internal/usage"
	"evendrop/tdc/evidence"
	halving "evendrop/tdc/halve"
	"evendrop/tdc/job/measure"
)

// Of halves pairs of angles, typed as the protractor shows them.
func Of(p evidence.Protractor, args []string) (Halve, error) {
	answer := Halve{Protractor: p}
	texts := withSides(args)
	if len(texts) == 0 || len(texts)%2 != 0 {
		return answer, usage.Errorf("halve takes pairs of angles, and was given %d: type for example evendrop halve 348.6 11.8", len(texts))
	}
	for pair := range slices.Chunk(texts, 2) {
		first, err := usage.Angle(p, pair[0])
		if err != nil {
			return answer, err
		}
		second, err := usage.Angle(p, pair[1])
		if err != nil {
			return answer, err
		}
		answer.Pairs = append(answer.Pairs, halving.Pair{First: first, Second: second})
		for _, text := range pair {
			answer.Protractor = asTyped(answer.Protractor, text)
		}
	}
	var err error
	answer.Halved, err = halving.Pairs(answer.Protractor, answer.Pairs)
	return answer, err
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
