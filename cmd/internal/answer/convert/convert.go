package convert

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
)

// Conversion is a shift in every unit that can be had.
type Conversion struct {
	Crank   geometry.Angle
	OnCam   bool            // teeth and millimetres are of a wheel at cam speed
	Pitches int             // of the wheel; zero is unknown
	Radius  geometry.Length // at which lengths are measured; zero is unknown
	Chord   bool            // straight across rather than along the arc
	Inches  bool            // a person reads lengths in inches
}

// across is how lengths are measured.
func (c Conversion) across() mark.Unit {
	if c.Chord {
		return mark.Chord
	}
	return mark.Arc
}

func (c Conversion) wheel() geometry.Angle {
	if c.OnCam {
		return c.Crank / 2
	}
	return c.Crank
}

// teeth and mm are nil when the wheel does not say enough.
func (c Conversion) teeth() *float64 {
	if c.Pitches == 0 {
		return nil
	}
	return form.Finite(tidy(mark.Amount(c.wheel(), mark.Teeth, c.Pitches, 0)))
}

func (c Conversion) mm() *float64 {
	if c.Radius == 0 {
		return nil
	}
	return form.Finite(tidy(mark.Amount(c.wheel(), c.across(), 0, c.Radius)))
}

// Document is the answer in words.
func (c Conversion) Document() doc.Document {
	bench := words.Bench{Inches: c.Inches}
	t := doc.Table{Header: []string{"Unit", "shift"}, Rows: [][]string{
		{"crank degrees", shown(c.Crank.Degrees())}, {"cam degrees", shown(c.Crank.Degrees() / 2)},
	}}
	if teeth := c.teeth(); teeth != nil {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("teeth of %d", c.Pitches), shown(*teeth)})
	}
	if mm := c.mm(); mm != nil {
		t.Rows = append(t.Rows, []string{
			fmt.Sprintf("%s %s at radius %s", bench.Unit(), c.way(), bench.Stated(c.Radius)), shown(bench.In(geometry.Length(*mm) * geometry.Millimetre)),
		})
	}
	var d doc.Document
	d.Table(t)
	return d
}

// shown is a converted number: it has no uncertainty of its own, and four
// decimals are finer than any wheel is made.
func shown(x float64) string { return words.Trimmed(x, 4) }

// way is the way on the wheel that a length is measured.
func (c Conversion) way() string {
	if c.Chord {
		return "straight across"
	}
	return "along the arc"
}

// tidy is a number in fourteen digits: there and back through radians takes one or two
// of the sixteen. It is never minus zero.
func tidy(x float64) float64 {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 14, 64), 64) // always a number
	return short + 0
}

type conversionJSON struct {
	form.Head
	Crank float64  `json:"crank_deg"`
	Cam   float64  `json:"cam_deg"`
	Teeth *float64 `json:"teeth" doc:"null: without pitches"`
	Mm    *float64 `json:"mm" doc:"null: without a radius"`
}

// JSON is the answer as JSON.
func (c Conversion) JSON() ([]byte, error) {
	return form.JSON(conversionJSON{form.Format1, tidy(c.Crank.Degrees()), tidy(c.Crank.Degrees() / 2), c.teeth(), c.mm()})
}

// CSV is the answer as a row.
func (c Conversion) CSV() ([]byte, error) {
	row := []string{form.Digits(tidy(c.Crank.Degrees())), form.Digits(tidy(c.Crank.Degrees() / 2)), form.Known(c.teeth()), form.Known(c.mm())}
	return form.CSV([][]string{{"crank_deg", "cam_deg", "teeth", "mm"}, row})
}

// Apart is a value and its unit that were typed as one word, such as 10mm.
func Apart(text string) []string {
	at := strings.LastIndexAny(text, "0123456789.,") + 1
	if at == 0 || at == len(text) {
		return []string{text}
	}
	return []string{text[:at], strings.TrimSpace(text[at:])}
}

// Read takes a value and its unit, as names reads it, as the shift to convert. An error is
// of another unit, of no number, and of a unit whose wheel or radius is not known.
func (c *Conversion) Read(value, unit string) (err error) {
	unit, err = readUnit(unit)
	if err != nil {
		return err
	}
	c.Inches = unit == "in"
	c.Crank, err = c.crank(value, unit)
	return err
}

// readUnit reads a unit as the one that crank knows.
func readUnit(text string) (string, error) {
	unit, err := names.Read(text, []string{"teeth", "mm", "in", "crank", "cam"})
	if unknown, is := errors.AsType[*names.Unknown](err); is {
		return "", usage.Errorf("%s is not a unit that convert knows: %s", text, unknown.Bare())
	}
	return unit, nil
}

// crank is a value and its unit as crank degrees.
func (c *Conversion) crank(value, unit string) (geometry.Angle, error) {
	if unit == "mm" || unit == "in" {
		length, err := measure.ParseLength(value, unit)
		if err != nil {
			return 0, usage.Errorf("%v", err)
		}
		return c.fromWheel(length.Millimetres(), c.across())
	}
	written, err := measure.ParseAngle(value)
	if err != nil || written.Side != evidence.NoSide {
		return 0, usage.Errorf("%s: expected a number such as 2.5", value)
	}
	switch unit {
	case "crank":
		return written.Angle, nil
	case "cam":
		return 2 * written.Angle, nil
	}
	return c.fromWheel(written.Angle.Degrees(), mark.Teeth)
}

// fromWheel is the crank degrees of an amount measured on the wheel.
func (c *Conversion) fromWheel(amount float64, unit mark.Unit) (geometry.Angle, error) {
	angle, err := mark.Turn(amount, unit, c.Pitches, c.Radius)
	switch {
	case err != nil && unit == mark.Teeth:
		return 0, usage.Errorf("%v: add it, as in --pitches 60", err)
	case err != nil && c.Radius == 0:
		return 0, usage.Errorf("%v: add it, as in --radius 65", err)
	case err != nil:
		return 0, usage.Errorf("%v: expected at most %v, or the length along the arc, without --chord", err, 2*c.Radius)
	case c.OnCam:
		angle *= 2
	}
	return angle, nil
}
