package find

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/lobe"
)

// What is said at the bench, a line after each thing that is typed, is what the whole
// answer says.

// Head is what was found, and what to look at first.
func (f Answer) Head() doc.Document { return f.head() }

// Judgement is what the marks come to, and what to look at first; nothing without marks.
func (f Answer) Judgement() []string {
	list := slices.DeleteFunc([]string{f.Headline(), f.lookFirst()}, func(text string) bool { return text == "" })
	if len(list) > 0 && f.Headline() == "" {
		return nil
	}
	return list
}

// ToLookAt is every look that would tell more, the cheapest first.
func (f Answer) ToLookAt() (list []string) {
	for i, look := range f.Diagnosis.TellApart {
		if i == 0 {
			list = append(list, words.LookFirst(look))
			continue
		}
		list = append(list, "Or: "+words.Look(look)+".")
	}
	return list
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
