package session

import (
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/job"
)

// known is the job as far as it can be answered: with what the stores hold, and without
// cylinders and lobes of which nothing is read yet.
func (s *Session) known() job.Job {
	j := s.Job
	j.Cylinders, j.Lobes = nil, nil
	for _, c := range s.Job.Cylinders {
		if c.Number == s.Number {
			c.Readings = s.state.Readings
		}
		if len(c.Readings)+len(c.Stops)+len(c.Dwell)+len(c.Views) > 0 {
			j.Cylinders = append(j.Cylinders, c)
		}
	}
	for _, l := range s.Job.Lobes {
		if len(l.Readings) > 0 {
			j.Lobes = append(j.Lobes, l)
		}
	}
	return j
}

// more tells whether the answer has more to say than where TDC is.
func (s *Session) more() bool {
	return len(s.Job.Marks)+len(s.Job.Lobes) > 0 || len(s.Job.Cylinders) > 1
}

// found is what find says of the job as far as it is typed; false while it cannot be
// asked.
func (s *Session) found() (find.Answer, bool) {
	j := s.known()
	if len(j.Cylinders) == 0 {
		return find.Answer{}, false
	}
	f, err := find.Of(j)
	return f, err == nil
}

// judged says what is off and what it points to, where that is another than was said last.
func (s *Session) judged() {
	if !s.more() {
		return
	}
	f, ok := s.found()
	if !ok {
		return
	}
	if parts := f.Judgement(); len(parts) > 0 && !slices.Equal(parts, s.verdict) {
		s.verdict = parts
		s.answer(s.state.block(parts))
	}
}

// look says what to look at or read next, which would tell more.
func (s *Session) look(string) (do func() error, err error) {
	return func() error {
		f, ok := s.found()
		var parts []string
		if ok {
			parts = f.ToLookAt()
		}
		if len(parts) == 0 {
			parts = []string{"Nothing that is read so far asks for another look."}
		}
		s.answer(s.state.block(parts))
		if ok {
			s.answer(s.state.block([]string{s.state.nextWords()}))
		}
		return nil
	}, nil
}

// whole is what find says of the whole job, as at its end.
func (s *Session) whole() string {
	f, ok := s.found()
	if !ok || !s.more() {
		return ""
	}
	page, err := form.Terminal(f.Head(), s.Width)
	if err != nil {
		return ""
	}
	return "\n" + strings.TrimLeft(string(page), "\n")
}
