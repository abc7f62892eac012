package convert

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "convert", "evendrop convert",
		"One shift in every unit that can be had.", conversionJSON{})
}
