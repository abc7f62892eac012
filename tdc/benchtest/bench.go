package benchtest

import "math"

// Degree is one, in radians.
const Degree = math.Pi / 180

// Bench is one engine with instruments on it, as they truly are: lengths in mm,
// angles in radians.
type Bench struct {
	Throw, Rod, Across float64 // Across: how far the bore stands to the +x side
	Lash               float64
	Gauge              float64 // what the gauge shows of a millimetre
	Zero               float64 // what it shows with the piston as high as it goes, lash apart
	Wheel, Phase       float64 // the wheel's centre from the crank's, and in which direction
	Radius             float64 // from the crank's axis to the pointer
	Start              float64 // what a centred wheel would show at TDC

	tdc, top float64 // crank angle of the highest point from throw-along-bore, and its height
}

// Settled is b with its highest point looked up.
func (b Bench) Settled() Bench {
	b.tdc = highest(b.height, -0.6, 0.6)
	b.top = b.height(b.tdc)
	return b
}

// height is that of the piston pin with the crank at t from throw-along-bore: the
// point on the bore's line that lies a rod away from the crank pin, by Newton's
// steps from a rod straight above it.
func (b Bench) height(t float64) float64 {
	sin, cos := math.Sincos(t)
	x, y := b.Across-b.Throw*sin, b.Rod
	for range 50 {
		step := (x*x + y*y - b.Rod*b.Rod) / (2 * y)
		y -= step
		if math.Abs(step) < 1e-14*b.Rod {
			break
		}
	}
	return b.Throw*cos + y
}

// highest is where f is greatest between low and high, by golden section.
func highest(f func(float64) float64, low, high float64) float64 {
	const golden = 0.6180339887498949
	left, right := high-golden*(high-low), low+golden*(high-low)
	fLeft, fRight := f(left), f(right)
	for high-low > 1e-9 {
		if fLeft > fRight {
			high, right, fRight = right, left, fLeft
			left = high - golden*(high-low)
			fLeft = f(left)
		} else {
			low, left, fLeft = left, right, fRight
			right = low + golden*(high-low)
			fRight = f(right)
		}
	}
	return (low + high) / 2
}

// Drop is how far the crank lets the piston down at u from TDC.
func (b Bench) Drop(u float64) float64 { return b.top - b.height(b.tdc+u) }

// Shown is what the wheel shows at the pointer with the crank at u from TDC, its
// graduations without error. In the wheel's own frame the pointer goes round the
// crank's axis; the graduation under it is where it stands as seen from the wheel's
// centre.
func (b Bench) Shown(u float64) float64 {
	sin, cos := math.Sincos(u)
	x, y := b.Radius*cos-b.Wheel*math.Cos(b.Phase), b.Radius*sin-b.Wheel*math.Sin(b.Phase)
	return b.Start + u + math.Remainder(math.Atan2(y, x)-u, 2*math.Pi)
}

// Truth is what the wheel shows at TDC, its graduations without error: what is to be
// found.
func (b Bench) Truth() float64 { return b.Shown(0) }

// ShiftWheel moves the wheel's centre by mm in a direction.
func (b *Bench) ShiftWheel(by, direction float64) {
	x := b.Wheel*math.Cos(b.Phase) + by*math.Cos(direction)
	y := b.Wheel*math.Sin(b.Phase) + by*math.Sin(direction)
	b.Wheel, b.Phase = math.Hypot(x, y), math.Atan2(y, x)
}
