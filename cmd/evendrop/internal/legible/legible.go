// Package legible keeps text from outside, such as names and arguments, from steering
// the terminal that it is shown on.
package legible

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// steers tells whether a character does something to a terminal rather than stand on
// it: a control character, or one that ends a line or turns the direction of the
// writing round (Bidi_Control of the Unicode Character Database).
func steers(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Bidi_Control, unicode.Zl, unicode.Zp)
}

// Text is text with what steers a terminal, and what is no text in UTF-8, as escapes
// such as \u001b, which mean the same within JSON; ends of lines and tabs stay.
func Text(text string) string {
	return escaped(text, func(r rune) bool { return steers(r) && r != '\n' && r != '\t' })
}

// Line is Text of one line: a blank for what ends a line, and for a tab.
func Line(text string) string {
	return escaped(strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\t", " ").Replace(text), steers)
}

func escaped(text string, refused func(rune) bool) string {
	if utf8.ValidString(text) && !strings.ContainsFunc(text, refused) {
		return text
	}
	var out strings.Builder
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRuneInString(text[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			out.WriteRune(utf8.RuneError)
		case refused(r):
			fmt.Fprintf(&out, `\u%04x`, r)
		default:
			out.WriteString(text[at : at+size])
		}
		at += size
	}
	return out.String()
}

// Writer passes on what is written to it as Text. Each call must end with a whole
// character.
func Writer(to io.Writer) io.Writer { return writer{to} }

type writer struct{ to io.Writer }

func (w writer) Write(p []byte) (int, error) {
	if _, err := io.WriteString(w.to, Text(string(p))); err != nil {
		return 0, err
	}
	return len(p), nil
}
