package recheck

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "recheck", "evendrop recheck",
		"What changed between two jobs on one engine. Angles in crank degrees, late positive; TDC before and after as the protractor shows it.", recheckJSON{})
}
