package mark

import (
	"fmt"

	"evendrop/tdc/evidence"
)

// Error is what is wrong with a mark, or with a joint of the drive's own.
type Error struct {
	Joint   bool   // of a joint, else of a mark
	Index   int    // among the joints or the marks, from 0
	Set     bool   // of the mark's set
	Lobe    string // the name of the lobe that it is of; "" of a mark
	LobeSet int    // that the lobe was read in
	Problem string
}

// Error is the problem, which names the mark or the joint.
func (e *Error) Error() string { return e.Problem }

// ofMark is a problem of a mark.
func ofMark(index int, m Mark, format string, args ...any) *Error {
	e := &Error{Index: index, Problem: fmt.Sprintf("%s %q: ", m.kind(), m.Name) + fmt.Sprintf(format, args...)}
	if m.Lobe != nil {
		e.Lobe, e.LobeSet = m.Name, evidence.SetOf(m.Set)
	}
	return e
}

// ofJoint is a problem of a joint.
func ofJoint(index int, j Joint, format string, args ...any) error {
	return &Error{Joint: true, Index: index, Problem: fmt.Sprintf("joint %q: ", j.Name()) + fmt.Sprintf(format, args...)}
}
