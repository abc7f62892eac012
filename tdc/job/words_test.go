package job_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// oldWords are words that a mechanic does not use.
var oldWords = regexp.MustCompile(`there already|\bis no [a-km-z]|\band no\b|\bnought\b|\bamid\b|held against|the one or the other|\btold\b|\bstruck out\b`)

// What is said of a file is in plain English, in every room of this package.
func TestPlainWords(t *testing.T) {
	said := 0
	require.NoError(t, filepath.WalkDir(".", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			if text, ok := n.(*ast.BasicLit); ok && text.Kind == token.STRING {
				said++
				require.NotRegexp(t, oldWords, text.Value, set.Position(text.Pos()).String())
			}
			return true
		})
		return nil
	}))
	require.Greater(t, said, 400)
}
