package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

// A number with a minus sign is a value wherever it stands: before, between and after
// flags of either kind, and as a flag's own.
func TestNegativeNumbersAreValues(t *testing.T) {
	for _, c := range []struct{ args, positional []string }{
		{[]string{"-10", "mm", "--chord"}, []string{"-10", "mm"}},
		{[]string{"--chord", "-10", "mm"}, []string{"-10", "mm"}},
		{[]string{"--chord=true", "-10", "--from", "-10", "mm"}, []string{"-10", "mm"}},
		{[]string{"--from=-10", "-10", "--chord", "-10"}, []string{"-10", "-10"}},
		{[]string{"--from", "-10", "9", "-5.2"}, []string{"9", "-5.2"}},
		{[]string{"-.5", "--chord", "-,5", "-12°30'", "- 3"}, []string{"-.5", "-,5", "-12°30'", "- 3"}},
		{[]string{"-0.5in", "--from", "-10", "−4"}, []string{"-0.5in", "−4"}},
		{[]string{"--chord", "--", "-10", "--from"}, []string{"-10", "--from"}},
		{[]string{"-5", "--", "-10"}, []string{"-5", "-10"}},
	} {
		flags := flagSet("try")
		chord := flags.Bool("chord", false, "")
		from := flags.String("from", "-10", "")
		rest, err := parse(flags, c.args, "", &bytes.Buffer{})
		require.NoError(t, err, c.args)
		require.Equal(t, c.positional, rest, c.args)
		require.Equal(t, "-10", *from, c.args)
		require.True(t, *chord || !flags.Changed("chord"), c.args)
	}
}

// The same in the commands that take values.
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
