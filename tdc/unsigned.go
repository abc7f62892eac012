package tdc

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/look"
)

// Angles lose their sign on a scale that counts up both ways from its zero: 9 is
// typed for 9 before it, and lies on the wrong side. A flank of them is told by
// trying the other sign on the legs that go against their turn; one alone by its
// place among the others and its depth.

// withSigns is the result where a whole flank's signs may have been left out: then
// there is no answer but what to type.
func withSigns(setup evidence.Setup, c evidence.Cylinder, r Result, err error) (Result, error) {
	flank := unsignedFlank(setup, c)
	switch {
	case len(flank) == 0:
		return r, err
	case err != nil:
		return r, finding.Refusal{Finding: unsigned(c.Readings, flank)}
	}
	if r.AgainstTurn() {
		r.Findings = r.Findings[1:]
	}
	r.CannotTell = unsigned(c.Readings, flank)
	r.sayFirst(r.CannotTell)
	return r, nil
}

// unsignedFlank is the readings, by place, that were typed on one side of the zero
// with all others, go against their turn, and on the other side make two flanks that
// fit. None is the rule.
func unsignedFlank(setup evidence.Setup, c evidence.Cylinder) []int {
	p := setup.Protractor
	if !evidence.OneSided(c.Readings) {
		return nil
	}
	flank, turning := againstTurn(legs(c.Readings, p.Still()))
	if len(flank) == 0 || len(flank) > len(c.Readings)-fewestFlank || len(turning) > mostTurning {
		return nil
	}
	crank, _, badEngine := evidence.WithAssumed(setup.Engine)
	if badEngine != nil {
		return nil
	}
	misfit := func(flank []int) float64 {
		angle, depth := evidence.Columns(mirrored(c.Readings, flank))
		return look.All(crank, angle, depth).Top.Misfit
	}
	for _, i := range turning { // it may belong to either leg
		if more := append(slices.Clone(flank), i); misfit(more) < misfit(flank) {
			flank = more
		}
	}
	slices.Sort(flank)
	c.Readings = mirrored(c.Readings, flank)
	other, otherErr := find(setup, c)
	if otherErr != nil || other.CannotTell != nil || !other.parts(flank) || other.fit.Widening.Factor > fitsStill {
		return nil
	}
	return flank
}

// mostTurning is as many turning points as sweeps both ways, twice over, have; more
// are no order.
const mostTurning = 8

// fitsStill is how much more than the instruments explain readings may scatter and fit.
const fitsStill = 2

// fewestFlank is how many readings are a flank here; fewer may be chance.
const fewestFlank = 2

// againstTurn is the readings of the legs that go against their turn, and those at
// which such a leg and another meet.
func againstTurn(list []leg) (inside, turning []int) {
	for k, l := range list {
		if !l.contrary() || l.steps < fewestFlank {
			continue
		}
		from, to := l.from, l.to
		if k > 0 && list[k-1].to == from {
			turning = append(turning, from)
			from++
		}
		if k+1 < len(list) && list[k+1].from == to {
			turning = append(turning, to)
			to--
		}
		for i := from; i <= to; i++ {
			inside = append(inside, i)
		}
	}
	return inside, turning
}

// mirrored is the readings, some of them on the other side of the zero.
func mirrored(read []evidence.Reading, which []int) []evidence.Reading {
	read = slices.Clone(read)
	for _, i := range which {
		read[i].Angle = -read[i].Angle
	}
	return read
}

// parts tells whether some readings are one flank of TDC and all others the other; a
// few of each may lie between the zero and TDC.
func (r Result) parts(flank []int) bool {
	var side [2][2]float64 // of the others, of the flank: before, after
	for i, j := range r.Readings {
		of, at := 0, 0
		if slices.Contains(flank, i) {
			of = 1
		}
		if (j.Angle - r.TDC.Angle).Signed() > 0 {
			at = 1
		}
		side[of][at]++
	}
	const most = 0.75
	apart := func(one, other [2]float64) bool {
		return one[0] >= most*(one[0]+one[1]) && other[1] >= most*(other[0]+other[1])
	}
	return apart(side[0], side[1]) || apart(side[1], side[0])
}

