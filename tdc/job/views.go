package job

import (
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
)

// views takes pairs of angles at which the crown was seen at the same place.
func (d *decoder) views(into *[]evidence.View) func(toml.Value) error {
	const example = `{ before = 351.9, after = 2.9, turn = "forward" }`
	return func(v toml.Value) error {
		return v.Each("expected a list such as ["+example+"]", func(item toml.Value) error {
			if item.Kind != toml.TableKind {
				return item.Wrong("expected %s", example)
			}
			pair := evidence.View{Turn: evidence.Forward}
			err := item.Table.Read(
				toml.Key("before", d.protractor(&pair.Before)),
				toml.Key("after", d.protractor(&pair.After)),
				toml.Key("turn", toml.Either(&pair.Turn, "forward", evidence.Forward, "backward", evidence.Backward)),
			)
			switch {
			case err != nil:
				return err
			case !item.Table.Has("before"):
				return item.Table.Missing("before", example)
			case !item.Table.Has("after"):
				return item.Table.Missing("after", example)
			}
			*into = append(*into, pair)
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
		return v.Wrong("%v", err)
	}
	path := disk.FolderOf(d.job.File).Path(file)
	if data, err = source.PlainText(path, source.Newlines(data)); err != nil {
		return err
	}
	*into, err = sheet.ReadStops(sheet.NewSheet(path, data), d.job.Setup.Protractor)
	return err
}
