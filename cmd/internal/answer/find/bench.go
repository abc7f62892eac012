package find

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

// What is said at the bench, a line after each thing that is typed, is what the whole
// answer says.

// Head is what was found, and what to look at first.
func (f Answer) Head() doc.Document { return f.head() }

// Judgement is what the marks come to, and what to look at first; nothing without marks.
func (f Answer) Judgement() []string {
	list := slices.DeleteFunc([]string{f.doubted(f.Headline()), f.lookFirst()}, func(text string) bool { return text == "" })
	if len(list) > 0 && f.Headline() == "" {
		return nil
	}
	return list
}

// AtBench is what cylinders and marks come to, on one screen of marks.
func (f Answer) AtBench() string {
	return strings.Join(slices.DeleteFunc(append(f.throwSentences(), f.doubted(f.Headline())), func(text string) bool { return text == "" }), " ")
}

// doubted is what marks come to, with what to make sure of where what they are compared with is
// in doubt: nobody is to go by that half alone.
func (f Answer) doubted(headline string) string {
	if headline == "" || !f.ZeroInDoubt() {
		return headline
	}
	return headline + " " + f.Never()
}

// ToLookAt is every look that would tell more, the cheapest first. Where none does and something
// is outside, it is read again before anything is taken apart.
func (f Answer) ToLookAt() (list []string) {
	if len(f.Diagnosis.TellApart) == 0 {
		return f.readAgain()
	}
	for i, look := range f.Diagnosis.TellApart {
		if i == 0 {
			list = append(list, words.LookFirst(look))
			continue
		}
		list = append(list, "Or: "+words.Look(look)+".")
	}
	return list
}

// readAgain is what to read again where no look tells more; nothing where nothing is outside.
func (f Answer) readAgain() []string {
	switch {
	case len(f.Called(mark.Outside)) == 0 && len(f.throwSentences()) == 0:
		return nil
	case f.TDCInDoubt():
		return []string{"First: " + words.ReadPiston + ".", words.ReadOutside}
	}
	return []string{words.ReadOutside}
}

// readFirst is the first of that where the marks point to the TDC that they are compared with.
func (f Answer) readFirst() string {
	if again := f.readAgain(); len(again) > 1 {
		return again[0]
	}
	return ""
}

// LobeSentence is what a lobe of the job does; "" where it is not determined yet.
func (f Answer) LobeSentence(name string) string {
	i := slices.IndexFunc(f.Lobes, func(m lobe.Measured) bool { return m.Name == name })
	if i < 0 || f.Lobes[i].Events == nil {
		return ""
	}
	e := f.Lobes[i].Events
	return fmt.Sprintf("At a lift of %s it opens %s, closes %s; centre %s.", f.Bench().Depth(e.Lift),
		words.EventWithin(e.Opens.Estimate), words.EventWithin(e.Closes.Estimate), words.CentreWithin(e.Centre.Estimate))
}

// LobeLacks is why nothing of a lobe of the job is determined yet, and what to read; "" where it
// is.
func (f Answer) LobeLacks(name string) string {
	i := slices.IndexFunc(f.Lobes, func(m lobe.Measured) bool { return m.Name == name })
	if i < 0 || f.Lobes[i].Events != nil {
		return ""
	}
	return strings.Join(f.Bench().Findings(f.Lobes[i].Findings), " ")
}
