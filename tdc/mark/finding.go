package mark

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc"
)

// Finding is a mark against TDC, or against the member it was measured from.
type Finding struct {
	Mark
	Position     geometry.Angle // crank, after TDC; of marks read on the protractor
	Nominal      geometry.Angle // crank, after TDC
	tdc.Estimate                // Angle is how far it is off, late positive
	Verdict      Verdict
	Settles      geometry.Angle // the expanded uncertainty that would call one too close to call
	Notes        []string       // what to bear in mind of it

	period geometry.Angle // the shift is known but for whole ones
	shared []float64      // radians: the part of its uncertainty that each source leaves all marks
}

// Judge holds each mark against the TDC that result found.
func Judge(setup tdc.Setup, result tdc.Result, drive Drive, marks []Mark) ([]Finding, error) {
	t, err := treeFor(drive, marks)
	if err != nil {
		return nil, err
	}
	findings := make([]Finding, 0, len(marks))
	for _, m := range marks {
		f, err := t.judge(setup, result, m)
		if err != nil {
			return nil, fmt.Errorf("mark %q: %w", m.Name, err)
		}
		findings = append(findings, f)
	}
	return findings, nil
}

func (t *tree) judge(setup tdc.Setup, result tdc.Result, m Mark) (Finding, error) {
	f := Finding{Mark: m, Verdict: NoLimitSaid}
	look := f.measured
	if m.Off == nil {
		look = f.readOff
	}
	off, spread, err := look(t, setup, result)
	if err != nil {
		return Finding{}, err
	}
	f.Estimate = spread.Estimate(wrapped(off, f.period))
	if m.HasLimit {
		f.Verdict = Decide(f.Angle, f.Expanded, m.Limit)
	}
	if f.Verdict == TooClose {
		f.Settles = Settles(f.Angle, m.Limit)
	}
	if note := offsetNote(setup, f); note != "" {
		f.Notes = append(f.Notes, note)
	}
	return f, nil
}

// measured is a shift that was measured without the protractor. A cam comes
// round once in two turns of the crank.
func (f *Finding) measured(t *tree, _ tdc.Setup, _ tdc.Result) (geometry.Angle, tdc.Spread, error) {
	off, half, assumed, err := t.crankAngle(f.Mark)
	if err != nil {
		return 0, tdc.Spread{}, err
	}
	if assumed {
		f.Notes = append(f.Notes, fmt.Sprintf("Its known_to is not stated: taken as %s deg of crank.", plain(half.Degrees())))
	}
	f.period = geometry.Turn
	if t.atCamSpeed(f.On) || t.atCamSpeed(orElse(f.Against, crank)) {
		f.period = 2 * geometry.Turn
	}
	return off, tdc.Spread{Rectangular: []float64{float64(half) / math.Sqrt(3)}}, nil
}

// readOff is the shift of a mark whose place was read on the protractor. Only a
// reading past 360 deg tells which turn of the cycle it was taken in.
func (f *Finding) readOff(t *tree, setup tdc.Setup, result tdc.Result) (geometry.Angle, tdc.Spread, error) {
	var spread tdc.Spread
	f.Position, spread = result.After(f.Read)
	f.shared = result.Shared(f.Read)
	f.period = geometry.Turn
	if t.atCamSpeed(f.On) && countsTwoTurns(f.Read) {
		f.period = 2 * geometry.Turn
		turns := math.Round(float64((f.Read[0] - result.TDC.Angle - f.Position) / geometry.Turn))
		f.Position = wrapped(f.Position+geometry.Angle(turns)*geometry.Turn, f.period)
	}
	f.Nominal = f.ShouldBe
	if f.Zero == Throw {
		toTDC, half, err := setup.ThrowToTDC()
		if err != nil {
			return 0, spread, err
		}
		f.Nominal -= toTDC
		u := float64(half) / math.Sqrt(3)
		spread.Rectangular = append(spread.Rectangular, u)
		f.shared = append(f.shared, u)
	}
	return f.Position - f.Nominal, spread, nil
}

// countsTwoTurns tells whether angles were read on a scale of 720 deg.
func countsTwoTurns(read []geometry.Angle) bool {
	for _, a := range read {
		if math.Abs(float64(a)) >= float64(geometry.Turn) {
			return true
		}
	}
	return false
}

// wrapped is an angle less whole periods, within half of one either way.
func wrapped(a, period geometry.Angle) geometry.Angle {
	return (a * geometry.Turn / period).Signed() * period / geometry.Turn
}
