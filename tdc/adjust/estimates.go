package adjust

import (
	"math"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
	"evendrop/tdc/look"
)

// evaluate is the curve with room of its own: depths, slopes, derivatives.
func (a *Adjustment) evaluate(beta, angle []float64) (y, slope []float64, jac [][]float64) {
	y, slope, jac = make([]float64, len(angle)), make([]float64, len(angle)), make([][]float64, curve.Count)
	for j := range jac {
		jac[j] = make([]float64, len(angle))
	}
	a.curve.Evaluate(beta, angle, y, slope, jac)
	return y, slope, jac
}

// depthsOnCurve is what the gauge should have shown at the angles read, mm.
func (a *Adjustment) depthsOnCurve() []float64 {
	y, _, _ := a.evaluate(a.best.Beta, a.angle)
	return y
}

// estimate is an angle from the protractor's zero with its uncertainty.
func (a *Adjustment) estimate(angle float64, s gum.Spread) gum.Estimate {
	return s.Estimate(geometry.Angle(angle).Signed())
}

// measured is one of the adjustment's parameters, widened like TDC.
func (a *Adjustment) measured(parameter int) gum.Measured {
	p := a.parts(a.influence(parameter))
	whole, prior := a.cov[parameter][parameter], p.priors()
	variance := prior + math.Max(0, sq(a.widening.factor)*math.Max(0, whole-prior)+p.common)
	return gum.Measured{Value: a.best.Beta[parameter], Uncertainty: math.Sqrt(variance)}
}

// Flanks is the rough curve through the readings that are not suspect, for equal
// drop: drawn anew, with none of what the adjustment knew before.
func (a *Adjustment) Flanks() halve.Flanks {
	var angle, depth []float64
	for i := range a.read {
		if !a.suspect[i] {
			angle, depth = append(angle, a.angle[i]), append(depth, a.depth[i])
		}
	}
	rough := look.Rough{Zero: a.best.Beta[curve.Zero], Scale: a.best.Beta[curve.Scale], TDC: a.best.Beta[curve.TDC]}
	return halve.Flanks{Crank: a.crank, Setup: a.setup, Rough: curve.Polished(rough, a.crank, angle, depth)}
}

