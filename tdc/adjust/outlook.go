package adjust

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
)

// Outlook is what readings at places would add to what is known, to first order.
type Outlook struct {
	covariance [][]float64
	sights     [][]float64 // each place's derivatives over its standard uncertainty
}

// NewOutlook is an outlook before any reading; an error of an engine that cannot turn.
func NewOutlook(setup evidence.Setup, places []Place) (*Outlook, error) {
	crank, assumed, err := evidence.WithAssumed(setup.Engine)
	if err != nil {
		return nil, err
	}
	// Nothing is known of what is free: so wide that it makes no difference to
	// three readings, and no wider, for the sake of digits.
	wide := []float64{curve.TDC: 3, curve.Zero: 300, curve.Scale: 10, curve.Count - 1: 0}
	o := &Outlook{covariance: curve.Covariance()}
	for j, prior := range solve.Priors(setup, crank, assumed) {
		sigma := prior.Sigma
		if math.IsInf(sigma, 1) {
			sigma = wide[j]
		}
		o.covariance[j][j] = sq(sigma)
	}
	o.look(probe(setup, crank, 0, places), expected(setup, crank))
	return o, nil
}

// Outlook is an outlook after the readings of the adjustment.
func (a *Adjustment) Outlook(places []Place) *Outlook {
	o := &Outlook{covariance: curve.Covariance()}
	for j, row := range a.Cov {
		copy(o.covariance[j], row)
	}
	o.look(probe(a.Setup, a.Crank, a.Best.Beta[curve.TDC], places), a.Best.Beta)
	return o
}

// look fills the sights from a probe's places.
func (o *Outlook) look(a *solve.Solved, beta []float64) {
	_, slope, jac := a.Evaluate(beta, a.Angle)
	for i := range a.Angle {
		sigma := math.Hypot(a.SigmaY[i], slope[i]*float64(a.Setup.Protractor.Uncertainty()))
		sight := make([]float64, curve.Count)
		for j := range sight {
			sight[j] = jac[j][i] / sigma
		}
		o.sights = append(o.sights, sight)
	}
}

// Uncertainty is TDC's standard uncertainty now.
func (o *Outlook) Uncertainty() geometry.Angle {
	return geometry.Angle(math.Sqrt(o.covariance[curve.TDC][curve.TDC]))
}

// With is what it would be with one more reading at each of the places i and k.
func (o *Outlook) With(i, k int) geometry.Angle {
	first, ownFirst := o.toward(i)
	second, ownSecond := o.toward(k)
	cross := 0.0
	for j, s := range o.sights[k] {
		cross += first[j] * s
	}
	a, b, t, v := 1+ownFirst, 1+ownSecond, first[curve.TDC], second[curve.TDC]
	gain := (b*t*t - 2*cross*t*v + a*v*v) / (a*b - cross*cross)
	return geometry.Angle(math.Sqrt(math.Max(0, o.covariance[curve.TDC][curve.TDC]-gain)))
}

// WithOne is what it would be with one more reading at place i.
func (o *Outlook) WithOne(i int) geometry.Angle {
	along, own := o.toward(i)
	return geometry.Angle(math.Sqrt(math.Max(0, o.covariance[curve.TDC][curve.TDC]-sq(along[curve.TDC])/(1+own))))
}

// Take adds a reading at place i.
func (o *Outlook) Take(i int) { o.change(i, 1) }

// Leave takes a reading at place i away.
func (o *Outlook) Leave(i int) { o.change(i, -1) }

// change updates the covariance for one reading more or less by the formula of
// ShermanMorrison1950.
func (o *Outlook) change(i int, sign float64) {
	along, own := o.toward(i)
	for j, row := range o.covariance {
		for k := range row {
			row[k] -= sign * along[j] * along[k] / (1 + sign*own)
		}
	}
}

// toward is the covariance times a sight, and the variance along it.
func (o *Outlook) toward(i int) (along [curve.Count]float64, own float64) {
	sight := o.sights[i]
	for j, row := range o.covariance {
		for k, s := range sight {
			along[j] += row[k] * s
		}
		own += along[j] * sight[j]
	}
	return along, own
}
