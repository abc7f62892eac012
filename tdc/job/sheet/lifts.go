package sheet

import (
	"errors"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/lobe"
)

// mostLifts is more than anybody reads of one lobe by hand.
const mostLifts = 300

// A lift lies between these: below the heel by no more than a gauge's zero is out, and
// no farther above it than any valve opens.
const (
	leastLift = -1 * geometry.Millimetre
	mostLift  = 50 * geometry.Millimetre
)

// ReadLifts reads a file of a cam lobe's lifts: a header row angle,lift and a reading a
// row, in the order turned. Lifts without a unit of their own, or of their column, are in
// unit, "mm" or "in". Whatever is wrong with the file is an *Error under name, and so is a
// file without readings.
func ReadLifts(name string, data []byte, p evidence.Protractor, unit string) ([]lobe.Reading, error) {
	s, header, err := open(name, data, "no header row: expected one such as angle,lift and below it a reading a row")
	if err != nil {
		return nil, err
	}
	columns, err := newColumns(s, lifts, header, unit)
	if err != nil {
		return nil, err
	}
	var readings []lobe.Reading
	err = columns.rows(mostLifts, "", func(row []string) error {
		r, err := columns.lift(row, p)
		readings = append(readings, r)
		return err
	})
	if err != nil {
		return nil, err
	}
	return readings, nil
}

// lift is a row of a file of lifts.
func (c columns) lift(row []string, p evidence.Protractor) (r lobe.Reading, err error) {
	r.Note, r.File = c.of(row, "note"), c.sheet.name
	r.Line, _ = c.sheet.csv.FieldPos(0)
	if r.Angle, r.Side, err = c.angle(row, p); err != nil {
		return r, err
	}
	if r.Lift, err = measure.Length(c.of(row, "lift"), c.unit); err == nil && (r.Lift < leastLift || r.Lift > mostLift) {
		err = errors.New("expected a lift above the heel, growing as the valve opens, 50 mm at the most, such as 1.03")
	}
	if err != nil {
		return r, c.wrong(row, "lift", err)
	}
	if r.Turn, err = turn(c.of(row, "turn")); err != nil {
		return r, c.wrong(row, "turn", err)
	}
	return r, nil
}
