package plan

import (
	"errors"
	"fmt"

	"evendrop/geometry"
)

// errMovesTooLittle is a piston too small to plan readings for.
var errMovesTooLittle = errors.New("the piston moves too little to plan readings to hundredths of a millimetre: check the stroke")

// errTooCoarse is a protractor that shows too few places on a flank to plan readings at.
var errTooCoarse = errors.New("the protractor's step is too coarse to plan readings with: check it, 18 deg would do")

// notInPairs is a number of readings that makes no pairs of equal drop each way.
type notInPairs struct{ Readings, Fewest int }

func (e notInPairs) Error() string {
	return fmt.Sprintf("%d readings: expected an even number from %d up, for pairs of equal drop each way", e.Readings, e.Fewest)
}

// TooShallow is a reach too small to plan in.
type TooShallow struct {
	Deepest geometry.Length
	Least   geometry.Length // that could be planned in
}

func (e TooShallow) Error() string {
	return fmt.Sprintf("%v is too little depth to plan in: %v at least", e.Deepest, e.Least)
}

// NoRoom is more readings than there are places for.
type NoRoom struct {
	Readings int
	Deepest  geometry.Length
	Room     int // readings that there are places for
}

func (e NoRoom) Error() string {
	return fmt.Sprintf("%d readings are too many: down to %v there are places for %d", e.Readings, e.Deepest, e.Room)
}
