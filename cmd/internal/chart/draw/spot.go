package draw

import (
	"math"
	"slices"
)

// Spot is a place on a picture, Y downward.
type Spot struct{ X, Y float64 }

// At is the spot so far right and so far down.
func At(x, y float64) Spot { return Spot{x, y} }

// Box is an upright rectangle.
type Box struct{ Left, Top, Right, Bottom float64 }

// Width is how far its sides lie apart.
func (b Box) Width() float64 { return b.Right - b.Left }

// Height is how far its top and bottom lie apart.
func (b Box) Height() float64 { return b.Bottom - b.Top }

// Grown is the box with every side moved out.
func (b Box) Grown(by float64) Box {
	return Box{b.Left - by, b.Top - by, b.Right + by, b.Bottom + by}
}

// Finite tells whether every value is a number, and none without end.
func Finite(values ...float64) bool {
	return !slices.ContainsFunc(values, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
}
