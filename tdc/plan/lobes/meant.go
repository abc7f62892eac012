package lobes

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// meant is a lobe as it is expected: straight flanks in the measure that straightens
// them, alike on both sides.
type meant struct {
	top, checking geometry.Length // on the gauge
	timing        lobe.Timing     // at the checking lift
	placed        bool            // where it opens and closes is known
	centred       bool            // or where its centre is
	assumed       []finding.Finding
}

// What is taken where neither card nor readings say it (common practice, no source).
const (
	usualTop      = 9 * geometry.Millimetre
	usualDuration = 240 * geometry.Degree
	// leastTimes is how many times the checking lift a top is at least, where nobody says
	// it: cards are checked on the lower half of a flank.
	leastTimes = 2.5
	// lowDown is up to which part of the top the usual duration is taken for that of any lift.
	lowDown = 0.2
)

// expected is a lobe by its readings, where they tell its events, or else by its card;
// and what had to be assumed.
func expected(m lobe.Measured) (e meant) {
	of := finding.Mark{Name: m.Name}
	e.checking, e.top = m.Checking(), m.CardTop()
	if m.Events != nil && (e.top == 0 || m.ReadAt(finding.TopOfLobe, m.Top, 0)) {
		e.top = m.Top
	}
	if e.top == 0 {
		e.top = max(usualTop, leastTimes*e.checking)
		e.assumed = append(e.assumed, finding.LobeTopAssumed{Mark: of, Top: e.top})
	}
	switch {
	case m.Events != nil:
		e.timing, e.placed = m.Events.Timing(), true
	case m.Card.HasEvents:
		e.timing, e.placed = lobe.Timed(m.Card.Opens, m.Card.Closes), true
	default:
		e.centred = m.Card.HasCentre
		centre := m.Card.Centre.Signed()
		duration := e.usual()
		e.timing = lobe.Timing{Opens: centre - duration/2, Closes: centre + duration/2}
		e.assumed = append(e.assumed, finding.LobeUncarded{Mark: of, Centred: e.centred, Lift: e.checking, Duration: duration})
	}
	return e
}

// usual is for how long a lobe commonly lifts more than the checking lift: less where that is
// high on the flank, to a whole degree.
func (e meant) usual() geometry.Angle {
	if e.checking <= lowDown*e.top {
		return usualDuration
	}
	share := (math.Pi/2 - e.straight(e.checking)) / (math.Pi/2 - e.straight(lowDown*e.top))
	return geometry.Angle(math.Round(share*usualDuration.Degrees())) * geometry.Degree
}

// straight is a lift in the measure that straightens a flank; a quarter turn at the top.
func (e meant) straight(lift geometry.Length) float64 {
	return math.Asin(math.Sqrt(math.Min(1, math.Max(0, float64(lift/e.top)))))
}

// reaches is how far from the centre a flank has a lift.
func (e meant) reaches(lift geometry.Length) geometry.Angle {
	share := (math.Pi/2 - e.straight(lift)) / (math.Pi/2 - e.straight(e.checking))
	return geometry.Angle(share) * e.timing.Duration() / 2
}

// lift is what the gauge shows so far from the centre.
func (e meant) lift(from geometry.Angle) geometry.Length {
	share := math.Abs(float64(from / (e.timing.Duration() / 2)))
	return e.top * geometry.Length(sq(math.Cos(share*(math.Pi/2-e.straight(e.checking)))))
}

func sq(x float64) float64 { return x * x }
