package adjust

import (
	"errors"
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
)

// Place is where a reading is to be taken, and the way to turn up to it.
type Place struct {
	Angle geometry.Angle // crank, after TDC in the running direction
	Turn  evidence.TurnDirection
}

// Foreseen is how well readings that nobody has taken yet would tell TDC.
type Foreseen struct {
	TDC     gum.Estimate // as an error-free protractor would show it
	AgreeTo gum.Estimate // without the protractor's own error: what the readings would agree to
	Budget  []Contribution
}

// Foresee is what the adjustment would say of its own uncertainty, had it one
// reading at each place and scatter as the instruments are stated. It adjusts
// readings without error: places that do not fix TDC are an error.
func Foresee(setup evidence.Setup, places []Place) (Foreseen, error) {
	crank, assumed, err := evidence.WithAssumed(setup.Engine)
	if err != nil {
		return Foreseen{}, err
	}
	solved, err := solve.Readings(setup, crank, assumed, perfect(setup, crank, places), nil, look.Rough{Scale: 1})
	if err != nil {
		return Foreseen{}, err
	}
	a := Adjustment{Solved: solved}
	if !a.Determined() {
		return Foreseen{}, errors.New("readings at these places do not fix TDC")
	}
	return Foreseen{a.TDC(), a.AgreeTo(), a.Budget()}, nil
}

// perfect is readings without error of an engine that is as stated.
func perfect(setup evidence.Setup, crank geometry.SliderCrank, places []Place) []evidence.Reading {
	a := probe(setup, crank, 0, places)
	depth, _, _ := a.Evaluate(expected(setup, crank), a.Angle)
	for i := range a.Read {
		a.Read[i].Depth = geometry.Length(depth[i])
	}
	return a.Read
}

// expected is the adjustment's parameters with everything as stated.
func expected(setup evidence.Setup, crank geometry.SliderCrank) []float64 {
	return []float64{curve.Scale: 1, curve.Lash: float64(setup.Gauge.Lash), curve.Offset: float64(crank.Offset()), curve.Count - 1: 0}
}

// probe is an adjustment with readings at places about TDC at an angle, to
// evaluate and not to solve.
func probe(setup evidence.Setup, crank geometry.SliderCrank, tdc float64, places []Place) *solve.Solved {
	a := &solve.Solved{Setup: setup, Crank: crank, Model: curve.Model{Crank: crank, Hang: curve.NewHang(setup.Gauge)}}
	for _, p := range places {
		a.Read = append(a.Read, evidence.Reading{Angle: geometry.Angle(tdc) + p.Angle, Turn: p.Turn})
		a.Angle = append(a.Angle, tdc+float64(p.Angle))
		a.Model.Turn = append(a.Model.Turn, float64(p.Turn))
	}
	a.SigmaY = make([]float64, len(places))
	a.AllowForHang(tdc)
	return a
}

// Expect is what the gauge should show at an angle of the protractor, turned up
// to so, and the standard uncertainty of what it will show there.
func (a *Adjustment) Expect(angle geometry.Angle, turn evidence.TurnDirection) (depth, uncertainty geometry.Length) {
	u := (angle - a.At()).Signed()
	p := probe(a.Setup, a.Crank, a.Best.Beta[curve.TDC], []Place{{u, turn}})
	y, slope, jac := p.Evaluate(a.Best.Beta, p.Angle)
	variance := sq(p.SigmaY[0]) + sq(slope[0]*float64(a.Setup.Protractor.Uncertainty()))
	for j, row := range a.Cov {
		for k := range row {
			variance += jac[j][0] * row[k] * jac[k][0]
		}
	}
	return a.Setup.Gauge.Falling(geometry.Length(y[0])), geometry.Length(a.Widening.Factor * math.Sqrt(variance))
}
