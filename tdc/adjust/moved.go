package adjust

// Part is what may move on a bench between two readings.
type Part int

// The parts.
const (
	NoPart     Part = iota
	Protractor      // or its pointer: it reads an angle more from then on
	GaugeZero       // it reads a length more from then on
)

// moved is a part that moved after so many readings. Every parameter but the step
// itself is of the bench as it stands at the end, so readings taken before are put
// where they would have been read since.
type moved struct {
	part  Part
	after int
	// pairsBefore tells that the pairs of angles were taken before it moved; nothing
	// else says when they were.
	pairsBefore bool
}

// angle is what the protractor would show since it moved for what reading i shows.
func (m moved) angle(x float64, i int, beta []float64) float64 {
	if m.part == Protractor && i < m.after {
		return x + beta[parStep]
	}
	return x
}

// depth is what the gauge showed at reading i where it would show y since it moved.
func (m moved) depth(y float64, i int, beta []float64) float64 {
	if m.part == GaugeZero && i < m.after {
		return y - beta[parStep]
	}
	return y
}

// derivative fills the step's column at reading i, where the curve climbs so steeply.
func (m moved) derivative(along float64, i int, jac [][]float64) {
	switch {
	case m.part == NoPart: // the parameter is held, and there may be no column
	case i >= m.after:
		jac[parStep][i] = 0
	case m.part == Protractor:
		jac[parStep][i] = along
	default:
		jac[parStep][i] = -1
	}
}

// midpoint is where a pair was read whose midpoint comes at y since the protractor
// moved; it fills the step's column.
func (m moved) midpoint(y float64, i int, beta []float64, jac [][]float64) float64 {
	if m.part != Protractor || !m.pairsBefore {
		return y
	}
	jac[parStep][i] = -1
	return y - beta[parStep]
}
