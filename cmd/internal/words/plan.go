package words

import (
	"errors"
	"fmt"
	"math"

	"evendrop/tdc/plan"
)

// Planning is why there is no plan, its lengths in the job's unit.
func (b Bench) Planning(err error) string {
	var shallow plan.TooShallow
	var full plan.NoRoom
	switch {
	case errors.As(err, &shallow):
		places := math.Pow10(b.depthPlaces()) // rounded up: what is said must do
		least := Fixed(math.Ceil(b.In(shallow.Least)*places)/places, b.depthPlaces())
		return fmt.Sprintf("%s is too little depth to plan in: expected at least %s %s", b.Stated(shallow.Deepest), least, b.Unit())
	case errors.As(err, &full):
		return fmt.Sprintf("%d readings are too many: down to %s there are places for %d", full.Readings, b.Stated(full.Deepest), full.Room)
	}
	return err.Error()
}
