// Package blunder finds, among a few readings of one piston, the one that no engine with
// these instruments can have shown beside the others, from the second reading on and before
// TDC can be determined: a decimal point, a wrong unit, a lost sign. It weighs nothing; it
// asks what is possible, with bounds, for every place of TDC, every zero of the gauge and
// every engine that the job allows. What it finds is a value: no words.
package blunder

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// The grid of crank angles: places a degree, and places from one assumed TDC to the next.
const (
	perDegree = 4
	turn      = 360 * perDegree
	tdcStep   = 4
)

// Bounds wider than the instruments' own: a worn engine has more lash than a job
// expects, and nobody reads as well as the instrument allows (common practice, no source).
const (
	careless = 1.5
	wornLash = 0.4 * geometry.Millimetre
	tilted   = 0.08 // a gauge at 20 deg to the bore shows 0.94
	steepest = 2.0  // a stroke that nobody stated is half to twice the assumed one
)

// Half of what lies between two scales that are tried, as a fraction.
const (
	fineScales   = 0.02
	coarseScales = 0.06 // where the stroke is unknown, and with it nearly everything
)

// Bench is what the engine and the instruments allow.
type Bench struct {
	setup  evidence.Setup
	engine []reach
	scales []float64
	apart  float64 // half of what lies between two of them, as a fraction
	depth  float64 // how far a depth may be out, mm either way
	unit   geometry.Length
}

// reach is the least and the greatest drop, mm, that the piston may have where the
// protractor shows so many places from TDC.
type reach struct{ least, most [turn]float64 }

// NewBench is the bench of a setup, whose depths are typed in so long a unit. An error is
// of an engine that cannot be.
func NewBench(setup evidence.Setup, unit geometry.Length) (*Bench, error) {
	return newBench(setup, unit, careless, wornLash)
}

// NewStrict is the bench that the instruments make when they are read with care, on an
// engine whose lash is the stated one. An error is of an engine that cannot turn.
func NewStrict(setup evidence.Setup, unit geometry.Length) (*Bench, error) {
	return newBench(setup, unit, 1, 0)
}

func newBench(setup evidence.Setup, unit geometry.Length, careless float64, worn geometry.Length) (*Bench, error) {
	crank, assumed, err := evidence.WithAssumed(setup.Engine)
	if err != nil {
		return nil, err
	}
	lash := max(setup.Gauge.Lash+setup.Gauge.LashKnownTo, worn)
	b := &Bench{setup: setup, unit: unit, depth: careless*float64(setup.Gauge.Error+setup.Gauge.Step/2) + float64(lash/2)}
	p := setup.Protractor
	off := careless*(p.Error+p.Step/2).Degrees() + geometry.Angle(p.OffCentreBound()).Degrees()
	// the places of reading and of TDC are each rounded
	within := int(math.Ceil(off*perDegree)) + 1 + tdcStep/2
	for _, c := range engines(setup.Engine, crank, assumed) {
		b.engine = append(b.engine, reachOf(c, within))
	}
	b.tryScales(careless*setup.Gauge.ScaleKnownTo, assumed)
	return b, nil
}

// Worn is how far a depth may lie from the curve of a few others, read without care on a worn
// engine, and be no blunder.
func Worn(g evidence.Gauge) geometry.Length { return careless*(g.Error+g.Step/2) + wornLash }

// engines is those that the dimensions allow, the stated one first. An offset hardly
// counts beside a stroke that nobody stated.
func engines(e evidence.Engine, stated geometry.SliderCrank, assumed evidence.Assumed) []geometry.SliderCrank {
	list := []geometry.SliderCrank{stated}
	stroke, rods, offsets := e.Stroke, []geometry.Length{e.Rod}, []geometry.Length{-e.KnownTo.Offset, e.KnownTo.Offset}
	if assumed.Rod > 0 {
		rods = []geometry.Length{assumed.Rod - assumed.RodKnownTo, assumed.Rod + assumed.RodKnownTo}
	}
	if assumed.Stroke > 0 {
		stroke, offsets = assumed.Stroke, []geometry.Length{0}
	}
	for _, rod := range rods {
		for _, by := range offsets {
			if crank, err := geometry.NewSliderCrank(stroke, rod, e.Offset()+by); err == nil {
				list = append(list, crank)
			}
		}
	}
	return list
}

// tryScales is what the gauge may show of a millimetre, the likeliest first.
func (b *Bench) tryScales(known float64, assumed evidence.Assumed) {
	least, most := 1-max(known, tilted), 1+max(known, tilted)
	b.apart = fineScales
	if assumed.Stroke > 0 {
		least, most, b.apart = least/steepest, most*steepest, coarseScales
	}
	b.scales = []float64{1}
	for s := 1 - 2*b.apart; s > least-b.apart; s *= 1 - 2*b.apart {
		b.scales = append(b.scales, s)
	}
	for s := 1 + 2*b.apart; s < most+b.apart; s *= 1 + 2*b.apart {
		b.scales = append(b.scales, s)
	}
}

// reachOf is the reach of a crank whose angle may be out by so many places either way.
func reachOf(crank geometry.SliderCrank, within int) (r reach) {
	var drop [turn]float64
	for k := range drop {
		drop[k] = crank.Drop(geometry.Angle(k) * geometry.Degree / perDegree).Millimetres()
	}
	for k := range drop {
		r.least[k], r.most[k] = drop[k], drop[k]
		for by := -within; by <= within; by++ {
			d := drop[(k+by+turn)%turn]
			r.least[k], r.most[k] = min(r.least[k], d), max(r.most[k], d)
		}
	}
	return r
}

// place is an angle as a place of the grid.
func place(a geometry.Angle) int {
	k := int(math.Round(a.Degrees()*perDegree)) % turn
	if k < 0 {
		k += turn
	}
	return k
}
