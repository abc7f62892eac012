package job

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// bound is what a measure may be.
type bound int

const (
	anySize bound = iota
	noughtUp
	aboveNought
)

// holds tells whether x is within the bound.
func (b bound) holds(x float64) bool {
	return b == anySize || x > 0 || b == noughtUp && x == 0
}

// of says what is expected: "a length above 0, such as 81.4".
func (b bound) of(what string) string {
	return "expected " + what + map[bound]string{
		anySize:     " such as 4.1",
		noughtUp:    " of 0 or more, such as 0.05",
		aboveNought: " above 0, such as 81.4",
	}[b]
}

// length takes a length: a number in the job's unit, or a text with its own.
func (d *decoder) length(into *geometry.Length, b bound) func(value) error {
	return func(v value) error {
		l, err := d.lengthOf(v)
		if err != nil {
			return v.wrong("%v", err)
		}
		if !b.holds(float64(l)) {
			return v.wrong("%s", b.of("a length"))
		}
		if math.Abs(float64(l)) < float64(least) {
			l = 0 // so small that sums with it would lose their digits
		}
		*into = l
		return nil
	}
}

// least is the least length that is told from none: no gauge shows it.
const least = 1e-9 * geometry.Millimetre

func (d *decoder) lengthOf(v value) (geometry.Length, error) {
	if v.kind == textKind {
		return parseLength(v.text, d.job.Unit)
	}
	x, ok := v.number()
	if !ok {
		return 0, errLength
	}
	return inUnit(x, d.job.Unit)
}

// written is an angle as the job file gives it: a number of degrees, or a text.
func (v value) written() (evidence.Written, error) {
	if v.kind == textKind {
		return parseAngle(v.text)
	}
	x, ok := v.number()
	if !ok {
		return evidence.Written{}, errAngle
	}
	return evidence.Written{Angle: geometry.Angle(x) * geometry.Degree}, nil
}

// protractor takes an angle that was read on the protractor.
func (d *decoder) protractor(into *geometry.Angle) func(value) error {
	return func(v value) error {
		w, err := v.written()
		if err == nil {
			*into, err = d.job.Setup.Protractor.Crank(w)
		}
		if err != nil {
			return v.wrong("%v", err)
		}
		return nil
	}
}

// crank takes an angle in crank degrees, which is on no protractor; BTDC makes
// it negative.
func crank(into *geometry.Angle) func(value) error {
	return func(v value) error {
		w, err := v.written()
		if err != nil || w.Side != evidence.NoSide && w.Angle < 0 || math.Abs(w.Angle.Degrees()) > 720 {
			return v.wrong(`expected crank degrees from -720 to 720, such as -12.5 or "12.5 BTDC"`)
		}
		if *into = w.Angle; w.Side == evidence.BTDC {
			*into = -w.Angle
		}
		return nil
	}
}

// width takes an angle's size, nought or more.
func width(into *geometry.Angle) func(value) error {
	return func(v value) error {
		w, err := v.written()
		if err != nil || w.Side != evidence.NoSide || w.Angle < 0 || w.Angle > geometry.Turn {
			return v.wrong("expected degrees from 0 to 360, such as 0.5")
		}
		*into = w.Angle
		return nil
	}
}
