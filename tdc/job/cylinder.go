package job

import (
	"bytes"
	"cmp"
	"errors"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// mostCylinders is more than any engine has.
const mostCylinders = 99

// cylinder reads a [[cylinder]] and its readings file.
func (d *decoder) cylinder(t *table) error {
	c := evidence.Cylinder{}
	err := t.read(
		field{"number", d.newNumber(&c.Number)},
		field{"throw", crank(&c.Throw)},
		field{"readings", d.readings(&c)},
		field{"stops", d.stops(&c.Stops)},
		field{"dwell", d.dwell(&c.Dwell)},
		field{"views", d.views(&c.Views)},
	)
	switch {
	case err != nil:
		return err
	case !t.has("number"):
		return t.missing("number", "number = 1")
	case !t.has("readings", "stops", "dwell", "views"):
		return t.missing("readings", `readings = "cylinder-1.csv" (or give stops, dwell or views)`)
	case c.Number == 1 && c.Throw != 0:
		v, _ := t.get("throw")
		return v.wrong("throws count from cylinder 1: expected 0")
	}
	all := len(c.Readings)
	for _, other := range d.job.Cylinders {
		all += len(other.Readings)
	}
	if all > mostReadings {
		return faultf(t.at, "%s: more than 3,000 readings in one job: expected what somebody read by hand", t.name)
	}
	d.job.Cylinders = append(d.job.Cylinders, c)
	return nil
}

// newNumber takes a cylinder's number that no other has.
func (d *decoder) newNumber(into *int) func(value) error {
	return func(v value) error {
		if err := whole(into, 1, mostCylinders)(v); err != nil {
			return err
		}
		for _, other := range d.job.Cylinders {
			if other.Number == *into {
				return v.wrong("another cylinder has this number: expected a number of its own")
			}
		}
		return nil
	}
}

// sortCylinders puts cylinder 1, from which all count, first.
func (d *decoder) sortCylinders() {
	slices.SortFunc(d.job.Cylinders, func(a, b evidence.Cylinder) int { return cmp.Compare(a.Number, b.Number) })
}

// readings takes the name of a readings file, and reads it.
func (d *decoder) readings(c *evidence.Cylinder) func(value) error {
	return func(v value) error {
		var file string
		if err := name(&file)(v); err != nil {
			return err
		}
		path := folderOf(d.job.File).path(file)
		if d.job.ReadingsFiles == nil {
			d.job.ReadingsFiles = map[int]string{}
		}
		d.job.ReadingsFiles[c.Number] = path
		data, err := d.open(file)
		switch {
		case errors.Is(err, errBlank):
			return nil
		case err != nil:
			return v.wrong("%v", err)
		}
		c.Readings, err = ReadReadings(path, bytes.NewReader(data), d.job.Setup, d.job.Unit)
		return err
	}
}

// stops takes pairs of contact angles, or the name of a file of them.
func (d *decoder) stops(into *[]evidence.Stop) func(value) error {
	const expected = "expected pairs of angles, as in [[-31.5, 24.0]]: contact on the rising side, and on the falling"
	return func(v value) error {
		if v.kind == textKind {
			return d.stopsFile(into, v)
		}
		return v.each(expected, func(pair value) error {
			if pair.kind != listKind || len(pair.items) != 2 {
				return pair.wrong(expected)
			}
			var s evidence.Stop
			for i, side := range []*geometry.Angle{&s.Rising, &s.Falling} {
				if err := d.protractor(side)(pair.items[i]); err != nil {
					return err
				}
			}
			*into = append(*into, s)
			return nil
		})
	}
}

// dwell takes pairs of angles at which motion was seen to end and to begin.
func (d *decoder) dwell(into *[]evidence.DwellPair) func(value) error {
	const example = `{ still = -6.2, moves = 9.1, turn = "forward" }`
	return func(v value) error {
		return v.each("expected a list such as ["+example+"]", func(item value) error {
			if item.kind != tableKind {
				return item.wrong("expected %s", example)
			}
			pair := evidence.DwellPair{Turn: evidence.Forward}
			err := item.table.read(
				field{"still", d.protractor(&pair.Still)},
				field{"moves", d.protractor(&pair.Moves)},
				field{"turn", either(&pair.Turn, "forward", evidence.Forward, "backward", evidence.Backward)},
			)
			switch {
			case err != nil:
				return err
			case !item.table.has("still"):
				return item.table.missing("still", example)
			case !item.table.has("moves"):
				return item.table.missing("moves", example)
			}
			*into = append(*into, pair)
			return nil
		})
	}
}
