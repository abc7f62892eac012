package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/source"
	"evendrop/tdc/names"
)

// kind is what a sheet is of: its columns, of which it needs the first two.
type kind struct {
	names        []string
	fresh        []string // columns of a file that is new
	angle, value string   // an example
}

var (
	depths = kind{[]string{"angle", "depth", "turn", "sweep", "set", "note"}, []string{"angle", "depth", "turn", "sweep", "note"}, "348.6", "3.29"}
	lifts  = kind{[]string{"angle", "lift", "turn", "note"}, []string{"angle", "lift", "note"}, "7.5", "1.03"}
)

// header is the least header row.
func (k kind) header() string { return k.names[0] + "," + k.names[1] }

// measures tells whether a column is of what the gauge showed.
func (k kind) measures(name string) bool { return name == k.names[1] }

// columns is where the header row puts what.
type columns struct {
	sheet *sheet
	kind  kind
	count int
	place map[string]int // of a column, by name
	unit  string         // of depths or lifts
}

// newColumns reads the header row.
func newColumns(s *sheet, k kind, header []string, unit string) (columns, error) {
	if len(header) < 2 {
		return columns{}, s.wrong(0, "%s: expected a header row such as %s", source.Quoted(header[0]), k.header())
	}
	c := columns{sheet: s, kind: k, count: len(header), place: map[string]int{}, unit: unit}
	for i, title := range header {
		if err := c.add(i, title); err != nil {
			return columns{}, s.wrong(i, "%s: %v", source.Quoted(title), err)
		}
	}
	for _, name := range k.names[:2] {
		if _, ok := c.place[name]; !ok {
			return columns{}, s.wrong(0, "the header row has no column %s: expected for example %s", name, k.header())
		}
	}
	return c, nil
}

// add puts a title of the header row to its place. It is a name, and for angle
// and depth or lift maybe a unit: depth_mm, "depth (in)".
func (c *columns) add(place int, title string) error {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return !unicode.IsLetter(r) && r != '°' && r != '"'
	})
	name, unit := "", ""
	if len(words) > 0 {
		name, unit = words[0], strings.Join(words[1:], " ")
	}
	if !slices.Contains(c.kind.names, name) {
		return errors.New(c.kind.unknownColumn(title))
	}
	if _, ok := c.place[name]; ok {
		return errors.New("a second column " + name + ": expected one")
	}
	c.place[name] = place
	switch {
	case unit == "":
		return nil
	case name == "angle" && slices.Contains([]string{"°", "deg", "degree", "degrees"}, unit):
		return nil
	case c.kind.measures(name) && unit == "mm":
		c.unit = "mm"
		return nil
	case c.kind.measures(name) && slices.Contains([]string{"in", "inch", "inches", `"`}, unit):
		c.unit = "in"
		return nil
	}
	return fmt.Errorf("unknown unit: expected angle_deg, %[1]s_mm or %[1]s_in, or no unit", c.kind.names[1])
}

// unknownColumn says what a header may hold. Digits in a title are a reading.
func (k kind) unknownColumn(title string) string {
	if strings.ContainsAny(title, "0123456789") {
		return "expected a header row such as " + k.header() + " above the readings"
	}
	return "unknown column; " + source.Instead(title, k.names)
}

func (c columns) reading(row []string, setup evidence.Setup) (evidence.Reading, error) {
	line, _ := c.sheet.csv.FieldPos(0)
	r := evidence.Reading{Sweep: c.of(row, "sweep"), Note: c.of(row, "note"), File: c.sheet.name, Line: line}
	var err error
	if r.Angle, r.Side, err = c.angle(row, setup.Protractor); err != nil {
		return r, err
	}
	depth, err := measure.Length(c.of(row, "depth"), c.unit)
	if err != nil {
		return r, c.wrong(row, "depth", err)
	}
	r.Depth = setup.Gauge.Falling(depth)
	if r.Turn, err = turn(c.of(row, "turn")); err != nil {
		return r, c.wrong(row, "turn", err)
	}
	if r.Set, err = set(c.of(row, "set")); err != nil {
		return r, c.wrong(row, "set", err)
	}
	return r, nil
}

// angle is a row's, and the side that it was written with.
func (c columns) angle(row []string, p evidence.Protractor) (angle geometry.Angle, side evidence.Side, err error) {
	written, err := measure.Angle(c.of(row, "angle"))
	if err == nil {
		angle, err = p.Crank(written)
	}
	if err != nil {
		return 0, 0, c.wrong(row, "angle", err)
	}
	return angle, written.Side, nil
}

// of is a whole row's field in a column; "" when there is no such column.
func (c columns) of(row []string, name string) string {
	if i, ok := c.place[name]; ok {
		return row[i]
	}
	return ""
}

// wrong is an error of a field: "depth "x": expected ...".
func (c columns) wrong(row []string, name string, err error) error {
	return c.sheet.wrong(c.place[name], "%s %s: %v", name, source.Quoted(c.of(row, name)), err)
}

// miscounted is the error of a row with too many fields or too few.
func (c columns) miscounted(n int) error {
	advice := "leave a field empty, but keep what separates it"
	if n > c.count && c.sheet.comma == ',' {
		advice = "write decimals with a point, or separate the columns with semicolons"
	}
	return c.sheet.wrong(0, "%d fields under a header of %d: %s", n, c.count, advice)
}

// example is a row under the header.
func (c columns) example() string {
	fields := make([]string, c.count)
	fields[c.place["angle"]], fields[c.place[c.kind.names[1]]] = c.kind.angle, c.kind.value
	return strings.Join(fields, string(c.sheet.comma))
}

// turn is a row's. What nearly every row says is looked up in no table of words: of 200
// rows that took a third of an answer.
func turn(text string) (evidence.TurnDirection, error) {
	switch text {
	case "", "f", "forward":
		return evidence.Forward, nil
	case "b", "backward":
		return evidence.Backward, nil
	}
	switch names.Whole(text, []string{"forward", "backward"}) {
	case "forward":
		return evidence.Forward, nil
	case "backward":
		return evidence.Backward, nil
	}
	return 0, errors.New("expected forward or backward, f or b, or nothing for forward")
}

// set is a set's number; 0 where it is left out.
func set(text string) (int, error) {
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > evidence.MostSets {
		return 0, fmt.Errorf("expected a whole number from 1 to %d: how often the protractor was set on the crank so far, or nothing for 1", evidence.MostSets)
	}
	return n, nil
}

// follows refuses a reading whose set does not follow that of the one before it: a
// protractor that was moved does not come back to where it stood.
func (c columns) follows(row []string, before, r evidence.Reading) error {
	was, is := evidence.SetOf(before.Set), evidence.SetOf(r.Set)
	if is == was || is == was+1 {
		return nil
	}
	return c.wrong(row, "set", fmt.Errorf("the reading above is of set %d: expected %[1]d, or %d from where the protractor was moved", was, was+1))
}
