package edges

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/wheel"
)

// Into is the edges, and where the gap stands by a tooth that was read, as entries for
// the end of a job, and what to say of them. An error is of a job that cannot be read or
// has another crank wheel, of equal parts that nothing tells apart, of a tooth that the
// wheel has not, and of too few turns.
func (e Edges) Into(path string, tooth Tooth) (tables []byte, added string, err error) {
	j, err := job.Open(path)
	if err != nil {
		return nil, "", err
	}
	e.on = settled(e.on, j.Drive)
	w := e.result.Wheel
	if own, err := wheel.Parse(j.Drive.CrankWheel); err == nil && !own.Alike(w) {
		return nil, "", usage.Errorf("--wheel %s: %s says crank_wheel = %q: correct one of them", w.Name, path, j.Drive.CrankWheel)
	}
	if !e.result.PartsTold {
		return nil, "", fmt.Errorf("%s: the crank wheel has %d equal parts and nothing tells which is which, so nothing was written: capture the cams too", path, w.Parts())
	}
	if tooth.Number > 0 {
		if e.gap, err = tooth.gap(w, j.Setup.Protractor); err != nil {
			return nil, "", err
		}
	}
	tables, marks := e.Marks()
	if marks == 0 {
		return nil, "", fmt.Errorf("%s: too few turns to say how sure the edges are, so nothing was written: ten turns or more would tell, where the engine may safely turn", path)
	}
	added = fmt.Sprintf("%s: %s added at the end.", path, words.Count(marks, "mark"))
	if tooth.Number == 0 {
		added += " A capture does not show TDC: for where the gap stands from it, add --tooth N --at ANGLE."
	}
	return tables, added, nil
}

// gap is where the first tooth after the gap was at the sensor: as it was typed
// where that tooth was read, and else as many degrees before as the tooth comes
// after it.
func (t Tooth) gap(w wheel.Wheel, protractor evidence.Protractor) (*gap, error) {
	if !t.of(w) {
		return nil, t.missing(w)
	}
	after := w.Angle(float64(t.Number - 1))
	gap := &gap{tooth: t.Number, typed: t.At, after: after}
	for _, text := range t.At {
		written, err := measure.ParseAngle(text)
		if err != nil {
			return nil, usage.Errorf("--at %v", err)
		}
		read, err := protractor.Crank(written)
		if err != nil {
			return nil, usage.Errorf("--at %v", err)
		}
		if t.Number == 1 {
			gap.reads = append(gap.reads, text)
		} else {
			gap.reads = append(gap.reads, beforeOrAfter(read-after))
		}
	}
	return gap, nil
}

// beforeOrAfter writes a crank angle from the protractor's zero so that a scale
// of any kind has it: as degrees BTDC or ATDC.
func beforeOrAfter(a geometry.Angle) string {
	degrees := a.Signed().Degrees()
	side := " ATDC"
	if degrees < 0 {
		side = " BTDC"
	}
	return strconv.FormatFloat(math.Round(math.Abs(degrees)*1e4)/1e4, 'f', -1, 64) + side
}
