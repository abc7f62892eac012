package job

import (
	"slices"

	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/toml"
)

var photoLimit = disk.Limit{Bytes: record.MostBytes, Says: record.TooLarge}

// sheetTable reads [sheet]. Its date and the job's are one: where either is written it is
// both, and two that differ are refused. The customer's sheet and the known-good file of one
// job would else be of two days, and so is a copied job in which one was changed.
func (d *decoder) sheetTable(t *toml.Table) error {
	s := &d.job.Sheet
	return t.Read(
		toml.Key("shop", toml.Text(&s.Shop)),
		toml.Key("customer", toml.Text(&s.Customer)),
		toml.Key("vehicle", toml.Text(&s.Vehicle)),
		toml.Key("odometer", asWritten(&s.Odometer)),
		toml.Key("order", asWritten(&s.Order)),
		toml.Key("by", toml.Text(&s.By)),
		toml.Key("date", d.sameDate),
	)
}

// asWritten takes a text, or a number as it is written.
func asWritten(into *string) func(toml.Value) error {
	return func(v toml.Value) error {
		if _, is := v.Number(); is {
			v.Kind = toml.TextKind
		}
		return toml.Text(into)(v)
	}
}

// sameDate takes the date of the sheet, which is the job's where that has one.
func (d *decoder) sameDate(v toml.Value) error {
	var date string
	switch err := toml.Date(&date)(v); {
	case err != nil:
		return err
	case date == "":
		return nil
	case d.job.Date != "" && d.job.Date != date:
		return v.Wrong("the job has date = %q at its top: expected the same day, or leave out one of the two", d.job.Date)
	}
	d.job.Date = date
	return nil
}

// photo reads a [[photo]] and its file.
func (d *decoder) photo(t *toml.Table) error {
	if len(d.job.Photos) == record.Most {
		return t.Wrong("more than %d photos: leave out those that show the least", record.Most)
	}
	var p record.Photo
	err := t.Read(
		toml.Key("file", d.picture(&p)),
		toml.Key("shows", toml.Text(&p.Shows)),
	)
	if err == nil {
		err = t.Needs(`file = "pin.jpg"`)
	}
	if err != nil {
		return err
	}
	d.job.Photos = append(d.job.Photos, p)
	return nil
}

// picture takes the name of a photo's file, which no other has, and reads it.
func (d *decoder) picture(p *record.Photo) func(toml.Value) error {
	return func(v toml.Value) error {
		if err := toml.Name(&p.File)(v); err != nil {
			return err
		}
		if slices.ContainsFunc(d.job.Photos, func(other record.Photo) bool { return other.File == p.File }) {
			return v.Wrong("another photo has this file: leave out one of the two")
		}
		if d.files.photo == nil {
			return nil
		}
		var err error
		if p.Picture, err = picture(d.files.photo, p.File); err != nil {
			return v.Wrong("%w", err)
		}
		return nil
	}
}

func picture(read func(name string) ([]byte, error), name string) (record.Picture, error) {
	data, err := read(name)
	if err != nil {
		return record.Picture{}, err
	}
	return record.Read(data)
}

// Picture is a picture in the folder of a job file, as the job would have it. An error says
// in words what is wrong with it, to stand behind its name.
func Picture(path, name string) (record.Picture, error) {
	return picture(allOf(disk.FolderOf(path)).photo, name)
}
