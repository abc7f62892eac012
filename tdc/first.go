package tdc

import (
	"math"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// firstLook is a rough curve through the readings, depth = zero + scale drop(u),
// found without a start: TDC is tried all round the crank.
type firstLook struct {
	tdc         float64 // radians
	zero, scale float64 // mm, 1
	misfit      float64 // mean absolute residual, mm
}

// lookStep is how far apart TDC is tried round the crank; lookFinest how close to
// the best places, well inside the reach of the adjustment.
const (
	lookStep   = 2 * math.Pi / 180
	lookFinest = lookStep / 8
)

// looks is the best rough curve of each kind: the readings about TDC (top) or
// about BDC (bottom), with the depths as typed or turned round.
type looks struct {
	top, bottom, turnedTop, turnedBottom firstLook
}

// look tries TDC all round the crank, then closer about the best of each kind. A
// curve through depths turned round is the one through the depths as typed, upside
// down, so one pass finds all four.
func look(crank geometry.SliderCrank, angle, depth []float64) looks {
	angle, depth = thinned(angle), thinned(depth)
	none := firstLook{misfit: math.Inf(1)}
	best := looks{none, none, none, none}
	drop := make([]float64, len(angle))
	try := func(tdc float64) {
		near := 0.0
		for i, a := range angle {
			drop[i] = float64(crank.Drop(geometry.Angle(a - tdc)))
			near += math.Cos(a - tdc)
		}
		found, ok := line(drop, depth)
		if found.tdc = tdc; ok && found.scale != 0 {
			best.keep(found, near >= 0)
		}
	}
	for tdc := -math.Pi; tdc < math.Pi; tdc += lookStep {
		try(tdc)
	}
	for by := lookStep / 2; by >= lookFinest; by /= 2 {
		for _, place := range []firstLook{best.top, best.bottom, best.turnedTop, best.turnedBottom} {
			if !math.IsInf(place.misfit, 1) {
				try(place.tdc - by)
				try(place.tdc + by)
			}
		}
	}
	return best
}

// keep puts a curve in its place when it is the best of its kind so far.
func (l *looks) keep(found firstLook, atTop bool) {
	place := &l.bottom
	switch turned := found.scale < 0; {
	case atTop && turned:
		place = &l.turnedTop
	case atTop:
		place = &l.top
	case turned:
		place = &l.turnedBottom
	}
	if found.scale < 0 {
		found.zero, found.scale = -found.zero, -found.scale
	}
	if found.misfit < place.misfit {
		*place = found
	}
}

// thinned is every so-many-th of the values, about two hundred at most: enough
// for a rough look at any number of readings.
func thinned(values []float64) []float64 {
	const most = 200
	if len(values) <= most {
		return values
	}
	stride := (len(values) + most - 1) / most
	var thin []float64
	for i := 0; i < len(values); i += stride {
		thin = append(thin, values[i])
	}
	return thin
}

// line is the least-squares line depth = zero + scale drop, and its mean
// absolute residual; false when the drops do not differ.
func line(drop, depth []float64) (firstLook, bool) {
	meanDrop, meanDepth := gum.Mean(drop), gum.Mean(depth)
	var across, along float64
	for i, x := range drop {
		across += (x - meanDrop) * (x - meanDrop)
		along += (x - meanDrop) * (depth[i] - meanDepth)
	}
	if across == 0 {
		return firstLook{}, false
	}
	found := firstLook{scale: along / across}
	found.zero = meanDepth - found.scale*meanDrop
	for i, x := range drop {
		found.misfit += math.Abs(depth[i]-found.zero-found.scale*x) / float64(len(drop))
	}
	return found, true
}

func columns(read []evidence.Reading) (angle, depth []float64) {
	for _, r := range read {
		angle = append(angle, float64(r.Angle))
		depth = append(depth, float64(r.Depth))
	}
	return angle, depth
}

// polished is the rough curve moved to where it fits best: TDC, zero and scale,
// with nothing known before.
func (f firstLook) polished(crank geometry.SliderCrank, angle, depth []float64) firstLook {
	sigma := make([]float64, len(angle))
	for i := range sigma {
		sigma[i] = 1
	}
	held := fit.Held(0)
	solver, err := fit.NewSolver(fit.Problem{
		Model: &curve{crank: crank, turn: make([]float64, len(angle))},
		X:     angle, Y: depth, SigmaY: sigma,
		Priors: []fit.Prior{
			parTDC: fit.Free(), parZero: fit.Free(), parScale: fit.Free(), parLash: held,
			parOffset: fit.Held(float64(crank.Offset())), parWheelP: held, parWheelQ: held,
		},
		MaxSteps: 50,
	})
	if err != nil {
		return f
	}
	found := solver.Solve([]float64{parTDC: f.tdc, parZero: f.zero, parScale: f.scale, parCount - 1: 0}, fit.LeastSquares())
	better := firstLook{tdc: found.Beta[parTDC], zero: found.Beta[parZero], scale: found.Beta[parScale]}
	if found.Status != fit.Converged || better.scale <= 0 || math.Abs(better.tdc-f.tdc) > 0.1 {
		return f
	}
	return better
}
