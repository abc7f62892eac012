package lobe

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// laid is a lobe's readings laid out along the crank's turning, turns counted, parted at
// the highest.
type laid struct {
	lobe             Lobe
	step             geometry.Angle
	line             float64   // variance of the protractor's error at one line, radians squared
	read             []Reading // by angle, and none that was taken turning backward
	angle, lift, z   []float64 // radians, mm, and the lift in a measure that straightens a flank
	top              float64   // mm
	opening, closing flank
	backward         *finding.LiftsRunBack  // nil where the order of the rows goes forward
	outOfLine        *finding.LiftOutOfLine // nil where all lifts rise to the top and fall from it
}

// flank is the readings on one side of the highest, by angle.
type flank struct {
	side  finding.LobeFlank
	rises float64 // 1 while the valve opens, -1 while it closes
	of    []int
}

// layOut lays a lobe's readings out; what is in the way of that is a finding.
func layOut(p evidence.Protractor, l Lobe) (laid, finding.Finding) {
	d := laid{lobe: l, step: p.Step, line: sq(float64(p.Error)) / 3}
	for _, r := range l.Readings {
		if r.Turn != evidence.Backward {
			d.read = append(d.read, r)
		}
	}
	d.runBack()
	d.read = unwound(d.read)
	if len(d.read) == 0 {
		return d, finding.LobeFewReadings{Mark: l.about(), Least: fewest}
	}
	byAngle(d.read)
	if over := d.read[len(d.read)-1]; over.Angle-d.read[0].Angle >= once && !d.onOneTurn() {
		return d, finding.RoundTwice{Mark: l.about(), Place: over.place()}
	}
	d.read = fromTheHeel(d.read, d.lifts())
	d.leaveOut()
	return d, d.part()
}

func byAngle(read []Reading) {
	slices.SortStableFunc(read, func(a, b Reading) int { return cmp.Compare(a.Angle, b.Angle) })
}

// onOneTurn lays readings of several laps on one, as when lifts that were left out are read
// on a later lap: a lobe lifts within one turn, and on each lap alike. They stay as they are,
// and it is false, where their lifts then do not rise to one top and fall from it.
func (d *laid) onOneTurn() bool {
	laps := d.read
	d.read = slices.Clone(laps)
	for i := range d.read {
		by := (d.read[i].Angle - laps[0].Angle).Positive()
		if by >= once {
			by = 0
		}
		d.read[i].Angle = laps[0].Angle + by
	}
	byAngle(d.read)
	one := !d.contradicts()
	d.read = fromTheHeel(d.read, d.lifts())
	if wrong, _ := d.wrongSteps(-1); wrong > 0 || !one {
		d.read = laps
		return false
	}
	return true
}

// contradicts tells whether two readings at one line of the protractor have lifts that the
// gauge and the heel cannot both have shown.
func (d *laid) contradicts() bool {
	for i := 1; i < len(d.read); i++ {
		a, b := d.read[i-1], d.read[i]
		if b.Angle-a.Angle < geometry.Turn-once && math.Abs(float64(b.Lift-a.Lift)) > float64(d.lifts()) {
			return true
		}
	}
	return false
}

// once is a turn, but for the last digits of sums of angles.
const once = geometry.Turn - 1e-9

// fewest is how few readings may tell two events.
const fewest = 4

// rereadFrom is how far somebody goes back to come up to a flank again, at most.
const rereadFrom = 90 * geometry.Degree

// unwound is readings with their turns counted, in the order turned. What goes round more
// than once is taken to be a flank that was read again.
func unwound(read []Reading) []Reading {
	forward := counted(read, 0)
	if n := len(forward); n == 0 || forward[n-1].Angle-forward[0].Angle < once {
		return forward
	}
	return counted(read, rereadFrom)
}

// counted is readings with their turns counted, each after the one before it but for
// steps back of at most so much.
func counted(read []Reading, back geometry.Angle) []Reading {
	out := slices.Clone(read)
	for i := 1; i < len(out); i++ {
		by := (read[i].Angle - read[i-1].Angle).Signed()
		if by < -back {
			by += geometry.Turn
		}
		out[i].Angle = out[i-1].Angle + by
	}
	return out
}

// fromTheHeel is readings by angle of one lobe, so that both flanks stand about its top
// though reading was begun on one of them, or at the top: a lobe comes round again, and the
// crank's turns look alike. They begin after the widest gap after which the fewest lifts go
// the wrong way, by more than doubt; elsewhere than they do only where that leaves out half
// of those.
func fromTheHeel(read []Reading, doubt geometry.Length) []Reading {
	n, highest := len(read), highest(read)
	wrong := func(cut int) (steps int) {
		top := (highest - cut + n) % n
		for k := 1; k < n; k++ {
			by := read[(cut+k)%n].Lift - read[(cut+k-1)%n].Lift
			if k <= top && by < -doubt || k > top && by > doubt {
				steps++
			}
		}
		return steps
	}
	least, at, widest := wrong(0)/2, 0, geometry.Angle(0)
	if wrong(0) == 0 {
		widest = read[0].Angle + geometry.Turn - read[n-1].Angle
	}
	for cut := 1; cut < n; cut++ {
		steps, gap := wrong(cut), read[cut].Angle-read[cut-1].Angle
		if steps < least || steps == least && gap > widest {
			least, at, widest = steps, cut, gap
		}
	}
	before := slices.Clone(read[at:])
	for i := range before {
		if at > 0 {
			before[i].Angle -= geometry.Turn
		}
	}
	return append(before, read[:at]...)
}

// highest is the first of the greatest lifts.
func highest(read []Reading) (at int) {
	for i, r := range read {
		if r.Lift > read[at].Lift {
			at = i
		}
	}
	return at
}

// part parts the readings at the highest.
func (d *laid) part() finding.Finding {
	highest := highest(d.read)
	for _, r := range d.read {
		d.angle, d.lift = append(d.angle, float64(r.Angle)), append(d.lift, float64(r.Lift))
	}
	d.top = d.lift[highest]
	if d.top <= 0 {
		return finding.LobeFewReadings{Mark: d.lobe.about(), Readings: len(d.read), Least: fewest}
	}
	for _, lift := range d.lift {
		d.z = append(d.z, d.straight(lift))
	}
	d.opening, d.closing = flank{side: finding.OpeningFlank, rises: 1}, flank{side: finding.ClosingFlank, rises: -1}
	for i := range d.read {
		switch {
		case i < highest:
			d.opening.of = append(d.opening.of, i)
		case i > highest:
			d.closing.of = append(d.closing.of, i)
		}
	}
	if len(d.read) < fewest {
		return finding.LobeFewReadings{Mark: d.lobe.about(), Readings: len(d.read), Least: fewest}
	}
	return nil
}

// straight is a lift in the measure in which a flank is nearly straight.
func (d *laid) straight(lift float64) float64 {
	return math.Asin(math.Sqrt(math.Min(1, math.Max(0, lift/d.top))))
}
