package doubt

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// nearby is how far from the last reading an angle may lie that was meant.
const nearby = 45 * geometry.Degree

// AskOfScale asks whether an angle that is not on the scale lacks its decimal point: it is
// not kept, and m takes it as it was meant. Without a reading before it there is nothing to
// go by.
func (d *Doubts) AskOfScale(t typed.Line, err error) string {
	off, ok := errors.AsType[*typed.NotOnScale](err)
	n := len(d.State.Current)
	if !ok || n == 0 || t.Order != typed.TakeReading {
		return ""
	}
	last := d.State.Current[n-1].Angle
	for _, by := range []float64{10, 100} {
		meant := off.Written
		meant.Angle /= geometry.Angle(by)
		angle, err := d.State.Job.Setup.Protractor.Crank(meant)
		if err != nil || math.Abs(float64((angle-last).Signed())) > float64(nearby) {
			continue
		}
		t.Entry.Angle = d.angleOf(evidence.Reading{Angle: angle})
		takes := t.Entry.Angle + " " + t.Entry.Depth
		d.Question = &Question{
			Text:  fmt.Sprintf("It was not kept. Did you mean %s?", t.Entry.Angle),
			keys:  fmt.Sprintf("m takes %s.", takes),
			Takes: []Take{{Keys: []string{strings.ToLower(t.Entry.Angle)}, Shows: takes, Line: t}},
		}
		return d.Question.said()
	}
	return ""
}
