package halve

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "halve", "evendrop halve",
		"TDC, or the centre of a cam lobe, half-way between pairs of angles, as the protractor shows them.", halveJSON{})
}
