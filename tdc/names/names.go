// Package names reads a word that somebody typed as one of the few that can stand in its
// place: a layout, a member, a unit, a kind of gauge or of turn. It is forgiving where
// nothing else could be meant, asks where a slip of the fingers may be the reason, and
// says so where there is more than one that could be. What it gives is always one of the
// words, so that a file that is written and an answer have the field's own.
package names

import (
	"slices"
	"strconv"
	"strings"
)

// Read is the one of the words that typed means: the word itself, written in another way
// (case, spaces, hyphens, a plural, the order of its parts), another name of it, or so much
// of its beginning that no other comes into question. Else it is an *Unknown.
func Read[S ~string](typed string, words []S) (S, error) {
	if i := slices.Index(words, S(typed)); i >= 0 {
		return words[i], nil
	}
	unknown := &Unknown{Words: plainly(words)}
	asked := partsOf(typed)
	if len(asked) == 0 || len(typed) > longest {
		return "", unknown
	}
	switch same := asked.among(unknown.Words, parts.isAnother); len(same) {
	case 0:
	case 1:
		return S(same[0]), nil
	default:
		unknown.Could = same
		return "", unknown
	}
	switch could := asked.among(unknown.Words, parts.mayBe); {
	case len(could) == 1 && asked.begins(could[0]):
		return S(could[0]), nil
	case len(could) == 1:
		unknown.Near = could
	case len(could) > 1:
		unknown.Could = could
	default:
		unknown.Near = asked.nearest(unknown.Words)
	}
	return "", unknown
}

// Settled is the one of the words that typed means, or what was typed where Read cannot
// tell: whoever knows more of the words refuses it.
func Settled[S ~string](typed S, words []S) S {
	if word, err := Read(string(typed), words); err == nil {
		return word
	}
	return typed
}

// Whole is Settled for a text that may have been cut short: the beginning of a word is none.
func Whole[S ~string](typed S, words []S) S {
	if slices.Contains(words, typed) {
		return typed
	}
	word := Settled(typed, words)
	if partsOf(string(typed)).isAnother(string(word)) {
		return word
	}
	return typed
}

// longest is longer than any word or other name is, bytes.
const longest = 80

func plainly[S ~string](words []S) []string {
	out := make([]string, len(words))
	for i, word := range words {
		out[i] = string(word)
	}
	return out
}

// Unknown is a text that cannot be taken for one of the words.
type Unknown struct {
	Could []string // several that it could be
	Near  []string // or what may have been meant, with a slip of the fingers
	Words []string // all of them
}

// Error is what to type instead, with the words in quotes.
func (u *Unknown) Error() string { return u.say(strconv.Quote) }

// Bare is what to type instead, with the words as they are typed on a command line.
func (u *Unknown) Bare() string { return u.say(func(word string) string { return word }) }

func (u *Unknown) say(show func(word string) string) string {
	switch {
	case len(u.Could) > 0:
		return "it could be " + or(u.Could, show) + ": write which"
	case len(u.Near) > 0:
		return "did you mean " + or(u.Near, show) + "?"
	}
	return "expected " + or(u.Words, show)
}

// or is "a, b or c"; of words with commas in them, and no quotes about them, "a; b, c; or d".
func or(words []string, show func(word string) string) string {
	shown := make([]string, len(words))
	for i, word := range words {
		shown[i] = show(word)
	}
	if len(shown) == 1 {
		return shown[0]
	}
	n := len(shown) - 1
	if all := strings.Join(shown, ""); strings.Contains(all, ",") && !strings.Contains(all, `"`) {
		return strings.Join(shown[:n], "; ") + "; or " + shown[n]
	}
	return strings.Join(shown[:n], ", ") + " or " + shown[n]
}
