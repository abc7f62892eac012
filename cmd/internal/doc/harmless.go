package doc

import (
	"strings"
	"unicode"
)

// Harmless is text with nothing in it that moves a cursor, rings a bell or turns the
// direction of writing round: such characters become blanks, and marks of direction
// go. Letters of every script stay as they are.
func Harmless(text string) string {
	out := make([]rune, 0, len(text))
	for _, r := range text {
		switch {
		case unicode.Is(unicode.Bidi_Control, r):
		case unicode.IsControl(r):
			out = append(out, ' ')
		default:
			out = append(out, r)
		}
	}
	return string(out)
}

// HarmlessLines is lines of text, each harmless.
func HarmlessLines(text string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = Harmless(line)
	}
	return strings.Join(lines, "\n")
}
