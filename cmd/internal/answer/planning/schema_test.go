package planning

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "plan", "evendrop plan",
		"Where to read, and how sure that makes TDC. Angles in crank degrees from TDC, late positive; lengths in mm whatever the job's unit. Null: none was asked for, or the plan turns one way only.", planJSON{})
}
