package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A number with a minus sign is a value in the commands that take values.
func TestCommandsTakeNegativeNumbers(t *testing.T) {
	for _, c := range []struct {
		one, other []string
	}{
		{[]string{"convert", "--chord", "-10", "mm", "--radius", "65"}, []string{"convert", "-10", "mm", "--radius", "65", "--chord"}},
		{[]string{"convert", "--chord", "-10mm", "--radius", "65"}, []string{"convert", "-10mm", "--radius", "65", "--chord"}},
		{[]string{"convert", "--chord", "-0.5in", "--radius", "65"}, []string{"convert", "-12.7", "mm", "--radius", "65", "--chord"}},
		{[]string{"convert", "--chord", "-12°30'", "crank"}, []string{"convert", "-12.5", "crank", "--chord"}},
		{[]string{"halve", "--wraps", "180", "-12°30'", "9.1"}, []string{"halve", "-12.5", "--wraps", "180", "9.1"}},
		{[]string{"motion", "--stroke", "86", "--rod", "146", "--from", "-30", "--bore-offset", "-2"},
			[]string{"motion", "--from=-30", "--bore-offset=-2", "--stroke=86", "--rod=146"}},
	} {
		code, one, errs := ev(append(c.one, "--as", "csv")...)
		require.Equal(t, answered, code, "%v: %s", c.one, errs)
		code, other, errs := ev(append(c.other, "--as", "csv")...)
		require.Equal(t, answered, code, "%v: %s", c.other, errs)
		require.Equal(t, other, one, c.one)
	}
}
