package words

import "fmt"

// MoveWheel is what shrinks what a protractor's own error leaves of the marks, though not
// of TDC on it: another setting of it, which is read as a set of its own.
func MoveWheel(set int) string {
	return fmt.Sprintf("For the marks another setting helps too: move the protractor on the crank by a good part of a turn, and read marks and piston again as set %d.", set)
}
