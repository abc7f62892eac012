package edges

import (
	"testing"

	"evendrop/cmd/internal/form/formtest"
)

// What is said of the JSON is what it is encoded from.
func TestSchema(t *testing.T) {
	formtest.Hold(t, "edges", "evendrop edges",
		"Cam edges in crank degrees after the gap of the crank wheel. Unknown is null.", edgesJSON{})
}
