package job_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// touching are the rooms that may touch files: this one, what is on the disk, what reads a
// zip that somebody opened, the known-good file, and what tests them.
var touching = []string{".", "archive", "disk", "disk/disktest", "jobtest", "knowngood", "notebook", "system"}

// Nothing else of the core can so much as name a file.
func TestOnlyTheseRoomsTouchFiles(t *testing.T) {
	files := 0
	for _, top := range []string{"../../tdc", "../../fit", "../../geometry"} {
		require.NoError(t, filepath.WalkDir(top, func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			room, err := filepath.Rel("../../tdc/job", filepath.Dir(path))
			if err != nil || slices.Contains(touching, filepath.ToSlash(room)) {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
			require.NoError(t, err)
			files++
			for _, used := range file.Imports {
				name, err := strconv.Unquote(used.Path.Value)
				require.NoError(t, err)
				require.NotContains(t, []string{"os", "io/fs", "os/exec", "syscall", "net", "evendrop/tdc/job", "evendrop/tdc/job/disk", "evendrop/tdc/job/notebook", "evendrop/tdc/job/system"}, name, path)
			}
			return nil
		}))
	}
	require.Greater(t, files, 60)
}
