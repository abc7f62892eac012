package lobe

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// fewestBack is how many steps back are more than somebody's going back to come up again,
// which is one, and more than two rows that changed places.
const fewestBack = 3

// runBack looks for readings, in the order that they stand in, that follow one another as
// the crank turns backward.
func (d *laid) runBack() {
	steps := 0
	for i := 1; i < len(d.read); i++ {
		by := (d.read[i].Angle - d.read[i-1].Angle).Signed()
		if by >= -d.step || by < -rereadFrom {
			steps = 0
			continue
		}
		if steps++; steps >= fewestBack && (d.backward == nil || steps+1 > d.backward.Rows) {
			d.backward = &finding.LiftsRunBack{Mark: d.lobe.about(), Place: d.read[i-steps].place(), Rows: steps + 1}
		}
	}
}

// leaveOut leaves out the one reading that alone keeps the lifts from rising to one top and
// falling from it: a lift or an angle that was mistyped. Of several that would do, it is the
// one without which the flanks are by far the straightest. Where none is, all stay, and the
// first that goes the wrong way is out of line. Nothing is left out in silence.
func (d *laid) leaveOut() {
	wrong, first := d.wrongSteps(-1)
	if wrong == 0 {
		return
	}
	d.outOfLine = &finding.LiftOutOfLine{Mark: d.lobe.about(), Place: d.read[first].place(), Lift: d.read[first].Lift}
	alone, bend, next := -1, math.Inf(1), math.Inf(1)
	for i := range d.read {
		if wrong, _ := d.wrongSteps(i); wrong > 0 {
			continue
		}
		switch b := d.bend(i); {
		case b < bend:
			alone, bend, next = i, b, bend
		case b < next:
			next = b
		}
	}
	const farStraighter = 3
	if alone >= 0 && farStraighter*bend < next {
		d.outOfLine.Place, d.outOfLine.Lift, d.outOfLine.LeftOut = d.read[alone].place(), d.read[alone].Lift, true
		d.read = slices.Delete(d.read, alone, alone+1)
	}
}

// bend is how far a reading lies, at the most, from the line between those beside it on its
// flank, one of them left out, in the measure that straightens a flank.
func (d *laid) bend(but int) (most float64) {
	of := slices.Delete(slices.Clone(d.read), but, but+1)
	top := highest(of)
	straight := laid{top: float64(of[top].Lift)}
	for k := 1; k+1 < len(of); k++ {
		if before, after := of[k-1], of[k+1]; k != top && after.Angle > before.Angle {
			share := float64((of[k].Angle - before.Angle) / (after.Angle - before.Angle))
			from, to := straight.straight(float64(before.Lift)), straight.straight(float64(after.Lift))
			most = math.Max(most, math.Abs(straight.straight(float64(of[k].Lift))-from-share*(to-from)))
		}
	}
	return most
}

// wrongSteps is how many readings, one of them left out, are followed by a lower one before
// the top, or by a higher one after it, and the first of those: by more than the gauge and
// the heel make of two lifts, and farther off than the protractor errs by.
func (d *laid) wrongSteps(but int) (steps, first int) {
	of := make([]int, 0, len(d.read))
	for i := range d.read {
		if i != but {
			of = append(of, i)
		}
	}
	top := 0
	for k, i := range of {
		if d.read[i].Lift > d.read[of[top]].Lift {
			top = k
		}
	}
	apart := d.step + 2*geometry.Angle(math.Sqrt(3*d.line)) + 1e-9
	for k, i := range of {
		for next := k + 1; next < len(of); next++ {
			j := of[next]
			if d.read[j].Angle-d.read[i].Angle <= apart {
				continue
			}
			by := d.read[j].Lift - d.read[i].Lift
			if next <= top && by < -d.lifts() || k >= top && by > d.lifts() {
				if steps++; steps == 1 {
					first = i
				}
			}
			break
		}
	}
	return steps, first
}

// lifts is what two readings of one lift may differ by.
func (d *laid) lifts() geometry.Length {
	return geometry.Length(3 * math.Sqrt2 * math.Hypot(d.gauge(), float64(d.lobe.Gauge.RunOut)/2))
}
