package bench_test

import (
	"testing"

	"evendrop/cmd/internal/bench"
	"evendrop/cmd/internal/form/formtest"
)

func TestSchema(t *testing.T) {
	formtest.Hold(t, "bench-request", "A request to the bench in a page", "What the page asks of the core. Format 1: fields may be added, none changed.", bench.Request{})
	formtest.Hold(t, "bench-response", "A response of the bench in a page", "What the core says, angles in degrees and lengths in millimetres. Format 1: fields may be added, none changed.", bench.Response{})
}
