package toml

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// Bound is what a measure may be.
type Bound int

const (
	AnySize Bound = iota
	FromZero
	AboveZero
)

// Holds tells whether x is within the bound.
func (b Bound) Holds(x float64) bool {
	return b == AnySize || x > 0 || b == FromZero && x == 0
}

// Of says what is expected: "a length above 0, such as 81.4".
func (b Bound) Of(what string) string {
	return "expected " + what + map[Bound]string{
		AnySize:   " such as 4.1",
		FromZero:  " of 0 or more, such as 0.05",
		AboveZero: " above 0, such as 81.4",
	}[b]
}

// Written is an angle as the job file gives it: a number of degrees, or a text.
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
// it negative.
func Crank(into *geometry.Angle) func(Value) error {
	return func(v Value) error {
		w, err := v.Written()
		if err != nil || w.Side != evidence.NoSide && w.Angle < 0 || math.Abs(w.Angle.Degrees()) > 720 {
			return v.Wrong(`expected crank degrees from -720 to 720, such as -12.5 or "12.5 BTDC"`)
		}
		if *into = w.Angle; w.Side == evidence.BTDC {
			*into = -w.Angle
		}
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
func Size(into *float64, b Bound) func(Value) error {
	return That(into, b.Of("a number"), func(x float64) bool { return b.Holds(x) && math.Abs(x) <= float64(measure.Longest) })
}
