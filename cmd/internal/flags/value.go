package flags

import "github.com/spf13/pflag"

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

// AnyText reads any text.
func AnyText(text string) (string, error) { return text, nil }

// One reads any text as one of a List.
func One(text string) ([]string, error) { return []string{text}, nil }

// List adds a flag that may be given again and again, each time for some more values.
func List[T any](s *Set, into *[]T, name, kind, help string, read func(text string) ([]T, error)) {
	s.add(name, kind, help, func(text string) error {
		values, err := read(text)
		*into = append(*into, values...)
		return err
	})
}
