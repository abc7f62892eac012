package formtest

import (
	"flag"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
)

var update = flag.Bool("update", false, "write the schemas anew from the Go types")

// Hold holds testdata/schema/NAME.json to the type that the answer of that name is
// encoded from. With -update it writes the file.
func Hold(t *testing.T, name, title, description string, answer any) {
	t.Helper()
	schema, err := of(title, description, answer)
	require.NoError(t, err)
	made, err := form.JSON(schema)
	require.NoError(t, err)
	_, here, _, ok := runtime.Caller(0)
	require.True(t, ok)
	path := filepath.Join(filepath.Dir(here), "..", "..", "..", "..", "testdata", "schema", name+".json")
	if *update {
		require.NoError(t, os.WriteFile(path, made, 0o644))
	}
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(kept), string(made), "%s is made from the Go types: run this package's test with -update", path)
}
