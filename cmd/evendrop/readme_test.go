package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The README shows what the example really prints.
func TestReadmeShowsTheExample(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	code, out, errs := ev("find", diagnostician)
	require.Equal(t, answered, code, errs)
	require.True(t, strings.Contains(string(readme), "```\n"+out+"```\n"), "README.md's block differs from:\n%s", out)
}
