package gum

// Measured is a number with its standard uncertainty, in the same unit; both are
// not a number when nothing that was read tells it.
type Measured struct {
	Value, Uncertainty float64
}
