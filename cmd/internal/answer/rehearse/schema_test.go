package rehearse

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "rehearse", "evendrop rehearse --check",
		"A learner's answer against the truth. Angles in degrees, as the protractor shows them.", rehearsalJSON{})
	formtest.Hold(t, "rehearse-lobe", "evendrop rehearse --check --late",
		"A learner's answer about a cam lobe against the truth. Angles in crank degrees.", lobeRehearsalJSON{})
}
