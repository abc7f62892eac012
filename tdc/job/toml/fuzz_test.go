package toml

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	library "github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"
)

// The document holds what a TOML library of note finds in the same bytes, and
// refuses what that refuses, but for numbers and dates out of their range.
func FuzzDocument(f *testing.F) {
	for _, file := range []string{"diagnostician/job.toml", "diagnostician/known-good.toml", "builder/job.toml"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "..", "examples", file))
		require.NoError(f, err)
		f.Add(string(data))
	}
	f.Add("a.b.c = 1\na.d = [{}, {e = \"f\"}]\n[g.h]\n[g]\ni.j = 'k'\n[[l]]\n[l.m]\n[[l]]\n[l.m]\n[[l.n]]\n")
	f.Add("[a]\nb.c = 1\n[a.b.d]\n")
	f.Add("[[a.b]]\n[a.b.c]\n[a]\n[[a.b]]\nc = {}\n")
	f.Add("a = [[1, 2], [], {b = [[]]}]\n\"\" = \"\"\n\"a b\".'c.d' = '''\n'''\n")
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) || strings.HasPrefix(text, "\ufeff") {
			return // refused before
		}
		var theirs map[string]any
		theirErr := library.Unmarshal([]byte(text), &theirs)
		ours, ourErr := outlined([]byte(text))
		if ourErr != nil && strings.Contains(ourErr.Error(), "more than ") {
			return // a limit of ours
		}
		if ourErr != nil {
			require.Error(t, theirErr, "refused only here: %v", ourErr)
			return
		}
		if theirErr != nil {
			for _, about := range []string{"already", "defined", "table", "newline", "key"} {
				require.NotContains(t, theirErr.Error(), about)
			}
			return
		}
		lines := map[string]string{}
		outlineOf("", theirs, lines)
		require.Equal(t, lines, ours)
	})
}

// outlineOf is outlined of what the library found.
func outlineOf(path string, v any, lines map[string]string) {
	switch v := v.(type) {
	case string:
		lines[path] = "text " + v
	case map[string]any:
		lines[path] = "table"
		for key, inner := range v {
			outlineOf(path+"."+strconv.Quote(key), inner, lines)
		}
	case []any:
		lines[path] = "list"
		for i, item := range v {
			outlineOf(path+"["+strconv.Itoa(i)+"]", item, lines)
		}
	default:
		lines[path] = "other"
	}
}

// outlined is every key of a file with its text, if that is what it has, as
// the document holds them.
func outlined(data []byte) (map[string]string, error) {
	doc, err := Parse(data)
	if err != nil {
		return nil, err
	}
	lines := map[string]string{}
	outline("", Value{Kind: TableKind, Table: doc.Root}, lines)
	return lines, nil
}

func outline(path string, v Value, lines map[string]string) {
	switch v.Kind {
	case TextKind:
		lines[path] = "text " + v.Text
	case TableKind:
		lines[path] = "table"
		for _, inner := range v.Table.values {
			outline(path+"."+strconv.Quote(inner.key), inner, lines)
		}
	case ListKind:
		lines[path] = "list"
		for i, item := range v.Items {
			outline(path+"["+strconv.Itoa(i)+"]", item, lines)
		}
	default:
		lines[path] = "other"
	}
}
