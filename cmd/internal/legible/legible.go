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

// The longest word of a line and the longest message, in characters: room for a path
// and for what to do about it.
const (
	longestWord    = 200
	longestMessage = 1_200
)

// Line is Text of one line: a blank for what ends a line, and for a tab, and in place of
// the middle of a word that is far too long three dots.
func Line(text string) string {
	text = escaped(oneLine.Replace(text), steers)
	if len(text) <= longestWord {
		return text
	}
	words := strings.Split(text, " ")
	for i, word := range words {
		words[i] = Cut(word, longestWord)
	}
	return strings.Join(words, " ")
}

var oneLine = strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\t", " ")

// Message is a Line that begins with what is wrong and ends with what to type, cut
// between them where somebody's words are far too many.
func Message(text string) string { return Cut(Line(text), longestMessage) }

// Cut is text of at most so many characters: of a longer one the beginning and the end,
// three dots between.
func Cut(text string, most int) string {
	if len(text) <= most {
		return text
	}
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	end := most / 3
	return string(runes[:most-end-3]) + "..." + string(runes[len(runes)-end:])
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

// Plain is a line without control characters, each of which becomes a blank.
func Plain(line string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(line, " "))
}
