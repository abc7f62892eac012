package typed

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"evendrop/cmd/internal/interview"
	"evendrop/tdc/job/record"
	"evendrop/tdc/names"
)

// SheetForm is a sheet as far as it was said.
type SheetForm struct {
	Sheet record.Sheet
	left  []interview.SheetField // still to be asked
}

var errSheet = errors.New("sheet goes with what it is to say: type for example sheet customer J. Smith; vehicle AB12 CDE")

// NewSheet takes what a line says of a sheet; of an empty one all of it is to be asked, where
// somebody is there. An error is of a word that is no field or has no text, and of what is
// too long for its field.
func NewSheet(sheet record.Sheet, rest string, asks bool) (*SheetForm, error) {
	f := &SheetForm{Sheet: sheet}
	if rest == "" && asks {
		f.left = interview.SheetFields
		return f, nil
	}
	return f, f.line(rest)
}

// line takes what stands in one line, with semicolons between.
func (f *SheetForm) line(rest string) error {
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
		if text == Nobody {
			text = ""
		}
		if f.Sheet, err = interview.TakeSheet(f.Sheet, key, text); err != nil {
			return err
		}
	}
	return nil
}

// Nobody takes out what a sheet said.
const Nobody = "none"

// unquoted is a text without the blanks and the quotes around it.
func unquoted(text string) string {
	text = strings.TrimSpace(text)
	if inner, is := strings.CutPrefix(text, `"`); is && strings.HasSuffix(inner, `"`) {
		return strings.TrimSpace(strings.TrimSuffix(inner, `"`))
	}
	return text
}

// Question asks for the next of it; Enter leaves it as it is.
func (f *SheetForm) Question() (text, standard string, done bool) {
	if len(f.left) == 0 {
		return "", "", true
	}
	if standard = *f.Sheet.At(f.left[0].Key); standard == "" {
		standard = Nobody
	}
	return f.left[0].Asks, standard, false
}

// Take takes the next of it. An error is of what is too long for its field, which is asked
// again.
func (f *SheetForm) Take(answer string) (err error) {
	key := f.left[0].Key
	switch answer = unquoted(answer); answer {
	case "":
		answer = *f.Sheet.At(key)
	case Nobody:
		answer = ""
	}
	if f.Sheet, err = interview.TakeSheet(f.Sheet, key, answer); err == nil {
		f.left = f.left[1:]
	}
	return err
}

// pictureName is the beginning of a line that is a file's name, blanks in it.
var pictureName = regexp.MustCompile(`(?i)^[^"]*?\.(jpe?g|png|hei[cf]|webp|gif|tiff?|bmp|avif|dng)\b`)

// Photo parts a photo's file from what it shows.
func Photo(rest string) (file, shows string) {
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
