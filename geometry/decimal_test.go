package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
)

// Nobody at a bench reads 1e-05.
func TestDecimal(t *testing.T) {
	for want, x := range map[string]float64{"0.00001": 1e-5, "120": 123.4, "-0.00000012": -1.23e-7, "12": 12, "0": 0, "0.1": 0.1} {
		require.Equal(t, want, geometry.Decimal(x, 2))
	}
	require.Equal(t, "0.00001 mm", (1e-5 * geometry.Millimetre).String())
	require.Equal(t, "0.00001 deg", (1e-5 * geometry.Degree).String())
	require.Equal(t, "12345678900 deg", (1.23456789e10 * geometry.Degree).String())
	require.Equal(t, "81.4 mm", (81.4 * geometry.Millimetre).String())
}
