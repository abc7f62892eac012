package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const root = "../.."

func everything(t *testing.T) []Sentence {
	t.Helper()
	all, err := Everything(root)
	require.NoError(t, err)
	return all
}

// The list has something known from each place that speaks, as a reader of it sees it.
func TestListHolds(t *testing.T) {
	known := map[string]string{
		"cmd/internal/words":           "Only [readings] reading[s] [side]: take more there.",
		"cmd/internal/caution":         "Never work under a vehicle held by a jack alone.",
		"cmd/internal/interview":       "It is only needed for volumes; leave it out where it is not known.",
		"cmd/internal/answer/find":     "No mark is judged: the protractor moved, and [again].",
		"cmd/internal/chart/crank":     "Outlined box: allowed.",
		"cmd/internal/session":         "There is nothing to redo: redo takes back an undo, before anything else is typed.",
		"cmd/internal/session/doubt":   "k keeps it; or type fix [reading] and what is right.",
		"cmd/internal/session/marking": "What is the mark called, such as locking pin hole?",
		"cmd/internal/practice":        "[readings] readings a direction: expected [fewest readings] to [most readings]",
		"cmd/internal/flags":           "expected nothing after it, or =true or =false",
		"cmd/internal/bench":           "more lines than the questions need: begin again",
		"cmd/evendrop":                 "the cautions have been read",
		"geometry":                     "compression ratio [compression] must be above 1",
		"tdc/job":                      "another mark has this name: expected a name of its own",
		"tdc/job/toml":                 "expected ] to close the table's name, as in [engine]",
		"tdc/mark":                     "it is compared with another card here than before: write the same card into both jobs",
		"tdc/wheel/capture":            "the file is empty: expected rows of time and signals",
		page:                           "This browser keeps nothing for this page ([why]).",
	}
	all := everything(t)
	for where, text := range known {
		require.True(t, slices.ContainsFunc(all, func(s Sentence) bool { return s.Package == where && s.String() == text }), "%s: %s", where, text)
	}
}

// What nobody reads is not in it.
func TestListHoldsNoMore(t *testing.T) {
	for _, s := range everything(t) {
		require.NotContains(t, s.Text, "%s", s)
		require.NotRegexp(t, `</|use strict|viewBox|font-size|\\n`, s.Text)
		require.NotContains(t, s.File, "_test")
		require.NotZero(t, s.Words(), s)
	}
}

// Words are counted as they are read, a gap as long as the longest that it may be.
func TestWords(t *testing.T) {
	for text, words := range map[string]int{
		"True TDC is at 3.4 deg.":                               6,
		"It is " + gap("late", "not where it was") + ", and so": 8,
		"± " + gap("off") + " deg":                              2,
		"a " + gap("b "+gap("c", "d e")) + " f":                 5,
	} {
		require.Equal(t, words, Sentence{Text: text}.Words(), text)
	}
}

func TestSentences(t *testing.T) {
	for text, parts := range map[string][]string{
		"Read again. It is 3.5 mm off.":           {"Read again.", "It is 3.5 mm off."},
		"One line\nand its end.\n\nAnother":       {"One line and its end.", "Another"},
		"It is " + gap("one. Two", "three") + ".": {"It is " + gap("one. Two", "three") + "."},
	} {
		require.Equal(t, parts, sentences(text))
	}
}

// The flags leave out what they do not ask for, and the last line counts what is left.
func TestFlags(t *testing.T) {
	list := []Sentence{{Package: "a/b", File: "f.go", Line: 3, In: "f", Text: "One two three."}, {Package: "c", Text: "One two."}}
	require.Len(t, chosen(list, options{}), 2)
	require.Equal(t, list[:1], chosen(list, options{longer: 2}))
	require.Equal(t, list[1:], chosen(list, options{in: "c"}))
	var out bytes.Buffer
	print(&out, list[:1])
	require.Equal(t, "a/b\n  f.go:3 f\n      One two three.\n\n1 sentences in 1 packages, 3 words", strings.TrimSpace(out.String()))
}

// A script's texts are read with what templates put in, without those that the browser alone
// reads and without patterns and comments.
func TestScript(t *testing.T) {
	script := "// 'not this'\nconst f = (a) => {\n  if (/'/.test(a)) el('p', { class: 'some class', text: `Off by ${a.off}${a.fits ? '' : ', does not fit'}.` });\n  return b / 2 + 'It isn\\'t.';\n};"
	list := textsOfScript(script)
	require.Equal(t, []scriptText{{"Off by " + gap("off") + gap(", does not fit") + ".", 3, "f"}, {"It isn't.", 4, "f"}}, list)
}
