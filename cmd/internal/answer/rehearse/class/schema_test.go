package class

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "rehearse-class", "evendrop rehearse --check --answers",
		"A class's answers against the truth. Angles in degrees, as the protractor shows them.", markedJSON{})
}
