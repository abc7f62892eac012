package session

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/toml"
)

var errPhoto = errors.New("photo goes with a file in the job's folder and what it shows: type for example photo pin.jpg the pin against the edge of its hole")

// sheet takes what the customer's sheet is to say, or asks for all of it.
func (s *Session) sheet(rest string) (do func() error, err error) {
	f, err := typed.NewSheet(s.Job.Sheet, rest, s.Patient)
	return func() error {
		return s.ask(&questions{asking: f, of: "sheet", then: func() error { return s.keepSheet(f.Sheet) }})
	}, err
}

// keepSheet writes what is new of a sheet into the job file.
func (s *Session) keepSheet(sheet record.Sheet) error {
	before := s.Job.Sheet
	keys := changed(before, sheet)
	if len(keys) == 0 {
		s.tell("Nothing of the sheet was changed.")
		return nil
	}
	var list []string
	for _, k := range keys {
		list = append(list, k.Name+" "+cmp.Or(*sheet.At(k.Name), typed.Nobody))
	}
	d := &amended{s, "for the sheet, " + strings.Join(list, "; "), amend.Sheet(keys...), amend.Sheet(changed(sheet, before)...)}
	return s.keep(d, d.what+".")
}

// changed is the keys in which a sheet differs from another, as they are to be.
func changed(from, to record.Sheet) (keys []amend.Key) {
	for _, key := range record.Keys {
		value := *to.At(key)
		if value == *from.At(key) {
			continue
		}
		k := amend.Key{Name: key}
		if value != "" {
			k.Value = toml.Quote(value)
		}
		keys = append(keys, k)
	}
	return keys
}

// photo takes a photo that is in the job's folder.
func (s *Session) photo(rest string) (do func() error, err error) {
	file, shows := typed.Photo(rest)
	if file == "" {
		return nil, errPhoto
	}
	switch there := s.Job.Photos; {
	case slices.ContainsFunc(there, func(p record.Photo) bool { return p.File == file }):
		return nil, fmt.Errorf("the job has the photo %s already: change what it shows in the job file", file)
	case len(there) == record.Most:
		return nil, fmt.Errorf("the job has %d photos, and no sheet has room for more: take one out of the job file first", record.Most)
	}
	picture, err := s.Files.Photo(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	return func() error { return s.keepPhoto(record.Photo{File: file, Shows: shows, Picture: picture}) }, nil
}

// keepPhoto names a photo in the job file.
func (s *Session) keepPhoto(p record.Photo) error {
	var w toml.Writer
	w.Next("photo")
	w.Key("file", toml.Quote(p.File), "")
	if p.Shows != "" {
		w.Key("shows", toml.Quote(p.Shows), "")
	}
	what := fmt.Sprintf("photo %s, %d by %d pixels", p.File, p.Width, p.Height)
	if p.Shows != "" {
		what += ": " + p.Shows
	}
	return s.keep(s.table("photo", "file", p.File, w.Bytes()), what+".")
}
