package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
	"evendrop/tdc/look"
)

// measured is one of the adjustment's parameters, widened like TDC.
func (a *Adjustment) measured(parameter int) gum.Measured {
	p := a.Parts(a.Influence(parameter))
	whole, prior := a.Cov[parameter][parameter], p.Priors()
	variance := prior + math.Max(0, sq(a.Widening.Factor)*math.Max(0, whole-prior)+p.Common)
	return gum.Measured{Value: a.Best.Beta[parameter], Uncertainty: math.Sqrt(variance)}
}

// Flanks is the rough curve through the readings that are not suspect, for equal
// drop: drawn anew, with none of what the adjustment knew before.
func (a *Adjustment) Flanks() halve.Flanks {
	var angle, depth []float64
	for i := range a.Read {
		if !a.Suspect[i] {
			angle, depth = append(angle, a.Angle[i]), append(depth, a.Depth[i])
		}
	}
	rough := look.Rough{Zero: a.Best.Beta[curve.Zero], Scale: a.Best.Beta[curve.Scale], TDC: a.Best.Beta[curve.TDC]}
	return halve.Flanks{Crank: a.Crank, Setup: a.Setup, Rough: curve.Polished(rough, a.Crank, angle, depth)}
}

// Beside is another way's TDC beside the adjustment's, from the same readings.
type Beside struct {
	Method string
	gum.Estimate
	Readings   int            // that had a part in it
	Difference geometry.Angle // from the adjustment's
	Limit      geometry.Angle // 95 % bound on it when nothing is wrong (Hausman1978)
}

// beside is a TDC, radians from the adjustment's centre, that answers so to what was
// read.
func (a *Adjustment) beside(method string, tdc float64, in solve.Influence, readings int) Beside {
	return Beside{
		Method: method, Estimate: a.OnScale(a.Spread(a.Parts(in))).Estimate(a.FromCentre(tdc)), Readings: readings,
		Difference: geometry.Angle(tdc - a.Best.Beta[curve.TDC]),
		Limit:      geometry.Angle(a.Spread(a.Parts(in.Add(-1, a.Influence(curve.TDC)))).Expanded()),
	}
}

// EqualDrop is TDC by equal drop, by the readings that are not suspect; false where
// the flanks do not overlap in depth. Its midpoints are crank angles from the
// protractor's zero.
func (a *Adjustment) EqualDrop(f halve.Flanks) (halve.EqualDrop, Beside, bool) {
	equal, ok := f.EqualDrop(a.Read, a.Angle, a.Depth, a.Suspect)
	if !ok {
		return equal, Beside{}, false
	}
	in := a.ThroughReadings(solve.Influence{Angle: equal.Angle, Depth: equal.Depth})
	for i := range equal.Levels {
		equal.Levels[i].Midpoint = (equal.Levels[i].Midpoint + geometry.Angle(a.Centre)).Signed()
	}
	return equal, a.beside("equal drop", equal.TDC, in, in.Used()), true
}

// Cover is about where the readings lie that are not suspect.
func (a *Adjustment) Cover(f halve.Flanks) []finding.Finding {
	return f.Findings(a.Read, a.Angle, a.Depth, a.Suspect, len(a.Pairs))
}

// TDC is the adjustment's, as an error-free protractor would show it.
func (a *Adjustment) TDC() gum.Estimate { return a.OnScale(a.Spread(a.OwnParts())).Estimate(a.At()) }

// AgreeTo is what the readings agree to: TDC's uncertainty with the protractor's error
// taken as another at every reading, and with none where TDC comes on it.
func (a *Adjustment) AgreeTo() gum.Estimate {
	p := a.OwnParts()
	p.Common = 0
	return a.Spread(p).Estimate(a.At())
}

// Zero is what the gauge reads at TDC, growing as the piston goes down, mm; Lash and
// Scale are the other parameters. None is a number where nothing that was read tells it.
func (a *Adjustment) Zero() gum.Measured { return a.told(curve.Zero) }

// Lash is the engine's, mm.
func (a *Adjustment) Lash() gum.Measured { return a.told(curve.Lash) }

// Scale is the curve's: 1 for a straight gauge and the right engine.
func (a *Adjustment) Scale() gum.Measured { return a.told(curve.Scale) }

// Budget is what each source contributes to TDC.
func (a *Adjustment) Budget() []Contribution { return a.budget(a.OwnParts()) }

// Judged is a reading compared with the curve.
type Judged struct {
	evidence.Reading
	Residual geometry.Length // depth read less the curve's at the angle read
	Weight   float64         // what the adjustment left of its pull, 1 to 0
	Suspect  bool
}

// Readings is each reading compared with the curve.
func (a *Adjustment) Readings() (list []Judged) {
	curve := a.DepthsOnCurve()
	for i, reading := range a.Read {
		list = append(list, Judged{reading, geometry.Length(a.Depth[i] - curve[i]), a.Weight[i], a.Suspect[i]})
	}
	return list
}

// farPull is how many standard uncertainties the curve's scale may lie from 1 before
// it is asked about.
const farPull = 3

// ScaleFar tells whether the scale is far from what was known of it before.
func (a *Adjustment) ScaleFar() bool {
	return math.Abs((a.Best.Beta[curve.Scale]-1)/a.Priors[curve.Scale].Sigma) > farPull
}

// WithOffsetKnown is TDC's uncertainty, had the engine's offset been stated to within a
// half-width.
func (a *Adjustment) WithOffsetKnown(to geometry.Length) gum.Estimate {
	p := a.OwnParts()
	if left := p.Prior[curve.Offset] - a.gain(curve.Offset, float64(to)/math.Sqrt(3)); left > 0 {
		p.Prior[curve.Offset] = left
	} else { // by what the readings had to say of the offset as well
		p.Prior[curve.Offset], p.Common = 0, p.Common+left
	}
	return a.OnScale(a.doubted(a.Spread(p))).Estimate(a.At())
}

// gain is by how much TDC's variance would shrink, were a parameter known beforehand to a
// smaller standard uncertainty than it was (ShermanMorrison1950).
func (a *Adjustment) gain(parameter int, sigma float64) float64 {
	more := 1/sq(sigma) - 1/sq(a.Priors[parameter].Sigma)
	if !(more > 0) {
		return 0
	}
	return sq(a.Cov[curve.TDC][parameter]) / (a.Cov[parameter][parameter] + 1/more)
}

// Later is how sure it is by how much one cylinder's TDC comes after another's, read on
// one setting of the protractor: they share its error and the doubt in the engine's offset.
func (a *Adjustment) Later(first *Adjustment) gum.Spread {
	own, its := a.OwnParts(), first.OwnParts()
	in, other := a.Influence(curve.TDC), first.Influence(curve.TDC)
	offset := in.Truth[curve.Offset]*a.Priors[curve.Offset].Sigma - other.Truth[curve.Offset]*first.Priors[curve.Offset].Sigma
	own.Prior[curve.Offset], its.Prior[curve.Offset] = 0, 0
	lines := a.Lines.Together(a.Lines.Weights(in, len(a.Read)), &first.Lines, first.Lines.Weights(other, len(first.Read)))
	own.Common += 2*a.Lines.Unlike(a.At()-first.At()) - 2*lines
	s, before := a.doubted(a.Spread(own)), first.doubted(first.Spread(its))
	s.Normal = append(s.Normal, before.Normal...)
	s.Rectangular = append(append(s.Rectangular, before.Rectangular...), math.Abs(offset))
	return s
}
