package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// What is remembered is what would be found: of the same evidence the same, of any other
// what is found of that.
func TestMemory(t *testing.T) {
	setup := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
	setup.Engine = evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)}
	at := func(off float64) evidence.Cylinder {
		c := evidence.Cylinder{Number: 1}
		for _, x := range []float64{-30, -20, -10, 10, 20, 30} {
			drop, err := geometry.NewSliderCrank(86, 146, 0)
			require.NoError(t, err)
			c.Readings = append(c.Readings, evidence.Reading{Angle: geometry.Angle(x+off) * geometry.Degree, Depth: drop.Drop(geometry.Angle(x) * geometry.Degree)})
		}
		return c
	}
	var m memory
	for _, off := range []float64{0, 0, 2, 0, 2} {
		got, err := m.find(setup, at(off))
		require.NoError(t, err)
		want, err := tdc.Find(setup, at(off))
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	finer := setup
	finer.Protractor.Error = 0
	got, err := m.find(finer, at(2))
	require.NoError(t, err)
	coarse, err := m.find(setup, at(2))
	require.NoError(t, err)
	require.Less(t, got.TDC.Expanded, coarse.TDC.Expanded, "another protractor is another question")
}
