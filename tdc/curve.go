package tdc

import (
	"math"

	"evendrop/geometry"
)

// The parameters of the adjustment, by their place in beta.
const (
	parTDC    = iota // crank angle of TDC, radians from the adjustment's centre
	parZero          // what the gauge reads at TDC, mm
	parScale         // gauge scale, 1 for a straight gauge and the right engine
	parLash          // mm
	parOffset        // mm
	parWheelP        // wheel off centre, in phase with cos u, radians
	parWheelQ        // wheel off centre, in phase with sin u, radians
	parCount
)

// curve is the depth that a gauge shows against the angle that a protractor
// shows, for a crank, a lash and a wheel that may stand off centre:
//
//	angle = TDC + u + p (cos u - 1) + q sin u
//	depth = zero + scale drop(u; offset) - side lash/2
//
// where u is the true crank angle from TDC and side is +1 while the piston
// falls and -1 while it rises; just past TDC it hangs until its lash is taken up.
type curve struct {
	crank geometry.SliderCrank
	turn  []float64 // one a reading: +1 turned forward, -1 backward
	least float64   // mm: the hang past TDC is that of so much lash at least
}

// Evaluate is fit.Model's: x is the protractor's angle, y the gauge's depth.
func (c *curve) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	crank := c.crank.WithOffset(geometry.Length(beta[parOffset]))
	scale, p, q := beta[parScale], beta[parWheelP], beta[parWheelQ]
	for i := range x {
		u, sin, cos := onWheel(x[i]-beta[parTDC], p, q)
		drop, fall, byOffset := crank.Motion(geometry.Angle(u))
		lag, byDrop, byLash := c.lagging(scale*float64(drop), beta[parLash], u*c.turn[i] > 0)
		along := byDrop * scale * float64(fall) / (1 - p*sin + q*cos) // mm per radian of protractor
		y[i] = beta[parZero] + lag
		slope[i] = along
		jac[parTDC][i] = -along
		jac[parZero][i] = 1
		jac[parScale][i] = byDrop * float64(drop)
		jac[parLash][i] = byLash
		jac[parOffset][i] = byDrop * scale * byOffset
		jac[parWheelP][i] = along * (1 - cos)
		jac[parWheelQ][i] = -along * sin
	}
}

// lagging is how low a piston hangs that its crank lets down by drop, measured
// from the middle of the lash, and the derivatives by drop and by lash. Below the
// least lash it goes on in a straight line, so that an estimate of no lash, or
// less, stays one with a slope.
func (c *curve) lagging(drop, lash float64, falling bool) (low, byDrop, byLash float64) {
	if !falling {
		return drop + lash/2, 1, 0.5
	}
	hang := math.Max(lash, c.least)
	low, byDrop, byLash = hanging(drop, hang)
	return low + byLash*(lash-hang), byDrop, byLash
}

// hanging is lagging come over the top: the piston stays where the rise left it
// until the crank has used up the lash. The corner there is rounded over a quarter
// of the lash either way, and so at most a sixteenth of it off: several joints
// never take up at once, and the adjustment needs a slope.
func hanging(drop, lash float64) (low, byDrop, byLash float64) {
	used := drop - 0.75*lash
	switch {
	case used >= lash/2:
		return drop - lash/2, 1, -0.5
	case used <= 0:
		return lash / 2, 0, 0.5
	}
	return lash/2 + used*used/lash, 2 * used / lash, 0.5 - used*(1.5+used/lash)/lash
}

// onWheel is the crank angle u that a wheel off centre shows as v:
// u + p (cos u - 1) + q sin u = v, by a first guess and one Newton step, which
// leaves an error of order p^4. It returns the sine and cosine of u as well.
func onWheel(v, p, q float64) (u, sin, cos float64) {
	sin, cos = math.Sincos(v)
	if p == 0 && q == 0 {
		return v, sin, cos
	}
	u = v - p*(cos-1) - q*sin
	sin, cos = math.Sincos(u)
	step := (u + p*(cos-1) + q*sin - v) / (1 - p*sin + q*cos)
	// the step is of order p^2: the sine and cosine follow it to its square
	return u - step, sin - cos*step, cos + sin*step
}
