package job

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/toml"
)

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
	data, err := d.open(file)
	if err != nil {
		return v.Wrong("%w", err)
	}
	*into, err = sheet.ReadStops(disk.FolderOf(d.job.File).Path(file), data, d.job.Setup.Protractor)
	return err
}
