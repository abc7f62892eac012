package convert

import (
	"fmt"
	"strconv"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/mark"
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

// Across is how lengths are measured.
func (c Conversion) Across() mark.Unit {
	if c.Chord {
		return mark.Chord
	}
	return mark.Arc
}

// wheel is the angle by which the wheel has turned.
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
	return form.Finite(tidy(mark.Amount(c.wheel(), c.Across(), 0, c.Radius)))
}

func (c Conversion) document() doc.Document {
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

// Text is the answer in lines of up to width characters.
func (c Conversion) Text(width int) ([]byte, error) { return form.Terminal(c.document(), width) }

// Markdown is the answer as Markdown.
func (c Conversion) Markdown() ([]byte, error) { return form.Markdown(c.document()) }

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