// WithAll is TDC by plain least squares, every reading trusted, when some are
// suspect.
func (a *Adjustment) WithAll() *gum.Estimate {
	for _, suspect := range a.suspect {
		if suspect {
			b := *a
			start := append([]float64(nil), a.best.Beta...)
			b.solver, _ = fit.NewSolver(a.solver.Problem)
			b.best = b.solver.Solve(start, fit.LeastSquares())
			if b.cov = b.best.Covariance(); b.cov == nil {
				return nil
			}
			b.suspect, b.weight = make([]bool, len(b.depth)), nil
			b.widening = b.birge()
			e := b.estimate(b.centre+b.best.Beta[curve.TDC], b.onScale(b.spread(b.ownParts())))
			return &e
		}
	}
	return nil
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
func (a *Adjustment) beside(method string, tdc float64, in influence, readings int) Beside {
	return Beside{
		Method: method, Estimate: a.estimate(a.centre+tdc, a.onScale(a.spread(a.parts(in)))), Readings: readings,
		Difference: geometry.Angle(tdc - a.best.Beta[curve.TDC]),
		Limit:      geometry.Angle(a.spread(a.parts(in.add(-1, a.influence(curve.TDC)))).Expanded()),
	}
}

// EqualDrop is TDC by equal drop, by the readings that are not suspect; false where
// the flanks do not overlap in depth. Its midpoints are crank angles from the
// protractor's zero.
func (a *Adjustment) EqualDrop(f halve.Flanks) (halve.EqualDrop, Beside, bool) {
	equal, ok := f.EqualDrop(a.read, a.angle, a.depth, a.suspect)
	if !ok {
		return equal, Beside{}, false
	}
	in := a.throughReadings(influence{angle: equal.Angle, depth: equal.Depth})
	for i := range equal.Levels {
		equal.Levels[i].Midpoint = (equal.Levels[i].Midpoint + geometry.Angle(a.centre)).Signed()
	}
	return equal, a.beside("equal drop", equal.TDC, in, in.used()), true
}

// Cover is about where the readings lie that are not suspect.
func (a *Adjustment) Cover(f halve.Flanks) []finding.Finding {
	return f.Findings(a.read, a.angle, a.depth, a.suspect)
}

// at is the crank angle of TDC, from the protractor's zero.
func (a *Adjustment) at() geometry.Angle {
	return geometry.Angle(a.centre + a.best.Beta[curve.TDC]).Signed()
}

// TDC is the adjustment's, as an error-free protractor would show it.
func (a *Adjustment) TDC() gum.Estimate { return a.onScale(a.spread(a.ownParts())).Estimate(a.at()) }

// AgreeTo is what the readings agree to: TDC's uncertainty with the protractor's error
// taken as another at every reading, and with none where TDC comes on it.
func (a *Adjustment) AgreeTo() gum.Estimate {
	p := a.ownParts()
	p.common = 0
	return a.spread(p).Estimate(a.at())
}

// Zero is what the gauge reads at TDC, growing as the piston goes down, mm; Lash and
// Scale are the other parameters. None is a number where nothing that was read tells it.
func (a *Adjustment) Zero() gum.Measured { return a.told(curve.Zero) }

// Lash is the engine's, mm.
func (a *Adjustment) Lash() gum.Measured { return a.told(curve.Lash) }

// Scale is the curve's: 1 for a straight gauge and the right engine.
func (a *Adjustment) Scale() gum.Measured { return a.told(curve.Scale) }

// Budget is what each source contributes to TDC.
func (a *Adjustment) Budget() []Contribution { return a.budget(a.ownParts()) }

// Judged is a reading compared with the curve.
type Judged struct {
	evidence.Reading
	Residual geometry.Length // depth read less the curve's at the angle read
	Weight   float64         // what the adjustment left of its pull, 1 to 0
	Suspect  bool
}

// Readings is each reading compared with the curve.
func (a *Adjustment) Readings() (list []Judged) {
	curve := a.depthsOnCurve()
	for i, reading := range a.read {
		list = append(list, Judged{reading, geometry.Length(a.depth[i] - curve[i]), a.weight[i], a.suspect[i]})
	}
	return list
}

// Scatter is how much more than the instruments explain the readings scatter, at least
// 1, and the degrees of freedom that tell it.
func (a *Adjustment) Scatter() float64 { return a.widening.factor }

// ScatterTold tells that the scatter is more than chance makes in all but one job in a
// hundred.
func (a *Adjustment) ScatterTold() bool { return a.widening.told }

// ScatterDegrees is the degrees of freedom that tell the scatter.
func (a *Adjustment) ScatterDegrees() float64 { return a.widening.degrees }

// Determined tells whether what was read fixes TDC; Settled whether the search ended.
func (a *Adjustment) Determined() bool { return a.cov != nil && a.best.Status != fit.Undetermined }

// Settled tells whether the search for the best curve ended.
func (a *Adjustment) Settled() bool { return a.best.Status == fit.Converged }

// farPull is how many standard uncertainties the curve's scale may lie from 1 before
// it is asked about.
const farPull = 3

// ScaleFar tells whether the scale is far from what was known of it before.
func (a *Adjustment) ScaleFar() bool {
	return math.Abs((a.best.Beta[curve.Scale]-1)/a.priors[curve.Scale].Sigma) > farPull
}

// WithOffsetKnown is TDC's uncertainty, had the engine's offset been stated to within a
// half-width.
func (a *Adjustment) WithOffsetKnown(to geometry.Length) gum.Estimate {
	p := a.ownParts()
	if left := p.prior[curve.Offset] - a.gain(curve.Offset, float64(to)/math.Sqrt(3)); left > 0 {
		p.prior[curve.Offset] = left
	} else { // by what the readings had to say of the offset as well
		p.prior[curve.Offset], p.common = 0, p.common+left
	}
	return a.onScale(a.doubted(a.spread(p))).Estimate(a.at())
}

// gain is by how much TDC's variance would shrink, were a parameter known beforehand to a
// smaller standard uncertainty than it was (ShermanMorrison1950).
func (a *Adjustment) gain(parameter int, sigma float64) float64 {
	more := 1/sq(sigma) - 1/sq(a.priors[parameter].Sigma)
	if !(more > 0) {
		return 0
	}
	return sq(a.cov[curve.TDC][parameter]) / (a.cov[parameter][parameter] + 1/more)
}

// Later is how sure it is by how much one cylinder's TDC comes after another's, read on
// one setting of the protractor: they share its error and the doubt in the engine's offset.
func (a *Adjustment) Later(first *Adjustment) gum.Spread {
	own, its := a.ownParts(), first.ownParts()
	in, other := a.influence(curve.TDC), first.influence(curve.TDC)
	offset := in.truth[curve.Offset]*a.priors[curve.Offset].Sigma - other.truth[curve.Offset]*first.priors[curve.Offset].Sigma
	own.prior[curve.Offset], its.prior[curve.Offset] = 0, 0
	lines := a.scale.together(a.scale.weights(in, len(a.read)), &first.scale, first.scale.weights(other, len(first.read)))
	own.common += 2*a.scale.unlike(a.at()-first.at()) - 2*lines
	s, before := a.doubted(a.spread(own)), first.doubted(first.spread(its))
	s.Normal = append(s.Normal, before.Normal...)
	s.Rectangular = append(append(s.Rectangular, before.Rectangular...), math.Abs(offset))
	return s
}
