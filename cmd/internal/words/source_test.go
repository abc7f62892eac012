package words_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/words"
	"evendrop/tdc/adjust"
)

// No wheel is meant but the engine's: the protractor is called one nowhere.
func TestSource(t *testing.T) {
	require.Equal(t, "protractor off centre", words.Source(adjust.OffCentre))
	require.Equal(t, adjust.LashSource, words.Source(adjust.LashSource))
}
