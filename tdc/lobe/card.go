package lobe

import (
	"math"

	"evendrop/geometry"
)

// Card is what a lobe should do. Angles are crank, after the TDC between the exhaust's
// closing and the inlet's opening.
type Card struct {
	Lift          geometry.Length // the checking lift
	Opens, Closes geometry.Angle
	HasEvents     bool           // Opens and Closes are said
	Centre        geometry.Angle // or the centre alone
	HasCentre     bool
	Top           geometry.Length // the greatest lift; 0 unless said
}

// Timing is an opening and a closing, crank after TDC, with what follows from them.
type Timing struct{ Opens, Closes geometry.Angle }

// Timed is an opening and a closing, each known but for whole turns, in their order and
// with their centre within half a turn of TDC.
func Timed(opens, closes geometry.Angle) Timing {
	t := Timing{opens, opens + (closes - opens).Positive()}
	turns := geometry.Turn * geometry.Angle(math.Round(float64((t.Centre()-t.Centre().Signed())/geometry.Turn)))
	return Timing{t.Opens - turns, t.Closes - turns}
}

// Duration is how long a valve is open, crank.
func (t Timing) Duration() geometry.Angle { return t.Closes - t.Opens }

// Centre is the middle of opening and closing.
func (t Timing) Centre() geometry.Angle { return (t.Opens + t.Closes) / 2 }

// timing is the card's events.
func (c Card) timing() Timing { return Timed(c.Opens, c.Closes) }

// Beside is the card's centre in the turn that lies nearest another, and for how long it
// has the valve open, 0 where it does not say; false of a card that says neither.
func (c Card) Beside(another geometry.Angle) (centre, duration geometry.Angle, says bool) {
	if c.HasEvents {
		duration = c.timing().Duration()
	}
	centre, says = c.centre()
	return another + (centre - another).Signed(), duration, says
}

// centre is the card's; false where it says none.
func (c Card) centre() (geometry.Angle, bool) {
	if c.HasEvents {
		return c.timing().Centre(), true
	}
	return c.Centre.Signed(), c.HasCentre
}
