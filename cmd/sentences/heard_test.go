package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/scenes"
	"evendrop/tdc/job"
)

// What find says of the examples is in the list, word for word, and so is what it says of
// invented jobs of every sort: names and numbers are the job's.
func TestListHoldsWhatFindSays(t *testing.T) {
	l := newListener(everything(t))
	for _, name := range []string{"builder/job.toml", "diagnostician/job.toml", "diagnostician/after.toml"} {
		l.hear(t, filepath.Join(root, "examples", name))
	}
	require.Empty(t, l.examples)
	for _, s := range scenes.All() {
		if testing.Short() {
			break
		}
		dir, err := s.Write(t.TempDir())
		require.NoError(t, err)
		l.hear(t, filepath.Join(dir, scenes.JobFile))
	}
	t.Logf("%d of %d words are in the list", l.words-l.missing, l.words)
	require.Greater(t, l.words, 2000)
	require.LessOrEqual(t, l.missing, l.words/1000, strings.Join(l.examples, "\n")) // single words that a function hands to another
}

// A sentence that the program does not say is missed.
func TestListenerMisses(t *testing.T) {
	l := newListener([]Sentence{{Text: gap("name") + ": within the limit of " + gap("limit") + " deg."}})
	for text, missed := range map[string][]string{
		"pin: within the limit of 3 deg.":          nil,
		"pin: within the limit of 3 deg. At last.": {"At", "last"},
		"the limit of 3 deg.":                      {"the", "limit", "of", "deg"},
		"pin: Within the limits of 3 deg.":         {"Within", "the", "limits", "of", "deg"},
	} {
		list, _ := l.missed(text, map[string]bool{"pin": true})
		require.Equal(t, missed, list, text)
	}
}

// listener knows what stays as it is of every sentence, and counts the words that it hears.
type listener struct {
	parts          [][]string
	words, missing int
	examples       []string
}

func newListener(list []Sentence) *listener {
	l := &listener{}
	for _, s := range list {
		for _, plural := range []string{"", "s"} {
			l.learn(strings.ReplaceAll(s.Text, gap("s"), plural))
		}
	}
	return l
}

// learn notes what stands between the gaps of a text, and all that these may be.
func (l *listener) learn(text string) {
	var pieces []string
	for text != "" {
		before, may, after := cutGap(text)
		if before = strings.ToLower(strings.TrimSpace(before)); strings.ContainsFunc(before, unicode.IsLetter) {
			pieces = append(pieces, before)
		}
		for _, one := range may {
			if len(may) > 1 || isRead(one) {
				l.learn(one)
			}
		}
		text = after
	}
	if len(pieces) > 0 {
		l.parts = append(l.parts, pieces)
	}
}

// hear counts the words of find's answers, short and in full.
func (l *listener) hear(t *testing.T, file string) {
	t.Helper()
	j, err := job.Open(file)
	require.NoError(t, err)
	answer, err := find.Of(j)
	require.NoError(t, err)
	answer.EveryReading = true
	names := namesIn(t, filepath.Dir(file))
	for _, text := range slices.Concat(heard(answer.Document(false)), heard(answer.Document(true))) {
		text = strings.ReplaceAll(text, filepath.Dir(file), "") // of this run, and not of the job
		list, of := l.missed(text, names)
		l.missing, l.words = l.missing+len(list), l.words+of
		for _, word := range list {
			l.examples = append(l.examples, word+" in "+text)
		}
	}
}

// missed is the words of a text that no sentence of the list has, of how many.
func (l *listener) missed(text string, names map[string]bool) (list []string, of int) {
	known, lower := make([]bool, len(text)), strings.ToLower(text)
	for _, pieces := range l.parts {
		markAll(known, lower, pieces)
	}
	for _, at := range aWord.FindAllStringIndex(text, -1) {
		word := text[at[0]:at[1]]
		of++
		if !names[strings.ToLower(word)] && slices.Contains(known[at[0]:at[1]], false) {
			list = append(list, word)
		}
	}
	return list, of
}

// aWord is letters with no digit beside them.
var aWord = regexp.MustCompile(`\b\p{L}{2,}\b`)

// farthest is how long what fills a gap may be: some names of 200 characters.
const farthest = 700

// markAll marks the pieces wherever all of them follow one another.
func markAll(known []bool, text string, pieces []string) {
	for from := 0; ; {
		at := next(text, pieces[0], from)
		if at < 0 {
			return
		}
		places := []int{at}
		for _, p := range pieces[1:] {
			end := at + len(pieces[len(places)-1])
			if at = next(text, p, end); at < 0 || at > end+farthest {
				return
			}
			places = append(places, at)
		}
		for i, at := range places {
			for j := range pieces[i] {
				known[at+j] = true
			}
		}
		from = places[0] + 1
	}
}

// next is where a piece stands next as words of its own, and less than 0 where it does not.
func next(text, piece string, from int) int {
	for from < len(text) {
		at := strings.Index(text[from:], piece)
		if at < 0 {
			return -1
		}
		at += from
		end := at + len(piece)
		if (at == 0 || !inWord(text[at-1]) || !inWord(text[at])) && (end == len(text) || !inWord(text[end-1]) || !inWord(text[end])) {
			return at
		}
		from = at + 1
	}
	return -1
}

func inWord(b byte) bool { return b >= 'a' && b <= 'z' }

// quoted is a name in a job file.
var quoted = regexp.MustCompile(`"[^"\n]*"`)

// namesIn is the words of the names that a job's files have, and of the files' own.
func namesIn(t *testing.T, dir string) map[string]bool {
	t.Helper()
	names := map[string]bool{"atdc": true, "btdc": true} // and of a scale's sides
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, f := range files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name()))
		require.NoError(t, err)
		for _, name := range append(quoted.FindAllString(string(data), -1), f.Name()) {
			for _, word := range aWord.FindAllString(name, -1) {
				names[strings.ToLower(word)] = true
			}
		}
	}
	return names
}

// heard is what a document says, text by text.
func heard(d doc.Document) (list []string) {
	for _, block := range d {
		switch b := block.(type) {
		case doc.Heading:
			list = append(list, b.Text)
		case doc.Paragraph:
			list = append(list, b.Text)
		case doc.List:
			list = append(list, b.Items...)
		case doc.Table:
			list = append(append(list, b.Caption), b.Header...)
			for _, row := range b.Rows {
				list = append(list, row...)
			}
		case doc.Facts:
			for _, f := range b {
				list = append(list, f.What, f.Is)
			}
		case doc.Figure:
			list = append(list, b.Caption)
		}
	}
	return list
}
