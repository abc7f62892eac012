package names

import (
	"slices"
	"strings"
	"unicode"
)

// parts are the parts of a text that say something: small letters and digits, no plural.
type parts []string

// partsOf takes a text apart.
func partsOf(text string) parts {
	text = strings.NewReplacer("°", " degree ", `"`, " inch ", "″", " inch ").Replace(strings.ToLower(text))
	list := parts(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }))
	for i, part := range list {
		if len(part) > 3 && !strings.HasSuffix(part, "ss") {
			list[i] = strings.TrimSuffix(part, "s")
		}
	}
	return list
}

// joined is the parts without what stands between them: fly wheel is flywheel.
func (p parts) joined() string { return strings.Join(p, "") }

// calledLike has the other names of another text's parts put as that has them.
func (p parts) calledLike(other parts) parts {
	called := slices.Clone(p)
	for i, part := range p {
		for _, its := range other {
			if isCalled(its, part) {
				called[i] = its
			}
		}
	}
	return called
}

// isCalled tells whether part is another name of a part of a word. That may itself be no
// name of the table's, in a word of somebody's own, but is no abbreviation: the in of cam in
// block is not the inlet.
func isCalled(its, part string) bool {
	for name, others := range alike {
		isIts := its == name || len(its) >= enough && slices.Contains(others, its)
		if isIts && (part == name || slices.Contains(others, part)) {
			return true
		}
	}
	return false
}

// among is those of the words that may be what was typed.
func (p parts) among(words []string, may func(typed parts, word string) bool) []string {
	var found []string
	for _, word := range words {
		if may(p, word) {
			found = append(found, word)
		}
	}
	return found
}

// named tells whether what was typed fits any name of a word.
func (p parts) named(word string, fits func(typed, name parts) bool) bool {
	return slices.ContainsFunc(append([]string{word}, whole[word]...), func(name string) bool {
		its := partsOf(name)
		return fits(p.calledLike(its), its)
	})
}

// isAnother tells whether typed is another way to write a word, or another name of it.
func (p parts) isAnother(word string) bool {
	return p.named(word, func(typed, name parts) bool {
		return typed.joined() == name.joined() || slices.Equal(slices.Sorted(slices.Values(typed)), slices.Sorted(slices.Values(name)))
	})
}

// mayBe tells whether typed is the beginning of a word, or some of its parts.
func (p parts) mayBe(word string) bool {
	return p.begins(word) || p.calledLike(partsOf(word)).areOf(partsOf(word), begins) ||
		p.named(word, func(typed, name parts) bool { return typed.areOf(name, func(string, string) bool { return false }) })
}

// enough is how many letters tell that a word was begun and is no other abbreviation: m is
// not mm.
const enough = 3

// begins tells whether typed is the beginning of a word.
func (p parts) begins(word string) bool {
	its := partsOf(word)
	return begins(p.calledLike(its).joined(), its.joined())
}

func begins(typed, word string) bool {
	return len(typed) >= enough && onlyLetters(typed) && strings.HasPrefix(word, typed)
}

// areOf tells whether each part that was typed is one of a name's, or stands for one.
func (p parts) areOf(name parts, standsFor func(part, its string) bool) bool {
	return !slices.ContainsFunc(p, func(part string) bool {
		return !slices.ContainsFunc(name, func(its string) bool { return its == part || standsFor(part, its) })
	})
}

// onlyLetters tells a word from a number, whose beginning is another number.
func onlyLetters(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
}

// nearest is the words that a slip of the fingers may have turned into what was typed: one
// letter of four or more, two of eight or more.
func (p parts) nearest(words []string) []string {
	var near []string
	least := 3
	for _, word := range words {
		its := partsOf(word)
		n := Slips(p.calledLike(its).joined(), its.joined())
		switch {
		case n > min(2, len(its.joined())/4), n > least:
		case n < least:
			near, least = []string{word}, n
		default:
			near = append(near, word)
		}
	}
	return near
}

// Slips is how many letters, as bytes, must be put in, left out, changed, or swapped with
// their neighbour to turn a into b.
func Slips(a, b string) int {
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			changed := last[j-1]
			if a[i-1] != b[j-1] {
				changed++
			}
			row[j] = min(last[j]+1, row[j-1]+1, changed)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
