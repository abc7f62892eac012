// Package marking takes what somebody says of a mark, in one line or in several: what is
// missing it asks for, one thing at a time, and it writes the mark as a job file has it.
package marking

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"evendrop/tdc/job"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
)

// Form is a mark as far as it was said.
type Form struct {
	job  job.Job
	set  int // that an angle was read in
	seen int // readings of cylinder 1 before it was read

	mark    mark.Mark // its name, and the members
	read    []toml.Literal
	off     amount
	again   bool // in another set than before: what it is was said
	knownTo toml.Literal
	// alongSaid is that a length was said to be a chord or an arc
	alongSaid bool
	radius    toml.Literal
	pitches   toml.Literal
	shouldBe  toml.Literal
	limit     toml.Literal
	layout    string // of the drive, where the job has none
	sprocket  toml.Literal

	steps []step // still to be asked
}

// step is one thing that is asked: under which word it may be typed in one line with
// others, what is asked, and the answer that Enter stands for; "" where there is none.
type step struct {
	keyword  string
	question func() string
	standard func() string
	take     func(answer string) error
	needed   func() bool // nil: always
}

// Typed begins a form with the words behind mark. In is the set that is read now, and seen
// how many readings of cylinder 1 there are. An error is of what an answer refuses, and of
// more than five fields.
func Typed(line string, j job.Job, in, seen int) (*Form, error) {
	f := &Form{job: j, set: in, seen: seen}
	f.steps = f.all()
	if strings.Contains(line, ";") {
		return f, f.fields(strings.Split(line, ";"))
	}
	for keyword, text := range f.clauses(line) {
		if text == "" {
			continue
		}
		if err := f.answer(keyword, text); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// Driven begins a form that asks of the drive alone, for something that sits on a cam.
func Driven(j job.Job, on string) *Form {
	f := &Form{job: j, mark: mark.Mark{On: on}}
	f.steps = f.drive()
	return f
}

// fields takes a line in the order of its fields: name; what it sits on; what was read, or
// how far it is off; where it should be; limit. An empty one is left out.
func (f *Form) fields(texts []string) error {
	keywords := []string{"", "on", "read", "should", "limit"}
	if len(texts) > len(keywords) {
		return errors.New("a mark has five fields: its name, what it sits on, what was read or how far it is off, where it should be, its limit. Type for example mark locking pin hole; flywheel; 6.0 6.5; 0; 1")
	}
	for i, text := range texts {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		if err := f.answer(keywords[i], text); err != nil {
			return err
		}
	}
	return nil
}

// Question is what is asked next, and what Enter stands for; done is that nothing is
// missing.
func (f *Form) Question() (text, standard string, done bool) {
	for len(f.steps) > 0 {
		s := f.steps[0]
		if s.needed == nil || s.needed() {
			return s.question(), s.standard(), false
		}
		f.steps = f.steps[1:]
	}
	return "", "", true
}

// Take takes an answer to the question. An error says what to type instead, and the same
// is asked again.
func (f *Form) Take(answer string) error {
	s := f.steps[0]
	if answer = strings.TrimSpace(answer); answer == "" {
		if answer = s.standard(); answer == "" {
			return errors.New("this is needed: type it, or cancel to leave the mark out")
		}
	}
	if err := s.take(answer); err != nil {
		return err
	}
	f.steps = f.steps[1:]
	return nil
}

// answer takes what was typed behind a keyword.
func (f *Form) answer(keyword, text string) error {
	i := slices.IndexFunc(f.steps, func(s step) bool { return s.keyword == keyword })
	if i < 0 {
		return fmt.Errorf("%q stands twice in this line: type it once", keyword)
	}
	if err := f.steps[i].take(text); err != nil {
		return err
	}
	f.steps = slices.Delete(f.steps, i, i+1)
	return nil
}

// Name is the mark's.
func (f *Form) Name() string { return f.mark.Name }

// all is what there is to say of a mark, in the order in which it is asked.
func (f *Form) all() []step {
	none := func() string { return "" }
	say := func(text string) func() string { return func() string { return text } }
	return slices.Concat([]step{
		{"", say("What is the mark called, such as locking pin hole?"), none, f.takeName, nil},
		{"on", f.askOn, none, f.takeOn, f.isNew},
	}, f.drive(), []step{
		{"read", f.askPlace, none, f.takePlace, nil},
		{"sure", f.askSure, f.usualSure, f.takeSure, f.isOff},
		{"against", say("What stood right while you saw that: the crank at TDC, or another part, such as inlet wheel?"), say(mark.Crank), f.takeAgainst, f.isOff},
		{"", say("Measured straight across, or along the rim?"), say("straight"), f.takeAlong, func() bool { return f.inLength() && !f.alongSaid }},
		{"radius", f.askRadius, none, f.takeRadius, func() bool { return f.inLength() && f.radius == "" }},
		{"", say("How many teeth has the wheel that they were counted on?"), f.usualTeeth, f.takePitches, func() bool { return f.inTeeth() && f.pitches == "" }},
		{"should", say("Where should it be, in crank degrees after TDC of cylinder 1, such as 0, -12.5, 12 BTDC? Or unknown."), say("0"), f.takeShouldBe, func() bool { return f.isRead() && f.isNew() }},
		{"limit", say("How far may it be off either way, in crank degrees? Leave it empty where nobody says."), say(notKnown), f.takeLimit, f.isNew},
	})
}

// askPlace names the mark: of several that were named beforehand it says which is meant.
func (f *Form) askPlace() string {
	return "What does the protractor read with " + f.mark.Name + " in line (several readings with a blank between)? " +
		"Or, seen without it, how far is it off, such as 4.1 mm late, 1 tooth early, -3 cam degrees?"
}

// drive is what is asked of the drive where the job has none and a cam is meant.
func (f *Form) drive() []step {
	cam := func() bool { return f.onCam() && f.job.Drive.Layout == "" && len(f.job.Drive.Joints) == 0 }
	return []step{
		{"", askLayout, f.usualLayout, f.takeLayout, cam},
		{"", askSprocket, func() string { return notKnown }, f.takeSprocket, cam},
	}
}

func askLayout() string { return "How are the cams driven: " + strings.Join(mark.Layouts, "; ") + "?" }

func askSprocket() string {
	return "How many teeth has the sprocket on the crank, which tells a whole tooth from less? Leave it empty where nobody knows."
}

// keywords begin a clause of a line; some have two words.
var keywords = map[string]string{
	"on": "on", "read": "read", "reads": "read", "off": "read", "is off": "read", "against": "against",
	"should be": "should", "should_be": "should", "limit": "limit", "known to": "sure", "within": "sure", "radius": "radius",
}

// clauses parts a line at its keywords, in its order; what stands before the first is the
// name.
func (f *Form) clauses(line string) func(yield func(keyword, text string) bool) {
	return func(yield func(keyword, text string) bool) {
		keyword, from := "", 0
		fields := strings.Fields(line)
		for i := 0; i <= len(fields); i++ {
			next, long := "", 0
			for n := min(2, len(fields)-i); n > 0 && next == ""; n-- {
				next, long = keywords[strings.ToLower(strings.Join(fields[i:i+n], " "))], n
			}
			if next == "" && i < len(fields) {
				continue
			}
			text, place := strings.Join(fields[from:i], " "), ""
			if keyword == "on" {
				text, place = f.memberAndPlace(fields[from:i])
			}
			if !yield(keyword, text) || place != "" && !yield("read", place) {
				return
			}
			keyword, from = next, i+long
			i += max(long-1, 0)
		}
	}
}

// memberAndPlace parts a member from what was read or seen, which may follow it without a
// word between: flywheel 6.5.
func (f *Form) memberAndPlace(fields []string) (member, place string) {
	member = strings.Join(fields, " ")
	if slices.Contains(f.members(), strings.ToLower(member)) {
		return member, ""
	}
	for i := 1; i < len(fields); i++ {
		if strings.ContainsRune("0123456789.,-+", rune(fields[i][0])) {
			return strings.Join(fields[:i], " "), strings.Join(fields[i:], " ")
		}
	}
	return member, ""
}

// onCam tells whether the mark or what it is against sits on a cam's side of the drive.
func (f *Form) onCam() bool {
	return slices.ContainsFunc([]string{f.mark.On, f.mark.Against}, func(member string) bool {
		return strings.Contains(member, "cam") || strings.Contains(member, "inlet") || strings.Contains(member, "exhaust")
	})
}

func (f *Form) isNew() bool    { return !f.again }
func (f *Form) isRead() bool   { return len(f.read) > 0 }
func (f *Form) isOff() bool    { return f.off.unit != "" }
func (f *Form) inLength() bool { return f.off.unit == mark.Chord || f.off.unit == mark.Arc }
func (f *Form) inTeeth() bool  { return f.off.unit == mark.Teeth }
