package plan

import "evendrop/tdc/evidence"

// Opening is the plan's readings to begin with, four that determine TDC: the farthest from
// it and the nearest, on the rising side and then on the falling.
func (p Plan) Opening() []Point {
	var first []Point
	for _, point := range p.Points {
		if point.Turn == evidence.Forward {
			first = append(first, point)
		}
	}
	last := len(first) - 1
	return []Point{first[0], first[last/2], first[last/2+1], first[last]}
}
