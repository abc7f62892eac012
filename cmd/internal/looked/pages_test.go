package looked_test

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"evendrop/cmd/internal/browser/browsertest"
	"evendrop/cmd/internal/looked"
	"evendrop/cmd/internal/scenes"

	"github.com/stretchr/testify/require"
)

// A page of every sort of job is in order for everybody who looks at it.
func TestPages(t *testing.T) {
	list := scenes.All()
	if testing.Short() {
		list = []scenes.Scene{list[0], list[4], list[6]} // common, many cylinders, the longest names
	}
	p := browsertest.Page(t, browsertest.Start(t, ""))
	for _, s := range list {
		pages, err := looked.Draw(s, t.TempDir())
		require.NoError(t, err)
		for _, d := range pages {
			t.Run(d.Name, func(t *testing.T) {
				file := filepath.Join(t.TempDir(), "page.html")
				require.NoError(t, os.WriteFile(file, d.HTML, 0o600))
				began := time.Now()
				all, err := looked.Faults(p, file, d.HTML)
				require.NoError(t, err)
				t.Logf("%d bytes, looked at in %.1f s", len(d.HTML), time.Since(began).Seconds())
				for _, who := range slices.Sorted(maps.Keys(all)) {
					for _, f := range all[who] {
						t.Errorf("%s: %s", who, f)
					}
				}
			})
		}
	}
	if err := looked.Poppler(); err != nil {
		t.Skip(err)
	}
}
