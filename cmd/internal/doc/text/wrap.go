package text

import (
	"strings"
	"unicode/utf8"

	"evendrop/cmd/internal/legible"
)

// Wrap breaks text into lines no longer than width, those after the first begun
// with indent; a longer word stands alone.
func Wrap(text, indent string, width int) string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(legible.Line(text)) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width:
			lines = append(lines, line)
			line = indent + word
		default:
			line += " " + word
		}
	}
	return strings.Join(append(lines, line), "\n")
}

// broken is text with a blank in every word that is longer than width.
func broken(text string, width int) string {
	var out strings.Builder
	run := 0
	for _, r := range text {
		if run++; r == ' ' {
			run = 0
		} else if run > width {
			out.WriteByte(' ')
			run = 1
		}
		out.WriteRune(r)
	}
	return out.String()
}
