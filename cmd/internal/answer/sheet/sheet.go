// Package sheet is what a customer looks at for ten seconds: the finding in a dozen words,
// the few numbers that matter, one picture, what to look at next, and who measured what
// with which instruments; of a job, or of a job before and after a repair. It has the
// words that a layman knows: no names of files or of keys.
package sheet

import (
	"slices"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// Sheet is what one is made of: what was found, every name isolated.
type Sheet struct {
	found.All
	// Warnings is how many things weaken the answer; what is behind the sheet tells them.
	Warnings int
	// Evidence is what is shown where no mark is: the readings, or what was seen.
	Evidence []doc.Block
	Again    *Again // what was found before; nil of a first sheet

	joints []mark.Joint // the drive as it was understood; nothing of one that was not
}

// Again is what was found before an engine was measured again.
type Again struct {
	Before  found.All
	Changes []mark.Change // of each mark that both have
	// Back is whether what the marks pointed to is back.
	Back []finding.Finding
}

// Document is the sheet. An error is of a picture that cannot be drawn.
func (s Sheet) Document() (doc.Document, error) {
	if t, err := mark.TreeFor(s.Job.Drive, s.Job.Marks); err == nil {
		s.joints = t.Joints
	}
	picture, err := s.picture()
	if err != nil {
		return nil, err
	}
	var d doc.Document
	finding, state := s.finding()
	d.Add(doc.Heading{Level: 1, Text: finding, State: state}, s.banner())
	d.Say(s.why())
	d.SayAs(doc.Never, s.never())
	d.SayAs(doc.Warning, weakened(s.Warnings))
	d.Add(s.numbers(), doc.Beside{First: picture, Second: s.next()}, s.record())
	d.SayAs(doc.Caution, caution.Sheet)
	return d, nil
}

// weakened is what has to be known of warnings; nothing of none.
func weakened(warnings int) string {
	switch warnings {
	case 0:
		return ""
	case 1:
		return "Before you rely on this, read the warning behind this sheet."
	}
	return "Before you rely on this, read the " + words.Count(warnings, "warning") + " behind this sheet."
}

// repair tells whether it is a sheet of before and after.
func (s Sheet) repair() bool { return s.Again != nil }

// untold tells whether TDC is no answer to go by.
func (s Sheet) untold() bool { return s.Results[0].CannotTell != nil }

// answer is the one explanation that looks like the answer: a single likely one that
// names one joint for every slip. Where there are several, none does.
func (s Sheet) answer() *joint.Explanation {
	likely, _, _ := s.Diagnosis.Ranked()
	if !picture.OneAnswer(s.Diagnosis) || likely[0].ByLimits() {
		return nil
	}
	return &likely[0]
}

// jumpedToo is the one likely explanation by several slips, one of which is of whole teeth:
// that is said though the joint of one is open, since valves may be bent by it; nil elsewhere.
func (s Sheet) jumpedToo() *joint.Explanation {
	return s.ofSeveral(func(slip joint.Slip) bool { return wholeTeeth(slip) != "" })
}

// partly is the one likely explanation by several slips, the joint of one of which is known: the
// half that is known is said though the other is open; nil elsewhere.
func (s Sheet) partly() *joint.Explanation {
	return s.ofSeveral(func(slip joint.Slip) bool { return len(slip.Joints) == 1 })
}

// ofSeveral is the one likely explanation by several slips, one of which is such a one; nil
// elsewhere.
func (s Sheet) ofSeveral(such func(joint.Slip) bool) *joint.Explanation {
	likely, _, _ := s.Diagnosis.Ranked()
	if len(likely) != 1 || len(likely[0].Slips) < 2 || likely[0].ByLimits() || !slices.ContainsFunc(likely[0].Slips, such) {
		return nil
	}
	return &likely[0]
}

// degreeSign is for numbers that a layman reads.
const degreeSign = "°"
