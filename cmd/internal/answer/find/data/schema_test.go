package data

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "find", "evendrop find",
		"TDC of each cylinder, the marks against it, and what may have moved. Angles in degrees, late positive; lengths in mm whatever the job's unit. Unknown is null.", answer{})
}
