package fit

// Weight is weight, for tests of its numbers.
func (l Loss) Weight(z float64) float64 { return l.weight(z) }
