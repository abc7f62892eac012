package main

import (
	"fmt"
	"html"
	"strings"
	"unicode/utf16"
)

// wide is data as text for a page whose characters are bytes (windows-1252, of which every
// byte is a character; Encoding Standard, from memory), some two in a hundred longer than
// the data. What a page may lose or change, what a script's element ends with, and the sign
// for it are told by the sign and another byte.
func wide(data []byte) string {
	const sign, turned = '=', 0x40
	out := make([]byte, 0, len(data)+len(data)/32)
	for _, b := range data {
		switch b {
		case 0, '\r', '<', sign:
			out = append(out, sign, b^turned)
		default:
			out = append(out, b)
		}
	}
	return string(out)
}

// A page whose characters are bytes has other letters than those of ASCII written out.

// plainScript is a script with them as \u and four digits.
func plainScript(text string) string {
	return plain(text, func(r rune) string {
		var out strings.Builder
		for _, unit := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&out, `\u%04x`, unit)
		}
		return out.String()
	})
}

// plainStyle is a style sheet with them as \, digits and a blank.
func plainStyle(text string) string {
	return plain(text, func(r rune) string { return fmt.Sprintf(`\%x `, r) })
}

// plainHTML is elements with them as numbers.
func plainHTML(text string) string {
	return plain(text, func(r rune) string { return fmt.Sprintf("&#%d;", r) })
}

func plain(text string, write func(rune) string) string {
	var out strings.Builder
	for _, r := range text {
		if r < 0x80 {
			out.WriteRune(r)
		} else {
			out.WriteString(write(r))
		}
	}
	return out.String()
}

// escaped is text in an attribute.
func escaped(text string) string { return plainHTML(html.EscapeString(text)) }
