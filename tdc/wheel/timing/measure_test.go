package timing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/wheel/signal"
)

// Edges are to be within 0.1 deg at idle and 0.2 deg cranking on a 60-2 wheel: a
// quarter of the spacing errors of real wheels, 0.1 to 0.3 deg, which are left out
// of the simulation (common practice, no source).
const (
	idleTolerance     = 0.1
	crankingTolerance = 0.2
)

func TestEdgesAreWhereTheyWereSimulated(t *testing.T) {
	for _, c := range []struct {
		name      string
		change    func(*engine)
		idle      bool
		notes     int
		leastUsed int
	}{
		{"clean Hall", func(*engine) {}, false, 0, 4},
		{"clean Hall", func(*engine) {}, true, 0, 6},
		{"gap high", func(e *engine) { e.reversed = true }, false, 0, 4},
		{"coil", func(e *engine) { e.inductive = true }, false, 0, 4},
		{"coil", func(e *engine) { e.inductive = true }, true, 0, 6},
		{"coil, leads reversed", func(e *engine) { e.inductive, e.reversed = true, true }, false, 1, 4},
		{"coil, leads reversed", func(e *engine) { e.inductive, e.reversed = true, true }, true, 1, 6},
		{"ripple of eight cylinders", func(e *engine) { e.perTurn = 4 }, false, 0, 4},
		{"coil, ripple of eight cylinders", func(e *engine) { e.perTurn, e.inductive = 4, true }, false, 0, 4},
		{"noise", func(e *engine) { e.noise = 0.03 }, false, 0, 4},
		{"coil, noise", func(e *engine) { e.noise, e.inductive = 0.02, true }, false, 0, 4},
		{"coil, noise", func(e *engine) { e.noise, e.inductive = 0.02, true }, true, 0, 6},
		{"coil, more noise", func(e *engine) { e.noise, e.inductive = 0.04, true }, true, 0, 6},
		{"hum", func(e *engine) { e.hum = 0.1 }, false, 0, 4},
		{"coil, hum", func(e *engine) { e.hum, e.inductive = 0.05, true }, false, 0, 4},
		{"drift", func(e *engine) { e.drift = 0.5 }, false, 0, 4},
		{"coil, drift", func(e *engine) { e.drift, e.inductive = 0.5, true }, true, 0, 6},
		{"coil, out of range", func(e *engine) { e.clip, e.inductive = 0.8, true }, false, 0, 4},
		{"chipped tooth", func(e *engine) { e.chipped, e.chip = 13, 1.2 }, false, 1, 4},
		{"chipped tooth by a cam edge", func(e *engine) { e.chipped, e.chip = 20, 1.2 }, true, 1, 6},
		{"36-1", func(e *engine) { e.teeth, e.width = wheelEdges(36, 35), 4 }, true, 0, 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			e, tolerance := crankingEngine(), crankingTolerance
			if c.idle {
				e, tolerance = idlingEngine(), idleTolerance
			}
			c.change(&e)
			name := "60-2"
			if len(e.teeth) == 35 {
				name = "36-1"
			}
			r, err := measure(e.capture(plainTable()), name, columns(1))
			require.NoError(t, err)
			requireEdges(t, e, r, tolerance)
			require.Len(t, r.Notes, c.notes, r.Notes)
			require.GreaterOrEqual(t, r.TurnsUsed, c.leastUsed)
			require.Zero(t, r.TurnsLeftOut)
			require.Equal(t, signal.Kind(map[bool]string{true: "inductive", false: "square"}[e.inductive]), r.CrankKind)
		})
	}
}
