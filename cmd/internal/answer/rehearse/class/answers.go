package class

import (
	"errors"
	"strconv"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
	"evendrop/tdc/names"
)

// answered is a learner's answer, as the teacher wrote it down.
type answered struct {
	Line   int
	Name   string
	Engine int // from 1
	TDC    geometry.Angle
	Within *geometry.Angle // the ± that was promised; nil: none
	Pin    string          // within or outside; "" where nothing was said
}

// What is said of a pin.
const (
	within  = "within"
	outside = "outside"
)

// columns of a file of answers; the first three must be there.
var columns = []string{"name", "engine", "tdc", "within", "pin"}

var header = strings.Join(columns, ",")

const (
	columnsNeeded = 3
	mostAnswers   = 1_000
	longestName   = 200
)

// readAnswers reads a file of answers to a class of so many engines. What is wrong with it
// is a *source.Error.
func readAnswers(file string, engines int) ([]answered, error) {
	data, err := disk.ReadFile(file, errors.New("not found: write one with the header row "+header))
	if err != nil {
		return nil, err
	}
	table, err := sheet.OpenTable(file, data, columns, columnsNeeded)
	if err != nil {
		return nil, err
	}
	type answer struct {
		name   string
		engine int
	}
	var list []answered
	lines := map[answer]int{}
	err = table.Each(mostAnswers, "answers", func(row sheet.TableRow) error {
		g, err := given(row, engines)
		if err != nil {
			return err
		}
		is := answer{strings.ToLower(g.Name), g.Engine}
		if line, twice := lines[is]; twice {
			return row.Wrong("engine", "%s has an answer to engine %d on line %d already: leave one of the two", g.Name, g.Engine, line)
		}
		lines[is] = g.Line
		list = append(list, g)
		return nil
	})
	return list, err
}

// given is a row.
func given(row sheet.TableRow, engines int) (g answered, err error) {
	g = answered{Line: row.Line, Name: row.Of("name")}
	if g.Name == "" || len([]rune(g.Name)) > longestName {
		return g, row.Wrong("name", "expected who answered, %d characters at the most", longestName)
	}
	number := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(row.Of("engine")), "engine")) // as the sheet's heading has it
	if g.Engine, err = strconv.Atoi(number); err != nil || g.Engine < 1 || g.Engine > engines {
		return g, row.Wrong("engine", "expected a whole number from 1 to %d, as it stands on the sheet", engines)
	}
	if g.TDC, err = onProtractor(row.Of("tdc")); err != nil {
		return g, row.Wrong("tdc", "%v", err)
	}
	if text := row.Of("within"); text != "" {
		half, err := measure.ParseAngle(strings.TrimPrefix(text, "±"))
		if err != nil || half.Side != evidence.NoSide || !(half.Angle > 0 && half.Angle <= 180*geometry.Degree) {
			return g, row.Wrong("within", "expected degrees above zero such as 0.3, or nothing")
		}
		g.Within = &half.Angle
	}
	return g, g.takePin(row)
}

// onProtractor is an angle as the class's protractors show it.
func onProtractor(text string) (geometry.Angle, error) {
	written, err := measure.ParseAngle(text)
	if err != nil {
		return 0, errors.New("expected degrees on the protractor such as 3.4 or 356.2; leave the row out where there is no answer")
	}
	return evidence.DefaultProtractor().Crank(written)
}

// takePin reads what is said of the pin.
func (g *answered) takePin(row sheet.TableRow) error {
	text := row.Of("pin")
	switch strings.ToLower(text) {
	case "":
		return nil
	case "in":
		text = within
	case "out":
		text = outside
	}
	word, err := names.Read(text, []string{within, outside})
	if err != nil {
		return row.Wrong("pin", "expected within or outside, or nothing")
	}
	g.Pin = word
	return nil
}

// errNoClass is a folder without a key.
func errNoClass(key string) error {
	return &source.Error{File: key, Problem: "has no key of a class: make one first, with evendrop rehearse --class 20 DIR; where its key is elsewhere, say --answer"}
}
