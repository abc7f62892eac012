package flags

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/names"
)

// Bool adds a flag that is there or not.
func (s *Set) Bool(name, help string) *bool {
	on := new(bool)
	flag := s.add(name, "", help, func(text string) (err error) {
		if *on, err = strconv.ParseBool(text); err != nil {
			err = errors.New("expected nothing after it, or =true or =false")
		}
		return err
	})
	flag.NoOptDefVal = "true"
	return on
}

// Text adds a flag of any text.
func (s *Set) Text(name, kind, help string) *string {
	text := new(string)
	Var(s, text, name, kind, help, AnyText)
	return text
}

// Choice adds a flag of a few words, as names reads them, one of which is usual; "" where
// none is. Many are listed in its help.
func (s *Set) Choice(name, usual, help string, choices ...string) *string {
	word := strings.Join(choices, "|")
	if len(word) > mostWord {
		word, help = "NAME", help+": "+strings.Join(choices, ", ")
	}
	Var(s, &usual, name, word, help, func(text string) (string, error) {
		word, err := names.Read(text, choices)
		if unknown, is := errors.AsType[*names.Unknown](err); is {
			return "", errors.New(unknown.Bare())
		}
		return word, nil
	})
	return &usual
}

// mostWord is how many letters of choices stand behind a flag's name in a line of the usage
// text.
const mostWord = 60

// Formats are the forms that an answer can be printed in.
var Formats = []string{"text", "markdown", "json", "csv"}

// As adds the flag of the form of an answer.
func (s *Set) As() *string { return s.Choice("as", "text", "", Formats...) }

// Many is more than anybody asks for.
const Many = math.MaxInt32

// Whole adds a flag of a whole number between two, such as a third.
func Whole[T int | uint64](s *Set, name string, usual, least, most T, suchAs, help string) *T {
	Var(s, &usual, name, "N", help, func(text string) (T, error) {
		n, err := strconv.ParseUint(text, 10, 64)
		if err != nil || n < uint64(least) || n > uint64(most) {
			return 0, fmt.Errorf("expected a whole number from %d %s, such as %s", least, upTo(uint64(most)), suchAs)
		}
		return T(n), nil
	})
	return &usual
}

func upTo(most uint64) string {
	if most == Many {
		return "up"
	}
	return fmt.Sprintf("to %d", most)
}

// Number adds a flag of a number that makes sense; expected says what does.
func (s *Set) Number(name, kind string, makesSense func(x float64) bool, expected, help string) *float64 {
	x := new(float64)
	Var(s, x, name, kind, help, func(text string) (float64, error) { return ParseNumber(text, makesSense, expected) })
	return x
}

// ParseNumber reads a number that makes sense; expected says what does. Anything else is an
// error that says so.
func ParseNumber(text string, makesSense func(x float64) bool, expected string) (float64, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !makesSense(x) {
		return 0, errors.New("expected " + expected)
	}
	return x, nil
}

// Angle adds a flag of degrees, zero or more, read into what is taken without it.
func (s *Set) Angle(into *geometry.Angle, name, help string) {
	Var(s, into, name, "DEG", help, func(text string) (geometry.Angle, error) {
		written, err := measure.ParseAngle(text)
		if err != nil || written.Side != evidence.NoSide || written.Angle < 0 {
			return 0, errors.New("expected degrees such as 0.5")
		}
		return written.Angle, nil
	})
}

// File is a kind of file that a command writes.
type File struct {
	plural, of string // such as "pictures are SVG"
	ends       []string
	instead    string // of what a name of another kind promised
}

// The files beside an answer.
var (
	Page    = File{"pages", "HTML", []string{".html", ".htm"}, ", and print it to PDF from a browser"}
	Picture = File{"pictures", "SVG", []string{".svg"}, ""}
)

// File adds a flag that names a file to write.
func (s *Set) File(name string, kind File, help string) *string {
	file := new(string)
	Var(s, file, name, "FILE"+kind.ends[0], help, func(text string) (string, error) { return text, kind.check(text) })
	return file
}

// check refuses a name that ends as one of another kind does.
func (k File) check(file string) error {
	end := filepath.Ext(file)
	if !slices.Contains(known, strings.ToLower(end)) || slices.Contains(k.ends, strings.ToLower(end)) {
		return nil
	}
	return fmt.Errorf("%s are %s: name it %s%s%s", k.plural, k.of, strings.TrimSuffix(file, end), k.ends[0], k.instead)
}

// known are ends of names that promise a kind of file.
var known = []string{".png", ".jpg", ".jpeg", ".gif", ".pdf", ".txt", ".csv", ".toml", ".json", ".md", ".svg", ".html", ".htm"}
