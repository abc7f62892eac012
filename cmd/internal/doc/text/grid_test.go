package text

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A table without a library is the library's, letter for letter, where every character is
// one wide.
func TestGridIsTheLibrarys(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	words := []string{"", "a", "± 0.28", "12.0 BTDC", "locking pin hole", "-0.09 mm", "two\n  lines", "within"}
	for range 300 {
		columns := 1 + rng.IntN(6)
		row := func() (cells []string) {
			for range columns {
				cells = append(cells, words[rng.IntN(len(words))])
			}
			return cells
		}
		header := row()
		for i := range header {
			header[i] = strings.ReplaceAll(header[i], "\n", " ") + "."
		}
		var rows [][]string
		var left []bool
		for range 1 + rng.IntN(5) {
			rows = append(rows, row())
		}
		for range columns {
			left = append(left, rng.IntN(2) == 0)
		}
		want, err := plainTable(header, rows, left)
		require.NoError(t, err)
		require.Equal(t, want, gridTable(header, rows, left), "%q %q", header, rows)
	}
}
