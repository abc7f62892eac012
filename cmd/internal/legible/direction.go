package legible

import (
	"strings"
	"unicode"
)

// The marks of the Unicode Bidirectional Algorithm that keep a name's direction of
// writing to itself.
const (
	firstStrong = "\u2068"
	popped      = "\u2069"
)

// Isolated is a name between a first-strong isolate and its end, for a writer that
// sets text in both directions.
func Isolated(name string) string {
	if name == "" {
		return ""
	}
	return firstStrong + Undirected(name) + popped
}

// Undirected is a Line without what turns the direction of the writing round.
func Undirected(text string) string {
	return Line(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, text))
}

// Directed is a Line in which names that Isolated set apart stay so. Isolates that
// do not pair are shown as Line shows them.
func Directed(text string) string {
	if !paired(text) {
		return Line(text)
	}
	var out strings.Builder
	for text != "" {
		at := strings.IndexAny(text, firstStrong+popped)
		if at < 0 {
			at = len(text)
		}
		out.WriteString(Line(text[:at]))
		if text = text[at:]; text != "" {
			out.WriteString(text[:len(popped)])
			text = text[len(popped):]
		}
	}
	return out.String()
}

// paired tells whether every isolate is ended, and none that was not begun.
func paired(text string) bool {
	open := 0
	for _, r := range text {
		switch string(r) {
		case firstStrong:
			open++
		case popped:
			open--
		}
		if open < 0 {
			return false
		}
	}
	return open == 0
}
