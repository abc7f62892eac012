package source

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"evendrop/tdc/names"
)

// Most is the largest file that is read, bytes; the longest readings file that is
// allowed takes half of it.
const Most = 1 << 20

// TooLarge is said of a larger one.
const TooLarge = "is larger than 1 MB: expected a text file somebody typed"

// PlainText is a file's data without its byte order mark, when it is text in
// UTF-8; an error says where it is not.
func PlainText(name string, data []byte) ([]byte, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	for at := 0; at < len(data); {
		r, size := utf8.DecodeRune(data[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			return nil, Locate(name, data, Faultf(at, "is not text in UTF-8 from here on: save the file as UTF-8"))
		case r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0x7f:
			return nil, Locate(name, data, Faultf(at, "a control character, code %d: take it out, or save the file as plain text in UTF-8", r))
		}
		at += size
	}
	return data, nil
}

// Newlines makes every kind of line end a newline.
func Newlines(data []byte) []byte {
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
}

// LineEnd is what a file's lines end in.
func LineEnd(data []byte) string {
	switch {
	case bytes.Contains(data, []byte("\r\n")):
		return "\r\n"
	case bytes.Contains(data, []byte("\r")) && !bytes.Contains(data, []byte("\n")):
		return "\r"
	}
	return "\n"
}

// Cut keeps the beginning of a long text.
func Cut(s string) string {
	const most = 40
	if runes := []rune(s[:min(len(s), 4*(most+1))]); len(runes) > most {
		return string(runes[:most]) + "..."
	}
	return s
}

// Quoted is a field as a message shows it.
func Quoted(field string) string { return strconv.Quote(Cut(field)) }

// Instead says which of a few names was meant, or all of them.
func Instead(name string, among []string) string {
	if near, ok := nearest(name, among); ok {
		return `did you mean "` + near + `"?`
	}
	return "expected " + orList(among)
}

// nearest is the one of a few names that a slip of the fingers may have turned into
// name: one letter is wrong, or at most a third of them.
func nearest(name string, among []string) (string, bool) {
	if len(name) > 40 {
		return "", false
	}
	best, least := "", max(1, len(name)/3)+1
	for _, candidate := range among {
		if n := names.Slips(strings.ToLower(name), candidate); n < least {
			best, least = candidate, n
		}
	}
	return best, best != ""
}

// orList is "a, b or c".
func orList(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " or " + words[n]
}
