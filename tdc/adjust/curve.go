package adjust

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
	parEye           // how much earlier the eye sees motion end than begin, of the half dwell
	parStep          // by how much more the protractor (radians) or gauge (mm) reads since it was moved
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
	hang  hang
	// pairs of angles follow the readings: their midpoints, from the adjustment's
	// centre, stand where a reading's depth does
	pairs []Midpoint
	moved moved
}

// Evaluate is fit.Model's: x is the protractor's angle, y the gauge's depth.
func (c *curve) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	crank := c.crank.WithOffset(geometry.Length(beta[parOffset]))
	scale, p, q := beta[parScale], beta[parWheelP], beta[parWheelQ]
	n := len(c.turn)
	for i := range x[:n] {
		u, sin, cos := onWheel(c.moved.angle(x[i], i, beta)-beta[parTDC], p, q)
		drop, fall, byOffset := crank.Motion(geometry.Angle(u))
		low, byDrop, byLash := c.hang.low(scale*float64(drop), beta[parLash], u*c.turn[i] > 0)
		along := byDrop * scale * float64(fall) / (1 - p*sin + q*cos) // mm per radian of protractor
		y[i] = c.moved.depth(beta[parZero]+low, i, beta)
		slope[i] = along
		jac[parTDC][i] = -along
		jac[parZero][i] = 1
		jac[parScale][i] = byDrop * float64(drop)
		jac[parLash][i] = byLash
		jac[parOffset][i] = byDrop * scale * byOffset
		jac[parWheelP][i] = along * (1 - cos)
		jac[parWheelQ][i] = -along * sin
		c.moved.derivative(along, i, jac)
	}
	for k, m := range c.pairs {
		i := n + k
		off, byOffset, byP := m.expected(crank, beta)
		y[i], slope[i] = beta[parTDC]+off, 0
		for j := range jac {
			jac[j][i] = 0
		}
		jac[parTDC][i], jac[parOffset][i], jac[parWheelP][i] = 1, byOffset, byP
		jac[parLash][i], jac[parEye][i] = m.byLash, m.byEye
		y[i] = c.moved.midpoint(y[i], i, beta, jac)
	}
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
