package typed

import (
	"fmt"
	"strings"

	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
)

// Degrees is a limit in degrees, greater than zero and at most so many, as a job file has it.
func Degrees(text string, most float64) (literal toml.Literal, ok bool) {
	x, err := measure.Decimal(strings.TrimSuffix(strings.TrimSpace(text), " deg"))
	return toml.Number(x), err == nil && x > 0 && x <= most
}

// Throw is what is asked of a cylinder that the job does not have.
type Throw struct {
	Number  int
	Degrees toml.Literal
}

// Question asks for the throw.
func (t *Throw) Question() (text, standard string, done bool) {
	return fmt.Sprintf("How many crank degrees after cylinder 1's does cylinder %d's TDC come? For example 180 or 240, by the crank or the firing order.", t.Number), "", t.Degrees != ""
}

// Take takes the throw. An error is of what is no number from 0 to 720.
func (t *Throw) Take(answer string) error {
	const most = 720
	x, err := measure.Decimal(strings.TrimSpace(answer))
	if err != nil || !(x >= 0 && x <= most) {
		return fmt.Errorf("%q is not a throw: type crank degrees from 0 to 720, such as 180", answer)
	}
	t.Degrees = toml.Number(x)
	return nil
}
