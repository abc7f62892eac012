package benchtest

import (
	"math/rand/v2"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Noise is what the instruments add.
type Noise struct {
	Normal float64 // 0: error and rounding within the bounds stated; else normal errors, so many standard uncertainties wide
}

// Session is how one job is read.
type Session struct {
	Setup  evidence.Setup
	Layout Layout
	Noise  Noise
	Curve  Curve // of the protractor; nil: fresh errors
	Slips  []Slip
}

// Read is one job: the layout's places, missed by a little, read with the stated
// instruments' errors, fresh at every reading.
func (b Bench) Read(rng *rand.Rand, setup evidence.Setup, l Layout, n Noise) []evidence.Reading {
	return b.ReadIn(rng, Session{Setup: setup, Layout: l, Noise: n})
}

// ReadIn is one job as the session goes.
func (b Bench) ReadIn(rng *rand.Rand, s Session) []evidence.Reading {
	if s.Curve == nil {
		s.Curve = FreshErrors.Draw(rng, s.Setup.Protractor, 0)
	}
	places := b.stopped(rng, s)
	readings := make([]evidence.Reading, 0, len(places))
	for i, depth := range b.Depths(places) {
		angle, depth := s.show(rng, i, b.Shown(places[i].U)/Degree, depth)
		readings = append(readings, evidence.Reading{
			Angle: geometry.Angle(angle) * geometry.Degree, Depth: geometry.Length(depth), Turn: places[i].Turn, Line: i + 2,
		})
	}
	return relabelled(readings, s)
}

// show is what the instruments show, in degrees and mm, as the i-th reading where
// perfect ones would show angle and depth.
func (s Session) show(rng *rand.Rand, i int, angle, depth float64) (float64, float64) {
	protractor, gauge := s.Setup.Protractor, s.Setup.Gauge
	byAngle, byDepth := s.moved(i)
	angle, depth = angle+byAngle, depth+byDepth
	if s.Noise.Normal > 0 {
		return angle + s.Noise.Normal*protractor.Uncertainty().Degrees()*rng.NormFloat64(),
			depth + s.Noise.Normal*float64(gauge.Uncertainty())*rng.NormFloat64()
	}
	return s.angle(angle), Rounded(depth+Within(rng, float64(gauge.Error)), float64(gauge.Step))
}

// angle is what the protractor shows, in degrees, where a perfect one would show x.
func (s Session) angle(x float64) float64 {
	return Rounded(x+s.Curve(x), s.Setup.Protractor.Step.Degrees())
}

// Mark is what the protractor shows with the crank at u from TDC, after all that
// slipped while the readings were taken.
func (b Bench) Mark(s Session, u float64) geometry.Angle {
	moved, _ := s.moved(s.Layout.Readings)
	return geometry.Angle(s.angle(b.Shown(u)/Degree+moved)) * geometry.Degree
}

// stopped is where the crank was stopped.
func (b Bench) stopped(rng *rand.Rand, s Session) []Place {
	places, per := s.Layout.Meant(b), s.Layout.perSweep()
	for i := range places {
		missed := b.aimed(rng, s, places[i].U)
		if missed*places[i].U > 0 {
			places[i].U = missed
		}
	}
	for from := 0; from < len(places); from += per {
		copy(places[from:], InOrder(slices.Clone(places[from:from+per])))
	}
	return places
}

// aimed is where the crank is stopped for a meant u from TDC.
func (b Bench) aimed(rng *rand.Rand, s Session, u float64) float64 {
	if s.Layout.Aim == About {
		return u + s.Layout.ScatteredBy*Degree*(2*rng.Float64()-1)
	}
	step := s.Setup.Protractor.Step.Degrees()
	wanted := Rounded(b.Shown(u)/Degree, step)
	if s.Layout.Aim == OnGraduation {
		wanted -= s.Curve(wanted)
	} else {
		wanted += Within(rng, step/2)
	}
	return u + wanted*Degree - b.Shown(u) // the wheel shows 0.5 % more or less of so small a step: 0.003 deg
}
