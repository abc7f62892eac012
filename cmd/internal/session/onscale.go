package session

import (
	"errors"
	"fmt"
	"math"

	"evendrop/cmd/internal/session/typed"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// nearby is how far from the last reading an angle may lie that was meant.
const nearby = 45 * geometry.Degree

// askOfScale asks whether an angle that is not on the scale lacks its decimal point: it is
// not kept, and m takes it as it was meant. Without a reading before it there is nothing to
// go by.
func (s *Session) askOfScale(t typed.Line, err error) {
	off, ok := errors.AsType[*typed.NotOnScale](err)
	n := len(s.state.Current)
	if !ok || n == 0 || t.Order != typed.TakeReading {
		return
	}
	last := s.state.Current[n-1].Angle
	for _, by := range []float64{10, 100} {
		meant := off.Written
		meant.Angle /= geometry.Angle(by)
		angle, err := s.state.Job.Setup.Protractor.Crank(meant)
		if err != nil || math.Abs(float64((angle-last).Signed())) > float64(nearby) {
			continue
		}
		t.Entry.Angle = s.angleOf(evidence.Reading{Angle: angle})
		s.question = &question{text: fmt.Sprintf("It was not kept. Did you mean %s?", t.Entry.Angle), keys: fmt.Sprintf("m takes %s %s.", t.Entry.Angle, t.Entry.Depth), takes: []take{{[]string{t.Entry.Angle}, t.Entry.Angle + " " + t.Entry.Depth, func() error { return s.write(t) }}}}
		s.tell("%s", s.question.said())
		return
	}
}
