package plan

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Readings is what an engine that is as stated shows without error at the plan's places,
// on a protractor that reads zero at TDC.
func (p Plan) Readings(setup evidence.Setup) (list []evidence.Reading) {
	for _, point := range p.Points {
		falling := math.Copysign(1, float64(point.Angle)*float64(point.Turn))
		drop := point.Drop - geometry.Length(falling)*setup.Gauge.Lash/2
		list = append(list, evidence.Reading{Angle: point.Angle, Depth: drop, Turn: point.Turn})
	}
	return list
}
