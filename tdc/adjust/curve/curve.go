// Package curve is the model that is adjusted: what a gauge shows by what a protractor
// shows, and where pairs of angles have their midpoint, for a crank, its lash, a wheel off
// its centre, and what moved in between.
package curve

import (
	"math"

	"evendrop/geometry"
)

// The parameters, by their place in beta.
const (
	TDC    = iota // crank angle of TDC, radians from the adjustment's centre
	Zero          // what the gauge reads at TDC, mm
	Scale         // gauge scale, 1 for a straight gauge and the right engine
	Lash          // mm
	Offset        // mm
	WheelP        // wheel off centre, in phase with cos u, radians
	WheelQ        // wheel off centre, in phase with sin u, radians
	Eye           // how much earlier the eye sees motion end than begin, of the half dwell
	Step          // by how much more the protractor (radians) or gauge (mm) reads since it was moved
	Count         // of the parameters
)

// Model is the depth that a gauge shows against the angle that a protractor
// shows, for a crank, a lash and a wheel that may stand off centre:
//
//	angle = TDC + u + p (cos u - 1) + q sin u
//	depth = zero + scale drop(u; offset) - side lash/2
//
// where u is the true crank angle from TDC and side is +1 while the piston
// falls and -1 while it rises; just past TDC it hangs until its lash is taken up.
type Model struct {
	Crank geometry.SliderCrank
	Turn  []float64 // one a reading: +1 turned forward, -1 backward
	Hang  Hang
	// Pairs of angles follow the readings: their midpoints, from the adjustment's
	// centre, stand where a reading's depth does
	Pairs []Midpoint
	Moved Moved
}

// Evaluate is fit.Model's: x is the protractor's angle, y the gauge's depth.
func (c *Model) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	crank := c.Crank.WithOffset(geometry.Length(beta[Offset]))
	scale, p, q := beta[Scale], beta[WheelP], beta[WheelQ]
	n := len(c.Turn)
	for i := range x[:n] {
		u, sin, cos := OnWheel(c.Moved.angle(x[i], i, beta)-beta[TDC], p, q)
		drop, fall, byOffset := crank.Motion(geometry.Angle(u))
		low, byDrop, byLash := c.Hang.low(scale*float64(drop), beta[Lash], u*c.Turn[i] > 0)
		along := byDrop * scale * float64(fall) / (1 - p*sin + q*cos) // mm per radian of protractor
		y[i] = c.Moved.depth(beta[Zero]+low, i, beta)
		slope[i] = along
		jac[TDC][i] = -along
		jac[Zero][i] = 1
		jac[Scale][i] = byDrop * float64(drop)
		jac[Lash][i] = byLash
		jac[Offset][i] = byDrop * scale * byOffset
		jac[WheelP][i] = along * (1 - cos)
		jac[WheelQ][i] = -along * sin
		c.Moved.derivative(along, i, jac)
	}
	for k, m := range c.Pairs {
		i := n + k
		off, byOffset, byP := m.Expected(crank, beta)
		y[i], slope[i] = beta[TDC]+off, 0
		for j := range jac {
			jac[j][i] = 0
		}
		jac[TDC][i], jac[Offset][i], jac[WheelP][i] = 1, byOffset, byP
		jac[Lash][i], jac[Eye][i] = m.ByLash, m.ByEye
		y[i] = c.Moved.midpoint(y[i], i, beta, jac)
	}
}

// OnWheel is the crank angle u that a wheel off centre shows as v:
// u + p (cos u - 1) + q sin u = v, by a first guess and one Newton step, which
// leaves an error of order p^4. It returns the sine and cosine of u as well.
func OnWheel(v, p, q float64) (u, sin, cos float64) {
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

// Covariance is room for that of all parameters.
func Covariance() [][]float64 {
	m := make([][]float64, Count)
	for j := range m {
		m[j] = make([]float64, Count)
	}
	return m
}
