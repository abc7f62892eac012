package typed

import (
	"fmt"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
)

// Angle is an angle of the protractor as it was typed, and as a job file has it.
type Angle struct {
	Text    string
	Literal toml.Literal
}

// TwoAngles takes two angles that a protractor can show, each of which may have its side
// behind it; an error of any other text.
func TwoAngles(text string, p evidence.Protractor) (a, b Angle, err error) {
	for one, other := range inHalves(text) {
		if shown(one, p) && shown(other, p) {
			return Angle{one, Literal(one)}, Angle{other, Literal(other)}, nil
		}
	}
	return a, b, fmt.Errorf("%q is not two angles", text)
}

// shown tells whether a text is an angle that a protractor can show.
func shown(text string, p evidence.Protractor) bool {
	written, err := measure.ParseAngle(text)
	if err == nil {
		_, err = p.Crank(written)
	}
	return err == nil
}

// Literal is an angle or a length that was typed, as a job file has it: a number is bare, and
// what has a side or a unit of its own stands in quotes.
func Literal(text string) toml.Literal {
	if x, err := measure.Decimal(text); err == nil {
		return toml.Number(x)
	}
	return toml.Quote(text)
}
