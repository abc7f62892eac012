package timing_test

import (
	"testing"

	"evendrop/tdc/wheel/fault"

	"github.com/stretchr/testify/require"
)

// A wheel told wrongly, by a slip that leaves turns to be found, is refused with the
// one that the signal shows: 58 teeth are no 58-2, and 60-2 is usual where 61-3 is not
// (common practice, no source). So it is with the speed rippling.
func TestWheelToldWrongly(t *testing.T) {
	for _, e := range []engine{idlingEngine(), crankingEngine()} {
		data := e.capture(plainTable())
		for _, told := range []string{"58-2", "60-3", "59-2", "57-2", "54-2", "58-4"} {
			_, err := measure(data, told, columns(1))
			requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: "60-2"})
		}
	}
	data := idlingEngine().capture(plainTable())
	for _, told := range []string{"61-3", "62-4"} {
		_, err := measure(data, told, columns(1))
		requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: "60-2"})
	}
	_, err := measure(data, "57x6,18", columns(1))
	require.NoError(t, err)
	e := idlingEngine()
	e.teeth, e.width = wheelEdges(38, 37), 4
	_, err = measure(e.capture(plainTable()), "36-1", columns(1)) // usual, and plainly not this one
	requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: "38-1"})
}