// unsigned is which readings lost their sign.
func unsigned(read []evidence.Reading, flank []int) finding.FlankUnsigned {
	f := finding.FlankUnsigned{Place: finding.At(read[flank[0]])}
	for from, k := 0, 1; k <= len(flank); k++ {
		if k < len(flank) && flank[k] == flank[k-1]+1 {
			continue
		}
		f.Lines = append(f.Lines, finding.Lines{From: read[flank[from]].Line, To: read[flank[k-1]].Line})
		from = k
	}
	return f
}

// offItsRun is how far out of the order of its neighbours an angle at place i would
// lie; false where they show no order.
func offItsRun(read []evidence.Reading, i int, angle geometry.Angle) (geometry.Angle, bool) {
	const reach, fewest = 3, 3 // neighbours on each side that must be in order, and of all
	var run []evidence.Reading
	at := 0
	for k := max(0, i-reach); k <= min(len(read)-1, i+reach); k++ {
		switch {
		case k == i:
			at = len(run)
		case unlikeSweeps(read[i], read[k]):
		case len(run) > 0 && onward(run[len(run)-1], read[k]) < 0:
			return 0, false
		default:
			run = append(run, read[k])
		}
	}
	if len(run) < fewest {
		return 0, false
	}
	place, off := read[i], 0.0
	place.Angle = angle
	if at > 0 {
		off = math.Max(off, -onward(run[at-1], place))
	}
	if at < len(run) {
		off = math.Max(off, -onward(place, run[at]))
	}
	return geometry.Angle(off), true
}

// offRun is how far off its run a reading's angle must lie to be asked about.
const offRun = 1.5 * geometry.Degree

// unsignedRows is the readings, each alone, that belong on the other side of the zero and
// not where they were typed: by their order, whatever the curve makes of them, or by their
// depth. At the end of a sweep order alone is not enough, for there another may begin.
func (r Result) unsignedRows(read []evidence.Reading) (list []finding.Finding) {
	for i, row := range read {
		off, ordered := offItsRun(read, i, row.Angle)
		offMirror, _ := offItsRun(read, i, -row.Angle)
		inside := i > 0 && i < len(read)-1 && !unlikeSweeps(read[i-1], row) && !unlikeSweeps(row, read[i+1])
		byOrder := ordered && inside && off > offRun
		byDepth := r.Readings[i].Suspect && (r.setup.Protractor.Scale != evidence.Full || ordered && off > offRun)
		if offMirror > 0 || !byOrder && !(byDepth && r.fits(row, r.Since(i)-2*row.Angle)) {
			continue
		}
		list = append(list, finding.RowUnsigned{Place: finding.At(row)})
	}
	return list
}

// keepFittingSigns drops what order alone says of a reading's sign where the others, without it,
// say that it fits as it was typed and not on the other side of the zero.
func (r *Result) keepFittingSigns(setup evidence.Setup, c evidence.Cylinder) {
	r.Findings = slices.DeleteFunc(r.Findings, func(f finding.Finding) bool {
		row, is := f.(finding.RowUnsigned)
		return is && fitsAsTyped(setup, c, slices.IndexFunc(c.Readings, func(read evidence.Reading) bool {
			return finding.At(read) == row.Place
		}))
	})
}

// fitsAsTyped tells whether all readings but one say that this one fits where it was typed,
// and not on the other side of the zero.
func fitsAsTyped(setup evidence.Setup, c evidence.Cylinder, i int) bool {
	row := c.Readings[i]
	c.Readings = slices.Delete(slices.Clone(c.Readings), i, i+1)
	others, err := find(setup, c)
	if err != nil || others.CannotTell != nil {
		return false
	}
	if others.setup.Gauge.Counts != setup.Gauge.Counts { // it was found to count the other way
		row.Depth = -row.Depth
	}
	return others.fits(row, row.Angle) && !others.fits(row, -row.Angle)
}

// fits tells whether a reading's depth is the curve's at an angle.
func (r Result) fits(row evidence.Reading, angle geometry.Angle) bool {
	depth, sigma := r.Expect(angle, row.Turn)
	return math.Abs(float64(row.Depth-r.setup.Gauge.Falling(depth))) < solve.SuspectBeyond*float64(sigma)
}
