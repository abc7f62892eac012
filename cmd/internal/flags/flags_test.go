package flags_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
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
		set := flags.New("try", "", "")
		chord, from := set.Bool("chord", ""), set.Text("from", "DEG", "")
		rest, err := set.Parse(c.args)
		require.NoError(t, err, c.args)
		require.Equal(t, c.positional, rest, c.args)
		require.True(t, !set.Given("from") || *from == "-10", c.args)
		require.True(t, *chord || !set.Given("chord"), c.args)
	}
}
