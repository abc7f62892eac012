package job

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
)

// length takes a length: a number in the job's unit, or a text with its own.
func (d *decoder) length(into *geometry.Length, b toml.Bound) func(toml.Value) error {
	return func(v toml.Value) error {
		l, err := d.lengthOf(v)
		if err != nil {
			return v.Wrong("%v", err)
		}
		if !b.Holds(float64(l)) {
			return v.Wrong("%s", b.Of("a length"))
		}
		if math.Abs(float64(l)) < float64(least) {
			l = 0 // so small that sums with it would lose their digits
		}
		*into = l
		return nil
	}
}

func (d *decoder) lengthOf(v toml.Value) (geometry.Length, error) {
	if v.Kind == toml.TextKind {
		return measure.Length(v.Text, d.job.Unit)
	}
	x, ok := v.Number()
	if !ok {
		return 0, measure.ErrLength
	}
	return measure.InUnit(x, d.job.Unit)
}

// protractor takes an angle that was read on the protractor.
func (d *decoder) protractor(into *geometry.Angle) func(toml.Value) error {
	return func(v toml.Value) error {
		w, err := v.Written()
		if err == nil {
			*into, err = d.job.Setup.Protractor.Crank(w)
		}
		if err != nil {
			return v.Wrong("%v", err)
		}
		return nil
	}
}

// least is the least length that is told from none: no gauge shows it.
const least = 1e-9 * geometry.Millimetre
