package toml

import (
	"strings"
	"unicode/utf8"

	"evendrop/tdc/job/source"
)

// syntaxWords says in the user's words what the parser says in its own; the
// first that the parser's message contains holds.
var syntaxWords = []struct{ parser, problem string }{
	{"strings must be quoted", `a text must stand in quotes, as in "12 BTDC"`},
	{"expected keyword", `a text must stand in quotes, as in "dial"`},
	{`expected "`, `a text must stand in quotes, as in "dial"`},
	{"start of value", `expected a number, or a text in quotes`},
	{"expected value, not end", "expected a value after the = sign, as in stroke = 81.4"},
	{"expected value but got", "a comma too many: expected a value before it"},
	{"expected '='", "expected a key, an = sign and a value, as in stroke = 81.4"},
	{"start of key", "expected a key, an = sign and a value, as in stroke = 81.4"},
	{"expected key", "expected a name"},
	{"leading zeroes", "a number may not begin with a 0: leave it out"},
	{"decimal point must", "a digit must follow the decimal point, as in 81.0"},
	{"expected digit", "expected a number such as 81.4"},
	{"expected number", "expected a number such as 81.4"},
	{"unterminated", "a quote is opened and not closed"},
	{"not terminated", "three quotes are opened and not closed"},
	{"cannot have new lines", "a quote is opened and not closed on its line"},
	{"escape", `a backslash in "..." begins an escape: write two, or put the text in '...'`},
	{"hexadecimal digit", `a backslash in "..." begins an escape: write two, or put the text in '...'`},
	{"array is incomplete", "the list is not closed: expected ]"},
	{"after array value", "expected a comma or ] after the list's value"},
	{"inline table is incomplete", "the { is not closed: expected }"},
	{"inline table key-value", "expected a comma or } after the value"},
	{"comma in inline table", "a comma too many"},
	{"close table name", "expected ] to close the table's name, as in [engine]"},
	{"close array table name", "expected ]] to close the table's name, as in [[cylinder]]"},
	{"nested", "too many brackets in brackets"},
	{"expected newline", "expected the end of the line: one key = value a line"},
}

// syntaxFault is the fault of what is not valid TOML.
func syntaxFault(data []byte, at int, message string) error {
	at = min(at, len(data))
	for at < len(data) && !utf8.RuneStart(data[at]) {
		at-- // the parser points at the last byte of a file that ends too early
	}
	next, _ := utf8.DecodeRune(data[at:])
	switch {
	case next == ',' && strings.Contains(message, "expected newline"):
		return source.Faultf(at, "expected a decimal point, not a comma, as in 81.4")
	case next == ']' && strings.Contains(message, "start of key"):
		return source.Faultf(at, "expected a table's name between the brackets, as in [engine]")
	case next == '.' && strings.Contains(message, "start of value"):
		return source.Faultf(at, "a digit must stand before the decimal point, as in 0.5")
	case (next == '\n' || next == '\r' || next == '#') && strings.Contains(message, "start of value"):
		return source.Faultf(at, "expected a value after the = sign, as in stroke = 81.4")
	}
	for _, w := range syntaxWords {
		if strings.Contains(message, w.parser) {
			return source.Faultf(at, "%s", w.problem)
		}
	}
	return source.Faultf(at, "is not valid TOML: %s", message)
}
