package flags

import (
	"errors"

	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/job/measure"
)

// Least is what a length must be.
type Least int

// Lengths may be of any sign, from zero up, or above zero.
const (
	AnySign Least = iota
	FromZero
	AboveZero
)

// smallest is a thousandth of anything that is measured.
const smallest = 1e-6 * geometry.Millimetre

// Unit adds the flag of the unit that lengths without one are in.
func (s *Set) Unit() *string {
	return s.Choice("unit", "mm", "of every length that has no unit of its own", "mm", "in")
}

// Length adds a flag of a length. It is read once all flags are there, since a bare
// number is in the unit that another may say. Nothing is a length that is not known.
func (s *Set) Length(unit *string, name string, least Least, help string) *geometry.Length {
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
func (s *Set) Lengths(unit *string, name, kind string, least Least, help string, split func(text string) ([]string, error)) *[]geometry.Length {
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

func (s *Set) length(name, text, unit string, least Least) (geometry.Length, error) {
	length, err := measure.ParseLength(text, unit)
	switch {
	case err != nil, least == FromZero && length < 0:
		err = errors.New("expected a length such as 81.4")
	case least == AboveZero && length < smallest:
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
		return s.length(name, *text, unit, AboveZero)
	}
}
