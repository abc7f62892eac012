package convert

import (
	"fmt"
	"math"
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
	Pitches int             // of the wheel; 0 is unknown
	Radius  geometry.Length // at which millimetres are measured; 0 is unknown
	Chord   bool            // straight across rather than along the arc
}

// Across is the unit that millimetres are in.
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
	t := doc.Table{Header: []string{"Unit", "shift"}, Rows: [][]string{
		{"crank degrees", shown(c.Crank.Degrees())}, {"cam degrees", shown(c.Crank.Degrees() / 2)},
	}}
	if teeth := c.teeth(); teeth != nil {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("teeth of %d", c.Pitches), shown(*teeth)})
	}
	if mm := c.mm(); mm != nil {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%s at radius %s mm", c.Across(), words.Plain(c.Radius.Millimetres())), shown(*mm)})
	}
	var d doc.Document
	d.Table(t)
	return d
}

// shown is a converted number: it has no uncertainty of its own, and four
// decimals are finer than any wheel is made.
func shown(x float64) string { return words.Plain(math.Round(x*1e4) / 1e4) }

// tidy is a number in fourteen digits: there and back through radians takes one or two
// of the sixteen.
func tidy(x float64) float64 {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 14, 64), 64) // always a number
	return short
}

// Text is the answer in lines of up to width characters.
func (c Conversion) Text(width int) ([]byte, error) { return form.Terminal(c.document(), width) }

// Markdown is the answer as Markdown.
func (c Conversion) Markdown() ([]byte, error) { return form.Markdown(c.document()) }

type conversionJSON struct {
	Program string   `json:"program"`
	Format  int      `json:"format"`
	Crank   float64  `json:"crank_deg"`
	Cam     float64  `json:"cam_deg"`
	Teeth   *float64 `json:"teeth"`
	Mm      *float64 `json:"mm"`
}

// JSON is the answer as JSON.
func (c Conversion) JSON() ([]byte, error) {
	return form.JSON(conversionJSON{"evendrop", form.Format, tidy(c.Crank.Degrees()), tidy(c.Crank.Degrees() / 2), c.teeth(), c.mm()})
}

// CSV is the answer as a row.
func (c Conversion) CSV() ([]byte, error) {
	row := []string{form.Digits(tidy(c.Crank.Degrees())), form.Digits(tidy(c.Crank.Degrees() / 2)), "", ""}
	for i, x := range []*float64{c.teeth(), c.mm()} {
		if x != nil {
			row[2+i] = form.Digits(*x)
		}
	}
	return form.CSV([][]string{{"crank_deg", "cam_deg", "teeth", "mm"}, row})
}
