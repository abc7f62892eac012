package curve

// Part is what may move on a bench between two readings.
type Part int

// The parts.
const (
	NoPart     Part = iota
	Protractor      // or its pointer: it reads an angle more from then on
	GaugeZero       // it reads a length more from then on
)

// Moved is a part that moved after so many readings. Every parameter but the step
// itself is of the bench as it stands at the end, so readings taken before are put
// where they would have been read since.
type Moved struct {
	Part  Part
	After int
	// PairsBefore tells that the pairs of angles were taken before it moved; nothing
	// else says when they were.
	PairsBefore bool
}

// angle is what the protractor would show since it moved for what reading i shows.
func (m Moved) angle(x float64, i int, beta []float64) float64 {
	if m.Part == Protractor && i < m.After {
		return x + beta[Step]
	}
	return x
}

// depth is what the gauge showed at reading i where it would show y since it moved.
func (m Moved) depth(y float64, i int, beta []float64) float64 {
	if m.Part == GaugeZero && i < m.After {
		return y - beta[Step]
	}
	return y
}

// derivative fills the step's column at reading i, where the curve climbs so steeply.
func (m Moved) derivative(along float64, i int, jac [][]float64) {
	switch {
	case m.Part == NoPart: // the parameter is held, and there may be no column
	case i >= m.After:
		jac[Step][i] = 0
	case m.Part == Protractor:
		jac[Step][i] = along
	default:
		jac[Step][i] = -1
	}
}

// midpoint is where a pair was read whose midpoint comes at y since the protractor
// moved; it fills the step's column.
func (m Moved) midpoint(y float64, i int, beta []float64, jac [][]float64) float64 {
	if m.Part != Protractor || !m.PairsBefore {
		return y
	}
	jac[Step][i] = -1
	return y - beta[Step]
}
