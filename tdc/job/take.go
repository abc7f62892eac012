package job

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// The longest name and the longest text, in characters; a name stands in every sentence
// on what it names.
const (
	longestName = 200
	longestText = 1_000
)

// text takes a text of one line.
func text(into *string) func(value) error {
	return func(v value) error {
		if v.kind != textKind {
			return v.wrong(`expected a text in quotes, as in "text"`)
		}
		switch {
		case strings.ContainsFunc(v.text, unicode.IsControl):
			return v.wrong("expected one line of text, without control characters")
		case utf8.RuneCountInString(v.text) > longestText:
			return v.wrong("expected a text of at most %d characters", longestText)
		}
		*into = strings.TrimSpace(v.text)
		return nil
	}
}

// date takes a calendar date of ISO 8601, bare as TOML has it or as a text; an empty
// text is none.
func date(into *string) func(value) error {
	return func(v value) error {
		day := strings.TrimSpace(v.text)
		_, err := time.Parse(time.DateOnly, day)
		if err == nil && (v.kind == dateKind || v.kind == textKind) || v.kind == textKind && day == "" {
			*into = day
			return nil
		}
		return v.wrong("expected a day of the calendar as year-month-day, such as 2026-11-25")
	}
}

// name takes a text that is not empty.
func name(into *string) func(value) error {
	return func(v value) error {
		if err := text(into)(v); err != nil {
			return err
		}
		if *into == "" {
			return v.wrong("expected a name")
		}
		if utf8.RuneCountInString(*into) > longestName {
			return v.wrong("expected a name of at most %d characters", longestName)
		}
		return nil
	}
}

// oneOf takes one of a few words.
func oneOf[S ~string](into *S, words ...S) func(value) error {
	return func(v value) error {
		if word := S(v.text); v.kind == textKind && slices.Contains(words, word) {
			*into = word
			return nil
		}
		quoted := make([]string, len(words))
		for i, word := range words {
			quoted[i] = strconv.Quote(string(word))
		}
		return v.wrong("expected %s", orList(quoted))
	}
}

// either takes one of two words, each with its meaning.
func either[T any](into *T, word string, meaning T, otherWord string, otherMeaning T) func(value) error {
	return func(v value) error {
		var found string
		if err := oneOf(&found, word, otherWord)(v); err != nil {
			return err
		}
		*into = meaning
		if found == otherWord {
			*into = otherMeaning
		}
		return nil
	}
}

// truth takes true or false.
func truth(into *bool) func(value) error {
	return func(v value) error {
		if v.kind != truthKind {
			return v.wrong("expected true or false, without quotes")
		}
		*into = v.text == "true"
		return nil
	}
}

// whole takes a whole number.
func whole(into *int, least, most int) func(value) error {
	return func(v value) error {
		n, err := strconv.Atoi(strings.ReplaceAll(v.text, "_", ""))
		if v.kind != numberKind || err != nil || n < least || n > most {
			return v.wrong("expected a whole number from %d to %d", least, most)
		}
		*into = n
		return nil
	}
}

// fraction takes a number from 0 up to but not including 1.
func fraction(into *float64) func(value) error {
	return func(v value) error {
		x, ok := v.number()
		if !ok || x < 0 || x >= 1 {
			return v.wrong("expected a fraction such as 0.07")
		}
		*into = x
		return nil
	}
}

// number is the value as a finite number in plain decimals.
func (v value) number() (float64, bool) {
	if v.kind != numberKind {
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(v.text, "_", ""), 64)
	return x, err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}

// each takes every item of a list.
func (v value) each(expected string, take func(value) error) error {
	if v.kind != listKind || len(v.items) == 0 {
		return v.wrong("%s", expected)
	}
	for _, item := range v.items {
		if err := take(item); err != nil {
			return err
		}
	}
	return nil
}
