package lobe

import "evendrop/geometry"

// OpeningSlope is how fast the lift grows where the valve opens.
func (e *Events) OpeningSlope() geometry.Slope { return e.openingSlope }
