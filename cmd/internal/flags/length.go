package flags

import (
	"errors"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/job/measure"
)

// smallest is a thousandth of anything that is measured.
const smallest = 1e-6 * geometry.Millimetre

// Unit adds the flag of the unit that lengths without one are in.
func (s *Set) Unit() *string {
	return s.Choice("unit", "mm", "of every length that has no unit of its own", "mm", "in")
}

// Length adds a flag of a length. It is read once all flags are there, since a bare
// number is in the unit that another may say. Nothing is a length that is not known.
func (s *Set) Length(unit *string, name string, least measure.Bound, help string) *geometry.Length {
	length, text := new(geometry.Length), ""
	s.add(name, "MM", help, func(typed string) error { text = typed; return nil })
	s.later = append(s.later, func() (err error) {
		*length, err = 0, nil
		if text != "" {
			*length, err = s.length(name, text, *unit, least)
		}
		return err
	})
	return length
}

// Lengths adds a flag of several lengths, which split takes apart.
func (s *Set) Lengths(unit *string, name, kind string, least measure.Bound, help string, split func(text string) ([]string, error)) *[]geometry.Length {
	lengths, texts := new([]geometry.Length), []string{}
	List(s, &texts, name, kind, help, split)
	s.later = append(s.later, func() error {
		*lengths = nil
		for _, text := range texts {
			length, err := s.length(name, text, *unit, least)
			if err != nil {
				return err
			}
			*lengths = append(*lengths, length)
		}
		return nil
	})
	return lengths
}

func (s *Set) length(name, text, unit string, least measure.Bound) (geometry.Length, error) {
	length, err := measure.ParseLength(text, unit)
	switch {
	case err != nil, least == measure.FromZero && length < 0:
		err = errors.New("expected a length such as 81.4")
	case least == measure.AboveZero && length < smallest:
		err = errors.New("expected a length above zero, such as 81.4")
	}
	if err != nil {
		return 0, usage.Errorf("--%s %s: %v", name, text, err)
	}
	return length, nil
}

// JobLength adds a flag of a length above zero whose bare number is in the unit of a job
// that is yet to be opened; 0 where the flag was not given.
func (s *Set) JobLength(name, help string) func(unit string) (geometry.Length, error) {
	text := s.Text(name, "MM", help)
	return func(unit string) (geometry.Length, error) {
		if *text == "" {
			return 0, nil
		}
		return s.length(name, *text, unit, measure.AboveZero)
	}
}

// value is a flag that reads itself into a variable.
type value struct {
	kind, text string
	read       func(text string) error
}

func (v *value) String() string { return v.text }

// Type is what stands behind the flag in the usage text, such as MM.
func (v *value) Type() string { return v.kind }

func (v *value) Set(text string) error {
	if err := v.read(text); err != nil {
		return err
	}
	v.text = text
	return nil
}

func (s *Set) add(name, kind, help string, read func(text string) error) *pflag.Flag {
	flag := s.flags.VarPF(&value{kind: kind, read: read}, name, "", help)
	s.lines = append(s.lines, line{flag: flag})
	return flag
}

// Var adds a flag that is read into a variable, which holds what is taken without it.
// An error of read says what is expected instead.
func Var[T any](s *Set, into *T, name, kind, help string, read func(text string) (T, error)) {
	s.add(name, kind, help, func(text string) error {
		value, err := read(text)
		if err == nil {
			*into = value
		}
		return err
	})
}

// AnyText reads any text. It never errs.
func AnyText[S ~string](text string) (S, error) { return S(text), nil }

// One reads any text as one of a List. It never errs.
func One(text string) ([]string, error) { return []string{text}, nil }

// List adds a flag that may be given again and again, each time for some more values.
func List[T any](s *Set, into *[]T, name, kind, help string, read func(text string) ([]T, error)) {
	s.add(name, kind, help, func(text string) error {
		values, err := read(text)
		*into = append(*into, values...)
		return err
	})
}
