package inspect

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/mark/joint/seen"
)

// What tells TDC and the protractor from other parts names one of the two.
func TestOneNameForTheZero(t *testing.T) {
	s := &seen.System{Parts: []seen.Part{{Name: "pulley on crank"}, {Name: seen.TDC, Kind: seen.ZeroPoint}, {Name: seen.Protractor, Kind: seen.Scale}}}
	require.Equal(t, []string{"pulley on crank", seen.TDC}, names(s, map[int]bool{0: true, 1: true, 2: true}))
	require.Equal(t, []string{seen.Protractor}, names(s, map[int]bool{2: true}))
}
