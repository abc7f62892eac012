package session

import (
	"errors"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/lobe"
)

// typedSoFar is the job with what the stores hold.
func (s *Session) typedSoFar() job.Job {
	s.keepRead()
	return s.Job
}

// answerable is a job as far as it can be answered while it is typed: without cylinders
// beside the first, and lobes, of which there is too little yet.
func answerable(j job.Job) job.Job {
	j.Cylinders = slices.DeleteFunc(slices.Clone(j.Cylinders), func(c evidence.Cylinder) bool {
		return len(c.Readings) < standing.Least && len(c.Stops)+len(c.Dwell)+len(c.Views) == 0
	})
	j.Lobes = slices.DeleteFunc(slices.Clone(j.Lobes), func(l lobe.Lobe) bool { return len(l.Readings) == 0 })
	return j
}

// more tells whether the answer has more to say than where TDC is.
func (s *Session) more() bool {
	return len(s.Job.Marks)+len(s.Job.Lobes) > 0 || len(s.Job.Cylinders) > 1
}

// errTooFew is a job of which nothing can be asked yet.
var errTooFew = errors.New("too little is read yet to say where TDC is")

// found is what find says of the job as far as it is typed; an error while it cannot be
// asked.
func (s *Session) found() (find.Answer, error) {
	j := answerable(s.typedSoFar())
	if len(j.Cylinders) == 0 {
		return find.Answer{}, errTooFew
	}
	return find.OfBy(j, s.memory.find)
}

// judged says what is off and what it points to, where that is another than was said last.
func (s *Session) judged() {
	if !s.more() {
		return
	}
	if f, err := s.found(); err == nil {
		s.judgedBy(f)
	}
}

// judgedBy is judged by an answer that was found already.
func (s *Session) judgedBy(f find.Answer) {
	if parts := f.Judgement(); len(parts) > 0 && !slices.Equal(parts, s.verdict) {
		s.verdict = parts
		s.answer(s.state.Block(parts))
	}
}

// look says what to look at or read next, which would tell more.
func (s *Session) look(string) (do func() error, err error) {
	return func() error {
		f, err := s.found()
		var parts []string
		if err == nil {
			parts = f.ToLookAt()
		}
		if len(parts) == 0 {
			parts = []string{"Nothing that is read so far asks for another look."}
		}
		s.answer(s.state.Block(parts))
		if err == nil {
			s.answer(s.state.Block([]string{s.state.NextWords()}))
		}
		return nil
	}, nil
}

// whole is what find says of the whole job, as at its end, or why it cannot say it.
func (s *Session) whole() string {
	if !s.more() {
		return ""
	}
	f, err := find.Of(s.typedSoFar())
	if err != nil {
		s.tell("The whole job has no answer yet: %s.", words.Problem(err))
		return ""
	}
	page, err := form.Terminal(f.Head(), s.state.Columns())
	if err != nil {
		return ""
	}
	return "\n" + strings.TrimLeft(string(page), "\n")
}
