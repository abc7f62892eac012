package looked

import (
	"testing"

	"evendrop/cmd/internal/scenes"

	"github.com/stretchr/testify/require"
)

// mostBytes is how large a page without photos may be: 80 KB, which a phone at the bench
// has in a few seconds where the network is poor (common practice, no source).
const mostBytes = 80 * 1024

// The page of every sort of job is small enough for a message.
func TestPagesAreSmall(t *testing.T) {
	for _, s := range scenes.All() {
		pages, err := Draw(s, t.TempDir())
		require.NoError(t, err)
		for _, p := range pages {
			t.Log(p.Name, len(p.HTML))
			if len(p.HTML) > mostBytes {
				t.Errorf("%s has %d bytes", p.Name, len(p.HTML))
			}
		}
	}
}
