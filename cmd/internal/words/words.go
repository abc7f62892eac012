// Package words puts what was found into words: numbers with the digits they
// deserve and their unit, plurals, early and late, angles and lengths as the job
// at hand shows them, and a sentence for every finding. Everything that evendrop
// says of a number is worded here, once.
package words

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Count is a number of things: "one reading", "24 readings".
func Count(n int, thing string) string {
	if n == 1 {
		return "one " + thing
	}
	return fmt.Sprintf("%d %s", n, plural(thing))
}

// irregular are the plurals that do not end in s.
var irregular = map[string]string{"tooth": "teeth", "pitch": "pitches", "inch": "inches", "axis": "axes"}

// plural is more than one of a thing; of several words the last one counts.
func plural(thing string) string {
	before, last := "", thing
	if i := strings.LastIndexByte(thing, ' '); i >= 0 {
		before, last = thing[:i+1], thing[i+1:]
	}
	if plural, ok := irregular[last]; ok {
		return before + plural
	}
	return thing + "s"
}

// And is "a, b and c".
func And(list []string) string { return joined(list, "and") }

// Or is "a, b or c".
func Or(list []string) string { return joined(list, "or") }

func joined(list []string, word string) string {
	last := len(list) - 1
	if last < 1 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:last], ", ") + " " + word + " " + list[last]
}

// Capital is text that begins a sentence, or a name that does and keeps its direction of
// writing to itself.
func Capital(text string) string {
	name, isolated := strings.CutPrefix(text, firstStrong)
	first, size := utf8.DecodeRuneInString(name)
	if size == 0 {
		return text
	}
	name = string(unicode.ToUpper(first)) + name[size:]
	if isolated {
		return firstStrong + name
	}
	return name
}

// firstStrong begins what keeps its direction of writing to itself (UAX9 2.4.2).
const firstStrong = "\u2068"

// Cut is text no longer than so many letters.
func Cut(text string, most int) string {
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return text
}
