package keep

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "keep", "evendrop keep",
		"What healthy engines showed. Angles in crank degrees after TDC of cylinder 1, or from the member that a mark is measured against.", keptJSON{})
}
