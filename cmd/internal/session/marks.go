package session

import (
	"cmp"
	"strings"

	"evendrop/cmd/internal/session/marking"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/amend"
)

// asking is a question that the next line answers.
type asking interface {
	// Question is what is asked next, and what Enter stands for; done is that nothing is.
	Question() (text, standard string, done bool)
	// Take takes an answer. An error says what to type instead.
	Take(answer string) error
}

// questions is what is asked, and what is done with the answers.
type questions struct {
	asking
	of   string // what they are about
	left string // said of it when it is left; "" of something new, which is not kept then
	then func() error
}

// mark takes a mark as far as it is typed, and asks for the rest.
func (s *Session) mark(rest string) (do func() error, err error) {
	f, err := marking.Typed(rest, s.Job, s.set, s.firstRead())
	if err != nil {
		return nil, err
	}
	return func() error {
		return s.ask(&questions{asking: f, of: "mark", then: func() error { return s.keepMark(f) }})
	}, nil
}

// firstRead is how many readings of cylinder 1 there are in the set at hand.
func (s *Session) firstRead() int {
	if s.Number == 1 {
		return len(s.state.Current)
	}
	for _, c := range s.Job.Cylinders {
		if c.Number == 1 {
			inSet, _ := c.In(s.set)
			return len(inSet.Readings)
		}
	}
	return 0
}

// keepMark writes a mark into the job file.
func (s *Session) keepMark(f *marking.Form) error {
	d := s.table("mark", "name", f.Name(), f.Mark())
	if err := s.amend(amend.With(append(f.Drive(), f.Mark()...))); err != nil {
		return err
	}
	s.did(d)
	s.answer(s.state.Block([]string{"Kept: " + d.what + "."}))
	s.judged()
	return nil
}

// ask asks what is missing, or does what the answers are for.
func (s *Session) ask(q *questions) error {
	text, standard, done := q.Question()
	if done {
		s.asked = nil
		return q.then()
	}
	if !s.Patient {
		return s.takeUsual(q, text, standard)
	}
	s.asked = q
	if standard != "" {
		text += " [" + standard + "]"
	}
	s.tell("%s", text)
	return nil
}

// takeUsual answers what nobody is there to be asked, where there is a usual answer.
func (s *Session) takeUsual(q *questions, text, standard string) error {
	if standard == "" {
		s.bad++
		s.tell("The %s is not kept: it lacks an answer. %s Type it in the same line.", q.of, text)
		return nil
	}
	s.tell("%s %s, since nothing is said.", text, words.Capital(standard))
	if err := q.Take(""); err != nil {
		return err
	}
	return s.ask(q)
}

// cancels are the words that leave a question.
var cancels = map[string]bool{"cancel": true, "undo": true, "done": true, "quit": true, "q": true}

// helps are the words that ask what may be answered.
var helps = map[string]bool{"?": true, "help": true, "back": true}

// reply takes a line as the answer to what was asked.
func (s *Session) reply(line string) error {
	q := s.asked
	if answer := strings.ToLower(strings.TrimSpace(line)); cancels[answer] {
		s.asked = nil
		s.tell("%s", cmp.Or(q.left, "Left out: the "+q.of+" is not kept."))
		return nil
	}
	if helps[strings.ToLower(strings.TrimSpace(line))] {
		s.tell("Enter takes what stands in brackets; cancel leaves the %s out, to be typed again.", q.of)
	} else if err := q.Take(line); err != nil {
		s.tell("%s.", words.Capital(err.Error()))
	}
	return s.ask(q)
}

// unanswered says that a question stands open at the end.
func (s *Session) unanswered() {
	if s.asked != nil {
		s.bad++
		s.tell("The %s is not kept: %s", s.asked.of, "its last question has no answer.")
		s.asked = nil
	}
}
