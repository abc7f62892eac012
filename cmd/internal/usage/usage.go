// Package usage is for questions that make no sense as they were put: whoever asked can
// put them right, and no file has to be mended.
package usage

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// Error is what was wrong with a question, and what to type instead.
type Error struct{ Problem string }

func (e Error) Error() string { return e.Problem }

// Errorf is an Error in words.
func Errorf(format string, args ...any) error { return Error{fmt.Sprintf(format, args...)} }

// Angle reads an angle typed as a protractor shows it. An Error is of a text that is no
// angle, and of one that the protractor does not show.
func Angle(p evidence.Protractor, text string) (geometry.Angle, error) {
	written, err := measure.ParseAngle(text)
	if err != nil {
		return 0, Error{err.Error()}
	}
	angle, err := p.Crank(written)
	if err != nil {
		return 0, Error{err.Error()}
	}
	return angle, nil
}
