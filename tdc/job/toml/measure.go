package toml

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// Written is an angle as the job file gives it: a number of degrees, or a text. An error is
// of neither, and of a text that is no angle.
func (v Value) Written() (evidence.Written, error) {
	if v.Kind == TextKind {
		return measure.Angle(v.Text)
	}
	x, ok := v.Number()
	if !ok {
		return evidence.Written{}, measure.ErrAngle
	}
	return evidence.Written{Angle: geometry.Angle(x) * geometry.Degree}, nil
}

// Crank takes an angle in crank degrees, which is on no protractor; BTDC makes
// it negative, and BBDC and ABDC count from half a turn after.
func Crank(into *geometry.Angle) func(Value) error {
	return func(v Value) error {
		w, err := v.Written()
		angle, ok := measure.OnCrank(w)
		if err != nil || !ok {
			return v.Wrong(`expected crank degrees from -720 to 720, such as -12.5 or "12.5 BTDC"`)
		}
		*into = angle
		return nil
	}
}

// Width takes an angle's size, zero or more.
func Width(into *geometry.Angle) func(Value) error {
	return func(v Value) error {
		w, err := v.Written()
		if err != nil || w.Side != evidence.NoSide || w.Angle < 0 || w.Angle > geometry.Turn {
			return v.Wrong("expected degrees from 0 to 360, such as 0.5")
		}
		*into = w.Angle
		return nil
	}
}

// Size takes a number.
func Size(into *float64, b measure.Bound) func(Value) error {
	return That(into, b.Of("a number"), func(x float64) bool { return b.Holds(x) && math.Abs(x) <= float64(measure.Longest) })
}
