package interview

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/mark"
)

// usual are the marks that engines commonly have (common practice, no source).
var usual = []Mark{
	{"locking pin hole", mark.Flywheel, ""},
	{"pulley notch", mark.Pulley, ""},
	{"flywheel mark", mark.Flywheel, ""},
	{"crank wheel gap", mark.CrankWheel, ""},
	{"cam lock flats", "cam", mark.Chord},
	{"cam sprocket mark", "cam sprocket", mark.Teeth},
	{"sprocket bolt holes", "cam sprocket", mark.Arc},
}

func usualNames() (names []string) {
	for _, m := range usual {
		names = append(names, m.Name)
	}
	return names
}

// mostNamed is more than anybody names at once.
const mostNamed = 20

var listed = regexp.MustCompile(`\s*(?:[,;&]|\band\b)\s*`)

// takeMarks reads what is to be judged: the numbers or names of usual marks, or names of
// one's own.
func takeMarks(f Facts, answer string) (Facts, string, error) {
	f.Marks = nil
	switch word(answer) {
	case "", "none", "n", "no":
		return f, "", nil
	case "all":
		f.Marks = slices.Clone(usual)
		return f, "", nil
	case "y", "yes":
		return f, "", errors.New("which marks: type their numbers in the list, such as 1, 2, or names of your own with commas between")
	}
	for _, text := range itemsOf(answer) {
		m, err := named(text)
		if err != nil {
			return f, "", err
		}
		if !slices.ContainsFunc(f.Marks, func(other Mark) bool { return strings.EqualFold(other.Name, m.Name) }) {
			f.Marks = append(f.Marks, m)
		}
	}
	if len(f.Marks) > mostNamed {
		return f, "", fmt.Errorf("type at most %d of them here, and write the others into the job file", mostNamed)
	}
	return f, "", nil
}

var onlyNumbers = regexp.MustCompile(`^[\d\s]+$`)

// itemsOf is what was listed, numbers also with nothing but blanks between.
func itemsOf(answer string) (items []string) {
	for _, text := range listed.Split(answer, -1) {
		switch {
		case onlyNumbers.MatchString(text):
			items = append(items, strings.Fields(text)...)
		case text != "":
			items = append(items, text)
		}
	}
	return items
}

// named is a usual mark by its number, its name or a word that no other has, or a mark of
// somebody's own.
func named(text string) (Mark, error) {
	if n, err := strconv.Atoi(text); err == nil {
		if n < 1 || n > len(usual) {
			return Mark{}, fmt.Errorf("the list has no mark %d: type a number from 1 to %d, or the name of a mark, such as %s", n, len(usual), usual[0].Name)
		}
		return usual[n-1], nil
	}
	const longest = 60
	if len([]rune(text)) > longest {
		return Mark{}, fmt.Errorf("a name has at most %d characters here: type a shorter one", longest)
	}
	text = strings.TrimPrefix(text, "the ")
	part := strings.TrimSuffix(strings.ToLower(text), "s")
	var found []Mark
	for _, m := range usual {
		if strings.Contains(m.Name, part) {
			found = append(found, m)
		}
	}
	if len(found) == 1 {
		return found[0], nil
	}
	return Mark{Name: text, On: memberOf(text)}, nil
}

// members are what marks sit on by a word in their names, those of two words first.
var members = []struct{ word, on string }{
	{"inlet sprocket", "inlet sprocket"}, {"exhaust sprocket", "exhaust sprocket"}, {"cam sprocket", "cam sprocket"}, {"inlet cam", "inlet cam"},
	{"exhaust cam", "exhaust cam"}, {"crank wheel", mark.CrankWheel}, {"crank sprocket", mark.CrankSprocket}, {"pulley", mark.Pulley},
	{"damper", mark.Pulley}, {"cam", "cam"},
}

// memberOf guesses what a mark of somebody's own sits on, to be put right in the job file.
func memberOf(name string) string {
	for _, m := range members {
		if strings.Contains(strings.ToLower(name), m.word) {
			return m.on
		}
	}
	return mark.Flywheel
}
