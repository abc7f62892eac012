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
}

// Judge holds each mark against the TDC that result found.
func Judge(setup tdc.Setup, result tdc.Result, marks []Mark) ([]Finding, error) {
	findings := make([]Finding, 0, len(marks))
	for _, m := range marks {
		f, err := judge(setup, result, m)
		if err != nil {
			return nil, fmt.Errorf("mark %q: %w", m.Name, err)
		}
		findings = append(findings, f)
	}
	return findings, nil
}

func judge(setup tdc.Setup, result tdc.Result, m Mark) (Finding, error) {
	f := Finding{Mark: m, Verdict: NoLimitSaid}
	var spread tdc.Spread
	var off geometry.Angle
	if m.Off != nil {
		shift, half, err := m.Off.crankAngle(m.On)
		if err != nil {
			return Finding{}, err
		}
		off = shift
		spread.Rectangular = []float64{float64(half) / math.Sqrt(3)}
	} else {
		f.Position, spread = result.After(m.Read)
		f.Nominal = m.ShouldBe
		if m.Zero == Throw {
			toTDC, half, err := setup.ThrowToTDC()
			if err != nil {
				return Finding{}, err
			}
			f.Nominal -= toTDC
			spread.Rectangular = append(spread.Rectangular, float64(half)/math.Sqrt(3))
		}
		off = (f.Position - f.Nominal).Signed()
	}
	f.Estimate = spread.Estimate(off)
	if m.HasLimit {
		f.Verdict = Decide(off, f.Expanded, m.Limit)
	}
	return f, nil
}
