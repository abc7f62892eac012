package cams

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/lobe"
)

// Quantity is something that a learner may be asked of a lobe.
type Quantity string

// The quantities. All but the last are crank degrees after TDC.
const (
	Opens  Quantity = "opens"
	Closes Quantity = "closes"
	Centre Quantity = "centre"
	Late   Quantity = "late" // by how much the cam is late, crank degrees
)

// Answer is the truth about a lobe, and the wrong answers that lie in wait.
type Answer struct {
	Name   string  `toml:"name"`
	Valve  string  `toml:"valve"`
	Fault  Fault   `toml:"fault" comment:"what befell the cam"`
	Lost   float64 `toml:"lift_lost_mm"`
	Opens  Value   `toml:"opens" comment:"crank degrees after TDC, at the checking lift"`
	Closes Value   `toml:"closes"`
	Centre Value   `toml:"centre"`
	Late   Value   `toml:"late"`
	Traps  []Trap  `toml:"trap"`
}

// Value is a true angle, degrees, and how near to it an answer is right.
type Value struct {
	Truth float64 `toml:"deg"`
	Limit float64 `toml:"limit_deg"`
}

// Trap is a way to go wrong, and where it leads with these readings.
type Trap struct {
	Name string   `toml:"name"`
	What Quantity `toml:"of"`
	At   float64  `toml:"deg" comment:"what it gives"`
	Why  string   `toml:"why"`
}

// value is a quantity's part of the answer.
func (a Answer) value(q Quantity) Value {
	return map[Quantity]Value{Opens: a.Opens, Closes: a.Closes, Centre: a.Centre, Late: a.Late}[q]
}

// Valid tells whether an answer is one that Make made.
func (a Answer) Valid() bool {
	onScale := func(degrees float64) bool { return math.Abs(degrees) <= 720 }
	for _, v := range []Value{a.Opens, a.Closes, a.Centre, a.Late} {
		if !(onScale(v.Truth) && v.Limit > 0 && onScale(v.Limit)) {
			return false
		}
	}
	known := slices.Contains([]Fault{Nothing, Moved, Lift, Both}, a.Fault) && slices.Contains([]lobe.Valve{lobe.Inlet, lobe.Exhaust}, lobe.Valve(a.Valve))
	return known && !slices.ContainsFunc(a.Traps, func(t Trap) bool { return !onScale(t.At) })
}

// answer is the truth about a cam that is late by so much, and what its readings tell.
func answer(c cam, late float64, m lobe.Measured, b Bench) Answer {
	opens, closes := c.event(checking, -1), c.event(checking, 1)
	e, s := m.Events, m.Shift
	a := Answer{
		Name: m.Name, Valve: string(m.Valve), Fault: faultOf(late, c.lost), Lost: decimals(c.lost, 2),
		Opens:  worth(opens, e.Opens.Angle, e.Opens.Expanded),
		Closes: worth(closes, e.Closes.Angle, e.Closes.Expanded),
		Centre: worth((opens+closes)/2, e.Centre.Angle, e.Centre.Expanded),
		Late:   worth(late, s.Angle, s.Expanded),
	}
	a.Traps = a.traps(m, b)
	return a
}

// worth is a truth, with the 95 % half-width of what the readings tell, and no less than
// their own luck, up to the next tenth.
func worth(truth float64, found, expanded geometry.Angle) Value {
	luck := math.Abs(apart(found.Degrees(), truth))
	return Value{Truth: decimals(truth, 3), Limit: decimals(math.Ceil(10*math.Max(expanded.Degrees(), luck))/10, 1)}
}

// traps is where the wrong ways lead, those that lead out of what counts as right.
func (a Answer) traps(m lobe.Measured, b Bench) (list []Trap) {
	add := func(what Quantity, name string, at float64, why string) {
		at = decimals(signed(at), 2)
		if v := a.value(what); math.Abs(apart(at, v.Truth)) > v.Limit {
			list = append(list, Trap{name, what, at, why})
		}
	}
	card, e := lobe.Timed(m.Card.Opens, m.Card.Closes), m.Events
	top := highest(m.Readings).Angle - b.Result.TDC.Angle
	const (
		byTop  = "About the top the lift hardly changes, and where it is highest is anywhere within some degrees: halve equal lifts."
		byZero = "Angles of a lobe count from TDC, and the protractor's zero is not there."
		byLift = "Lift that is missing makes a valve open late and close early: only both together tell how late the cam is."
	)
	add(Centre, "the highest lift", top.Degrees(), byTop)
	add(Late, "the highest lift", (top - card.Centre()).Degrees(), byTop)
	add(Opens, "the protractor's zero", (e.Opens.Angle + b.Result.TDC.Angle).Degrees(), byZero)
	add(Closes, "the protractor's zero", (e.Closes.Angle + b.Result.TDC.Angle).Degrees(), byZero)
	add(Centre, "the protractor's zero", (e.Centre.Angle + b.Result.TDC.Angle).Degrees(), byZero)
	add(Late, "the protractor's zero", (m.Shift.Angle + b.Result.TDC.Angle).Degrees(), byZero)
	if a.Lost == 0 {
		return list
	}
	add(Late, "the opening alone", (e.Opens.Angle - card.Opens).Degrees(), byLift)
	add(Late, "the closing alone", (e.Closes.Angle - card.Closes).Degrees(), byLift)
	return list
}

// highest is the highest reading.
func highest(read []lobe.Reading) lobe.Reading {
	return slices.MaxFunc(read, func(a, b lobe.Reading) int { return cmp.Compare(a.Lift, b.Lift) })
}

// signed is degrees within half a turn of zero.
func signed(degrees float64) float64 {
	return (geometry.Angle(degrees) * geometry.Degree).Signed().Degrees()
}

// apart is how far x is after y, degrees, within half a turn.
func apart(x, y float64) float64 { return signed(x - y) }

func decimals(x float64, n int) float64 { return math.Round(x*math.Pow10(n)) / math.Pow10(n) }

// Marked is one of a learner's angles against the truth.
type Marked struct {
	What Quantity
	Value
	Given float64 // degrees
	Off   float64 // degrees, late positive
	Near  *Trap   // the trap that it seems to have come from; nil: none
}

// Within tells whether the angle is right.
func (m Marked) Within() bool { return math.Abs(m.Off) <= m.Limit+1e-9 }

// asRead is how near to each other two answers may be, degrees, and be the same: half a
// step of the protractor.
const asRead = 0.25

// Mark holds an angle against the answer. A wrong one that lies near to where a trap leads,
// and nearer than to the truth, is laid to that trap.
func (a Answer) Mark(q Quantity, given geometry.Angle) Marked {
	m := Marked{What: q, Value: a.value(q), Given: decimals(given.Degrees(), 3)}
	m.Off = decimals(apart(given.Degrees(), m.Truth), 6)
	if m.Within() {
		return m
	}
	nearest := math.Max(m.Limit, asRead)
	for i, t := range a.Traps {
		off := math.Abs(apart(given.Degrees(), t.At))
		if t.What == q && off <= nearest && off < math.Abs(m.Off) {
			m.Near, nearest = &a.Traps[i], off
		}
	}
	return m
}
