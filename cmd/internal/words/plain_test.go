package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// oldWords are words that a mechanic does not use, or that a reader of English as a
// second language takes for another.
var oldWords = regexp.MustCompile(`there already|\bis no [a-km-z]|which no\b|\bof no\b|\b(noughts?|amid|told|anew)\b|held against|hold an engine|mind this|` +
	`the one or the other|\bstruck out\b|go back and see|no piston|ha(s|ve) it back|than it can\b|like depths`)

// thereIsNone is good English, which "is no" alone is not.
var thereIsNone = regexp.MustCompile(`[Tt]here is no\b`)

// exponent is a verb that may write a number as 1e+03.
var exponent = regexp.MustCompile(`%[-+#0-9.]*[egEG]\b`)

// What is said to a person is in plain English, in every package, and its numbers have
// no exponents. Pictures are measured in what a browser reads, and of fit's own errors
// none reaches a person.
func TestPlainWords(t *testing.T) {
	said, old := 0, []string(nil)
	for _, root := range []string{"cmd", "tdc", "fit", "geometry"} {
		eachString(t, filepath.Join("..", "..", "..", root), func(path, text, where string) {
			if said++; strings.Contains(filepath.ToSlash(path), "tdc/finding/") || strings.Contains(filepath.ToSlash(path), "internal/looked/") || strings.Contains(filepath.ToSlash(path), "internal/scenes/") {
				return // kinds, which JSON has promised; what is said to who builds a page
			}
			counted := root == "fit" || strings.Contains(filepath.ToSlash(path), "internal/chart/")
			if oldWords.MatchString(thereIsNone.ReplaceAllString(text, "")) || !counted && exponent.MatchString(text) {
				old = append(old, where+": "+text)
			}
		})
	}
	require.Empty(t, old)
	require.Greater(t, said, 2000)
}

// eachString goes through the texts of the program below a folder, without what tests
// say.
func eachString(t *testing.T, root string, do func(path, text, where string)) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.HasSuffix(filepath.Dir(path), "test") {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			if text, ok := n.(*ast.BasicLit); ok && text.Kind == token.STRING {
				do(path, text.Value, set.Position(text.Pos()).String())
			}
			return true
		})
		return nil
	}))
}

// So are the documents, and the files of the examples.
func TestPlainDocuments(t *testing.T) {
	top := filepath.Join("..", "..", "..")
	files, err := filepath.Glob(filepath.Join(top, "*.md"))
	require.NoError(t, err)
	for _, pattern := range []string{"*.md", "*.toml"} {
		more, err := filepath.Glob(filepath.Join(top, "examples", "*", pattern))
		require.NoError(t, err)
		files = append(files, more...)
	}
	require.Greater(t, len(files), 6)
	for _, path := range files {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Empty(t, oldWords.FindAllString(thereIsNone.ReplaceAllString(strings.Join(strings.Fields(string(text)), " "), ""), -1), path)
	}
}
