package draw

import (
	"strings"
	"unicode"
)

// Clean is text fit for a picture or a line of a terminal: no control
// characters, and none that turn the direction of the writing round.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == unicode.ReplacementChar:
			return -1
		}
		return r
	}, text)
}

// emWidth is about how wide a character is, in parts of the font's size; a
// little more than most sans-serif fonts need.
func emWidth(r rune) float64 {
	switch {
	case unicode.Is(unicode.Mn, r), r == '\u200d', r >= 0xfe00 && r <= 0xfe0f:
		return 0 // accents, joiners, variants: part of the character before
	case r >= 0x1100 && (r < 0x2000 || r >= 0x2e80):
		return 1.1 // East Asian writing and emoji
	case strings.ContainsRune("ijlt.,;:'|! ()[]-", r):
		return 0.36
	case strings.ContainsRune("mwMW@%", r):
		return 0.95
	case unicode.IsUpper(r):
		return 0.72
	}
	return 0.6
}

// TextWidth is about how wide text is at a font size.
func TextWidth(text string, size float64) float64 {
	var width float64
	for _, r := range text {
		width += emWidth(r) * size
	}
	return width
}

// Shortened is text cut to a width, with three dots where it was cut.
func Shortened(text string, width, size float64) string {
	if TextWidth(text, size) <= width {
		return text
	}
	const dots = "…"
	room := width - TextWidth(dots, size)
	for i, r := range text {
		if room -= emWidth(r) * size; room < 0 {
			return strings.TrimRight(text[:i], " \u200d") + dots
		}
	}
	return text
}

// Wrapped is text in lines of at most a width; a longer word is shortened. What
// does not fit in the number of lines ends in three dots.
func Wrapped(text string, width, size float64, most int) []string {
	var lines []string
	line := ""
	words := strings.Fields(text)
	for i, word := range words {
		switch {
		case line == "":
			line = word
		case TextWidth(line+" "+word, size) <= width:
			line += " " + word
		case len(lines) == most-1:
			rest := line + " " + strings.Join(words[i:], " ")
			return append(lines, Shortened(rest, width, size))
		default:
			lines = append(lines, Shortened(line, width, size))
			line = word
		}
	}
	return append(lines, Shortened(line, width, size))
}

// Pretty is a number with a minus sign as wide as a plus.
func Pretty(number string) string { return strings.Replace(number, "-", "\u2212", 1) }
