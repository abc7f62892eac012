package gum

// Below is below, for tests of its numbers.
func (m Mixture) Below(x float64) float64 { return m.below(x) }

// Point is point, for tests of its numbers.
func (m Mixture) Point(probability float64) float64 { return m.point(probability) }
