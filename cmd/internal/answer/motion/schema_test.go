package motion

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "motion", "evendrop motion",
		"How the piston moves near TDC. engine, rows, dwell and liquid are the first engine's; engines has every one.", motionJSON{})
}
