package job

import (
	"errors"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/toml"
)

// mostCylinders is more than any engine has.
const mostCylinders = 99

// cylinder reads a [[cylinder]] and its readings file.
func (d *decoder) cylinder(t *toml.Table) error {
	c := evidence.Cylinder{}
	err := t.Read(
		toml.Key("number", d.newNumber(&c.Number)),
		toml.Key("throw", toml.Crank(&c.Throw)),
		toml.Key("readings", d.readings(&c, t.Has("stops", "dwell", "views"))),
		toml.Key("stops", d.stops(&c.Stops)),
		toml.Key("dwell", d.pairs(`{ still = -6.2, moves = 9.1, turn = "forward" }`, "still", "moves", func(still, moves geometry.Angle, turn evidence.TurnDirection) {
			c.Dwell = append(c.Dwell, evidence.DwellPair{Still: still, Moves: moves, Turn: turn})
		})),
		toml.Key("views", d.pairs(`{ before = 351.9, after = 2.9, turn = "forward" }`, "before", "after", func(before, after geometry.Angle, turn evidence.TurnDirection) {
			c.Views = append(c.Views, evidence.View{Before: before, After: after, Turn: turn})
		})),
	)
	if err == nil {
		err = t.Needs("number = 1")
	}
	switch {
	case err != nil:
		return err
	case !t.Has("readings", "stops", "dwell", "views"):
		return t.Missing("readings", `readings = "cylinder-1.csv" (or give stops, dwell or views)`)
	case c.Number == 1 && c.Throw != 0:
		v, _ := t.Get("throw")
		return v.Wrong("throws count from cylinder 1: expected 0")
	}
	all := len(c.Readings)
	for _, other := range d.job.Cylinders {
		all += len(other.Readings)
	}
	if all > sheet.MostReadings {
		return t.Wrong("more than 3,000 readings in one job: expected what somebody read by hand")
	}
	d.job.Cylinders = append(d.job.Cylinders, c)
	return nil
}

// newNumber takes a cylinder's number that no other has.
func (d *decoder) newNumber(into *int) func(toml.Value) error {
	return func(v toml.Value) error {
		if err := toml.Whole(into, 1, mostCylinders)(v); err != nil {
			return err
		}
		if slices.ContainsFunc(d.job.Cylinders, func(other evidence.Cylinder) bool { return other.Number == *into }) {
			return v.Wrong("another cylinder has this number: expected a number of its own")
		}
		return nil
	}
}

// readings takes the name of a readings file, and reads it. Beside other evidence it may
// wait for its first row.
func (d *decoder) readings(c *evidence.Cylinder, beside bool) func(toml.Value) error {
	return d.sheet(func(path string) { remember(&d.job.ReadingsFiles, c.Number, path) }, func(path string, data []byte) (err error) {
		if beside && sheet.Blank(path, data) {
			return nil
		}
		c.Readings, err = sheet.ReadReadings(path, data, d.job.Setup, d.job.Unit)
		return err
	})
}

// sheet takes the name of a file, tells its path, and reads what is in it, if anything is.
func (d *decoder) sheet(named func(path string), read func(path string, data []byte) error) func(toml.Value) error {
	return func(v toml.Value) error {
		var file string
		if err := toml.Name(&file)(v); err != nil {
			return err
		}
		path := disk.FolderOf(d.job.File).Path(file)
		named(path)
		data, err := d.files.text(file)
		switch {
		case errors.Is(err, errBlank):
			return nil
		case err != nil:
			return v.Wrong("%w", err)
		}
		return read(path, data)
	}
}

// remember puts a path into a map, which may be nil.
func remember[K comparable](paths *map[K]string, key K, path string) {
	if *paths == nil {
		*paths = map[K]string{}
	}
	(*paths)[key] = path
}

// pairs takes pairs of protractor angles such as example, and the way that the crank
// was turned.
func (d *decoder) pairs(example, first, second string, add func(first, second geometry.Angle, turn evidence.TurnDirection)) func(toml.Value) error {
	return toml.Inline(example, []string{first, second}, func(t *toml.Table) error {
		var a, b geometry.Angle
		turn := evidence.Forward
		err := t.Read(
			toml.Key(first, d.protractor(&a)),
			toml.Key(second, d.protractor(&b)),
			toml.Key("turn", toml.Either(&turn, "forward", evidence.Forward, "backward", evidence.Backward)),
		)
		add(a, b, turn)
		return err
	})
}

// stops takes pairs of contact angles, or the name of a file of them.
func (d *decoder) stops(into *[]evidence.Stop) func(toml.Value) error {
	const expected = "expected pairs of angles, as in [[-31.5, 24.0]]: contact on the rising side, and on the falling"
	return func(v toml.Value) error {
		if v.Kind == toml.TextKind {
			return d.stopsFile(into, v)
		}
		return v.Each(expected, func(pair toml.Value) error {
			if pair.Kind != toml.ListKind || len(pair.Items) != 2 {
				return pair.Wrong(expected)
			}
			var s evidence.Stop
			for i, side := range []*geometry.Angle{&s.Rising, &s.Falling} {
				if err := d.protractor(side)(pair.Items[i]); err != nil {
					return err
				}
			}
			*into = append(*into, s)
			return nil
		})
	}
}

// stopsFile reads the contact angles of a CSV file: a header row rising,falling
// and a pair a row.
func (d *decoder) stopsFile(into *[]evidence.Stop, v toml.Value) error {
	var file string
	if err := toml.Name(&file)(v); err != nil {
		return err
	}
	data, err := d.files.text(file)
	if err != nil {
		return v.Wrong("%w", err)
	}
	*into, err = sheet.ReadStops(disk.FolderOf(d.job.File).Path(file), data, d.job.Setup.Protractor)
	return err
}
