package main

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// Sentence is something that can be said, and where it stands in the source. A label and
// a part that others put into a sentence count as one.
type Sentence struct {
	Package, File string // the path from the root, and the file in it
	Line          int
	In            string // the function, or what else it stands in
	Text          string // with gaps for what is not known before the program runs
}

// A gap is written between these in a Text, and the few things that it may be are parted
// by the third.
const (
	gapBegins, gapEnds, gapOr = '\u27e6', '\u27e7', '\u2502'
)

// gap is a place for what has this name, or is one of these.
func gap(may ...string) string {
	return string(gapBegins) + strings.Join(may, string(gapOr)) + string(gapEnds)
}

// shown writes gaps as a reader of the list sees them.
var shown = strings.NewReplacer(string(gapBegins), "[", string(gapEnds), "]", string(gapOr), " / ")

// String is the sentence as the list shows it.
func (s Sentence) String() string { return shown.Replace(s.Text) }

// Words is how many there are, a gap as long as the longest that it may be.
func (s Sentence) Words() int { return wordsIn(s.Text) }

func wordsIn(text string) (n int) {
	for text != "" {
		before, may, after := cutGap(text)
		for _, word := range strings.Fields(before) {
			if strings.ContainsFunc(word, isOfWord) {
				n++
			}
		}
		longest := 0
		for _, one := range may {
			longest = max(longest, wordsIn(one))
		}
		n, text = n+longest, after
	}
	return n
}

func isOfWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// cutGap is what stands before the first gap, what that may be, and what follows it.
func cutGap(text string) (before string, may []string, after string) {
	begins, depth, from := -1, 0, 0
	for i, r := range text {
		switch {
		case r == gapBegins:
			if depth++; depth == 1 {
				begins, from = i, i+len(string(r))
			}
		case r == gapOr && depth == 1:
			may, from = append(may, text[from:i]), i+len(string(r))
		case r == gapEnds:
			if depth--; depth == 0 {
				return text[:begins], append(may, text[from:i]), text[i+len(string(r)):]
			}
		}
	}
	return text, nil, ""
}

// ends is where a sentence ends and another one begins.
var ends = regexp.MustCompile(`([.?!][")]?)\s+([\p{Lu}"(` + string(gapBegins) + `]|evendrop )|\n(?:\s*\n|[ \t]{2,})`)

// sentences are the parts of a text that are read one after another; lines that a text
// breaks are joined.
func sentences(text string) (list []string) {
	from := 0
	for _, at := range ends.FindAllStringSubmatchIndex(text, -1) {
		end, next := at[0], at[1]
		if at[2] >= 0 {
			end, next = at[3], at[4]
		}
		if inGap(text[:end]) {
			continue
		}
		list, from = append(list, text[from:end]), next
	}
	list = append(list, text[from:])
	for i, s := range list {
		list[i] = strings.Join(strings.Fields(s), " ")
	}
	return list
}

// inGap is whether a gap has begun and not ended.
func inGap(text string) bool {
	return strings.Count(text, string(gapBegins)) > strings.Count(text, string(gapEnds))
}

var (
	twoWords = regexp.MustCompile(`(?:\b[Aa]|\p{L}{2,})[^\s\p{L}]*\s+[^\s\p{L}]*\p{L}{2,}`)
	oneWord  = regexp.MustCompile(`^\p{Ll}{3,}$`)
	oneLabel = regexp.MustCompile(`^\p{Lu}\p{Ll}+[.:?]?$`)
	besideIt = regexp.MustCompile(`\p{L}{2,}`)
	machines = regexp.MustCompile(`^[./#]|[;{}]\S*[:{}]|:\S+;|^\S+[=_/]\S*$|^[a-z]+\(\S*$|^(utf-8|UTC)$|^<[a-z/][^>]*>?$|^@|^\W*$|^use strict$|^\([a-z-]+:|\bclass=|^(row|pad|big|tab|of|allow-same-origin)[ -](here|suspect|sided|allow)|^[MmLl]\s?[-0-9.]`)
)

// classes are what a picture's style names, some of which are words.
var classes = regexp.MustCompile(`^(\s*(axis|alarmed|bar|dash|dismissed|fill|fine|fore|ghost|heavy|joint|mark|marking|member|metal|middle|named|quiet|reach|slipped|small|strong|stroke|tag|text|title|upon|warn|was|\d))+\s*$`)

// isRead is whether a text is one that somebody reads, or one of those is that its gaps
// may be.
func isRead(text string) bool {
	bare, gaps := "", false
	for text != "" {
		before, may, after := cutGap(text)
		if len(may) > 1 && slices.ContainsFunc(may, isRead) {
			return true
		}
		bare, text, gaps = bare+before+" ", after, gaps || may != nil
	}
	if bare = strings.TrimSpace(bare); machines.MatchString(bare) || classes.MatchString(bare) {
		return false
	}
	return twoWords.MatchString(bare) || oneLabel.MatchString(bare) || gaps && besideIt.MatchString(bare)
}
