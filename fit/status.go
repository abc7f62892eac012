package fit

// Status is how a solution ended.
type Status int

// The ends a solution can come to.
const (
	// Converged: the last step was below the tolerance.
	Converged Status = iota
	// Stalled: no shorter step made things better, yet the step was not small.
	Stalled
	// OutOfSteps: MaxSteps were tried.
	OutOfSteps
	// Undetermined: the observations and priors do not fix every parameter where
	// the search ended, whatever its units: there it could be 1e13 times what
	// its uncertainty would be were the others known.
	Undetermined
	// NotANumber: the curve could not be computed at the start.
	NotANumber
	// BadStart: the start did not hold one value a parameter. The parameters
	// are NaN.
	BadStart
)

// String says the status in words.
func (s Status) String() string {
	return [...]string{
		"converged", "no step makes it better", "ran out of steps",
		"the observations do not fix every parameter", "the curve is not a number at the start",
		"the start has not one value for every parameter",
	}[s]
}
