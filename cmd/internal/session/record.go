package session

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"evendrop/cmd/internal/interview"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/names"
)

var (
	errSheet = errors.New("sheet goes with what it is to say: type for example sheet customer J. Smith; vehicle AB12 CDE")
	errPhoto = errors.New("photo goes with a file in the job's folder and what it shows: type for example photo pin.jpg the pin against the edge of its hole")
)

// sheet takes what the customer's sheet is to say, or asks for all of it.
func (s *Session) sheet(rest string) (do func() error, err error) {
	f := &sheetForm{sheet: s.Job.Sheet}
	if rest == "" && s.Patient {
		f.left = interview.SheetFields
	} else if err := f.line(rest); err != nil {
		return nil, err
	}
	return func() error {
		return s.ask(&questions{asking: f, of: "sheet", then: func() error { return s.keepSheet(f.sheet) }})
	}, nil
}

// sheetForm is a sheet as far as it was said.
type sheetForm struct {
	sheet record.Sheet
	left  []interview.SheetField // still to be asked
}

// line takes what stands in one line, with semicolons between.
func (f *sheetForm) line(rest string) error {
	for part := range strings.SplitSeq(rest, ";") {
		word, text, _ := strings.Cut(strings.Replace(strings.TrimSpace(part), "=", " ", 1), " ")
		text = unquoted(text)
		if word == "" || text == "" {
			return errSheet
		}
		key, err := names.Read(strings.TrimSuffix(word, ":"), record.Keys)
		if err != nil {
			return fmt.Errorf("%q is not on a sheet: %w", word, err)
		}
		if text == nobody {
			text = ""
		}
		if f.sheet, err = interview.TakeSheet(f.sheet, key, text); err != nil {
			return err
		}
	}
	return nil
}

// nobody takes out what a sheet said.
const nobody = "none"

// unquoted is a text without the blanks and the quotes around it.
func unquoted(text string) string {
	text = strings.TrimSpace(text)
	if inner, is := strings.CutPrefix(text, `"`); is && strings.HasSuffix(inner, `"`) {
		return strings.TrimSpace(strings.TrimSuffix(inner, `"`))
	}
	return text
}

// Question asks for the next of it; Enter leaves it as it is.
func (f *sheetForm) Question() (text, standard string, done bool) {
	if len(f.left) == 0 {
		return "", "", true
	}
	if standard = *f.sheet.At(f.left[0].Key); standard == "" {
		standard = nobody
	}
	return f.left[0].Asks, standard, false
}

// Take takes the next of it.
func (f *sheetForm) Take(answer string) (err error) {
	key := f.left[0].Key
	switch answer = unquoted(answer); answer {
	case "":
		answer = *f.sheet.At(key)
	case nobody:
		answer = ""
	}
	if f.sheet, err = interview.TakeSheet(f.sheet, key, answer); err == nil {
		f.left = f.left[1:]
	}
	return err
}

// keepSheet writes what is new of a sheet into the job file.
func (s *Session) keepSheet(sheet record.Sheet) error {
	d := &sheetKept{session: s, before: s.Job.Sheet, after: sheet}
	if d.before == d.after {
		s.tell("Nothing of the sheet was changed.")
		return nil
	}
	if err := d.redo(); err != nil {
		return err
	}
	s.did(d)
	s.answer(s.state.Block([]string{"Kept: " + d.words() + "."}))
	return nil
}

// sheetKept is a sheet that was written; a deed.
type sheetKept struct {
	session       *Session
	before, after record.Sheet
}

func (d *sheetKept) words() string {
	var list []string
	for _, key := range record.Keys {
		if after := *d.after.At(key); after != *d.before.At(key) {
			if after == "" {
				after = nobody
			}
			list = append(list, key+" "+after)
		}
	}
	return "for the sheet, " + strings.Join(list, "; ")
}

func (d *sheetKept) undo() error { return d.session.amend(amend.Sheet(changed(d.after, d.before)...)) }
func (d *sheetKept) redo() error { return d.session.amend(amend.Sheet(changed(d.before, d.after)...)) }

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

// pictureName is the beginning of a line that is a file's name, blanks in it.
var pictureName = regexp.MustCompile(`(?i)^[^"]*?\.(jpe?g|png|hei[cf]|webp|gif|tiff?|bmp|avif|dng)\b`)

// photoLine parts a photo's file from what it shows.
func photoLine(rest string) (file, shows string) {
	rest = strings.TrimSpace(rest)
	if inner, is := strings.CutPrefix(rest, `"`); is {
		file, shows, _ = strings.Cut(inner, `"`)
	} else if file = pictureName.FindString(rest); file != "" {
		shows = rest[len(file):]
	} else {
		file, shows, _ = strings.Cut(rest, " ")
	}
	shows = strings.TrimSpace(shows)
	if more, is := strings.CutPrefix(shows, "shows "); is {
		shows = strings.TrimPrefix(strings.TrimSpace(more), "=")
	}
	return strings.TrimSpace(file), unquoted(shows)
}

// photo takes a photo that is in the job's folder.
func (s *Session) photo(rest string) (do func() error, err error) {
	file, shows := photoLine(rest)
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
	d := &table{session: s, kind: "photo", key: "file", name: p.File, text: w.Bytes()}
	if err := d.redo(); err != nil {
		return err
	}
	s.did(d)
	what := fmt.Sprintf("Kept: photo %s, %d by %d pixels", p.File, p.Width, p.Height)
	if p.Shows != "" {
		what += ": " + p.Shows
	}
	s.answer(s.state.Block([]string{what + "."}))
	return nil
}
