package capture

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The step is the time of all rows over the steps between them.
func TestStep(t *testing.T) {
	s, err := Look(strings.NewReader("ms,V,V\n10,1,2\n20,2,1\n30,1,2\n50,2,1\n"), Request{Time: "1", Crank: "2", Cams: []string{"3"}})
	require.NoError(t, err)
	require.InDelta(t, 0.04/3, s.Step, 1e-12)
	require.InDelta(t, 0.01, s.start, 1e-12)
}
