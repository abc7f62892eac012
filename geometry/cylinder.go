package geometry

import (
	"fmt"
	"math"
)

// Volume is a volume in cubic millimetres.
type Volume float64

// CubicCentimetre is a thousand cubic millimetres; a millilitre is the same.
const CubicCentimetre Volume = 1000

// CubicCentimetres is v in cubic centimetres.
func (v Volume) CubicCentimetres() float64 { return float64(v / CubicCentimetre) }

// Cylinder is a slider-crank in a bore, with the space left above the piston.
type Cylinder struct {
	SliderCrank
	area      float64 // mm^2
	clearance Volume  // at TDC
}

// NewCylinder puts a slider-crank in a bore with a compression ratio, the
// largest volume over the smallest. A ratio of one or less is an error.
func NewCylinder(s SliderCrank, bore Length, compression float64) (Cylinder, error) {
	switch {
	case !positive(float64(bore)):
		return Cylinder{}, fmt.Errorf("bore %v is not a length above zero", bore)
	case !(compression > 1) || math.IsInf(compression, 1):
		return Cylinder{}, fmt.Errorf("compression ratio %v must be above 1", compression)
	}
	area := math.Pi / 4 * float64(bore) * float64(bore)
	swept := area * float64(s.Stroke())
	return Cylinder{SliderCrank: s, area: area, clearance: Volume(swept / (compression - 1))}, nil
}

// Clearance is the volume above the piston at TDC.
func (c Cylinder) Clearance() Volume { return c.clearance }

// Swept is the volume between TDC and BDC.
func (c Cylinder) Swept() Volume { return Volume(c.area * float64(c.Stroke())) }

// VolumeAt is the volume above the piston at u from TDC (Heywood 2.4).
func (c Cylinder) VolumeAt(u Angle) Volume {
	return c.clearance + Volume(c.area*float64(c.Drop(u)))
}

// AnglesAtVolume is the pair of crank angles from TDC at which the volume above
// the piston is v: before and after. A volume less than the clearance or more
// than clearance and swept volume together has no angles and is an error.
func (c Cylinder) AnglesAtVolume(v Volume) (before, after Angle, err error) {
	if !(v >= c.clearance && v <= c.clearance+c.Swept()) {
		return 0, 0, fmt.Errorf("%s cm3 is not between the volumes at TDC and BDC, %s and %s cm3",
			Decimal(v.CubicCentimetres(), 4), Decimal(c.clearance.CubicCentimetres(), 4), Decimal((c.clearance+c.Swept()).CubicCentimetres(), 4))
	}
	return c.AnglesAt(Length(min(float64(c.Stroke()), float64(v-c.clearance)/c.area)))
}
