package toml

import (
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"evendrop/tdc/names"
)

// The longest name and the longest text, in characters; a name stands in every sentence
// on what it names.
const (
	longestName = 200
	longestText = 1_000
)

// Text takes a text of one line.
func Text(into *string) func(Value) error {
	return func(v Value) error {
		if v.Kind != TextKind {
			return v.Wrong(`expected a text in quotes, as in "text"`)
		}
		switch {
		case strings.ContainsFunc(v.Text, unicode.IsControl):
			return v.Wrong("expected one line of text, without control characters")
		case utf8.RuneCountInString(v.Text) > longestText:
			return v.Wrong("expected a text of at most %d characters", longestText)
		}
		*into = strings.TrimSpace(v.Text)
		return nil
	}
}

// Date takes a calendar date of ISO 8601, bare as TOML has it or as a text; an empty
// text is none.
func Date(into *string) func(Value) error {
	return func(v Value) error {
		day := strings.TrimSpace(v.Text)
		_, err := time.Parse(time.DateOnly, day)
		if err == nil && (v.Kind == dateKind || v.Kind == TextKind) || v.Kind == TextKind && day == "" {
			*into = day
			return nil
		}
		return v.Wrong("expected a day of the calendar as year-month-day, such as 2026-11-25")
	}
}

// Name takes a text that is not empty.
func Name(into *string) func(Value) error {
	return func(v Value) error {
		if err := Text(into)(v); err != nil {
			return err
		}
		if *into == "" {
			return v.Wrong("expected a name")
		}
		if utf8.RuneCountInString(*into) > longestName {
			return v.Wrong("expected a name of at most %d characters", longestName)
		}
		return nil
	}
}

// OneOf takes one of a few words, as names reads them.
func OneOf[S ~string](into *S, words ...S) func(Value) error {
	return func(v Value) error {
		text := v.Text
		if v.Kind != TextKind {
			text = "" // which is none of them
		}
		word, err := names.Read(text, words)
		if err != nil {
			return v.Wrong("%w", err)
		}
		*into = word
		return nil
	}
}

// Either takes one of two words, each with its meaning.
func Either[T any](into *T, word string, meaning T, otherWord string, otherMeaning T) func(Value) error {
	return func(v Value) error {
		var found string
		if err := OneOf(&found, word, otherWord)(v); err != nil {
			return err
		}
		*into = meaning
		if found == otherWord {
			*into = otherMeaning
		}
		return nil
	}
}

// Truth takes true or false.
func Truth(into *bool) func(Value) error {
	return func(v Value) error {
		if v.Kind != truthKind {
			return v.Wrong("expected true or false, without quotes")
		}
		*into = v.Text == "true"
		return nil
	}
}

// Whole takes a whole number.
func Whole(into *int, least, most int) func(Value) error {
	return func(v Value) error {
		n, err := strconv.Atoi(strings.ReplaceAll(v.Text, "_", ""))
		if v.Kind != numberKind || err != nil || n < least || n > most {
			return v.Wrong("expected a whole number from %d to %d", least, most)
		}
		*into = n
		return nil
	}
}

// That takes a number that holds; expected says which do.
func That(into *float64, expected string, holds func(x float64) bool) func(Value) error {
	return func(v Value) error {
		x, ok := v.Number()
		if !ok || !holds(x) {
			return v.Wrong("%s", expected)
		}
		*into = x
		return nil
	}
}

// Fraction takes a number from 0 up to but not including 1.
func Fraction(into *float64) func(Value) error {
	return That(into, "expected a fraction such as 0.07", func(x float64) bool { return x >= 0 && x < 1 })
}

// Number is the value as a finite number in plain decimals.
func (v Value) Number() (float64, bool) {
	if v.Kind != numberKind {
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(v.Text, "_", ""), 64)
	return x, err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}

// Each takes every item of a list. What is no list, or an empty one, is a fault that says
// expected; what take refuses is returned.
func (v Value) Each(expected string, take func(Value) error) error {
	if v.Kind != ListKind || len(v.Items) == 0 {
		return v.Wrong("%s", expected)
	}
	for _, item := range v.Items {
		if err := take(item); err != nil {
			return err
		}
	}
	return nil
}

// NewName takes a mark's or a lobe's name that no other has; it is told from the others by
// it.
func NewName(into *string, taken func(name string) bool) func(Value) error {
	return func(v Value) error {
		if err := Name(into)(v); err != nil {
			return err
		}
		if taken(*into) {
			return v.Wrong("another mark has this name: expected a name of its own")
		}
		return nil
	}
}
