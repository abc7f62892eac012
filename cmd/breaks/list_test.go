package main

import (
	"errors"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

const root = "../.."

// everything is the lists, the program and the results that are kept.
func everything(t *testing.T) (list []Break, source program, kept results) {
	t.Helper()
	list, err := readLists(root)
	require.NoError(t, err)
	source, err = readProgram(root)
	require.NoError(t, err)
	kept, err = readResults(root)
	require.NoError(t, err)
	return list, source, kept
}

// Every break can be made: its old text stands once, what comes of it is still Go,
// and there is a package with tests that may catch it.
func TestListIsTrue(t *testing.T) {
	list, source, _ := everything(t)
	for _, b := range list {
		file, err := source.place(b)
		if err != nil {
			t.Error(err) // and on to the next, so that all are named
			continue
		}
		require.NoError(t, parses(t, file, source.broken(file, b)), "%s: %s", b.listed, b.Why)
		_, err = regexp.Compile(b.Run)
		require.NoError(t, err, "%s: %s", b.listed, b.Why)
	}
	for _, folder := range packages(list) {
		tests, err := filepath.Glob(filepath.Join(root, folder, "*_test.go"))
		require.NoError(t, err)
		require.NotEmpty(t, tests, "%s has no tests", folder)
	}
}

// parses tells what keeps a file from being Go, or JavaScript where there is a Node that can say.
func parses(t *testing.T, file, text string) error {
	if !isScript(file) {
		_, err := parser.ParseFile(token.NewFileSet(), file, text, parser.SkipObjectResolution)
		return err
	}
	node, err := exec.LookPath("node")
	if err != nil {
		return nil
	}
	broken := filepath.Join(t.TempDir(), "broken.js")
	require.NoError(t, os.WriteFile(broken, []byte(text), 0o600))
	if out, err := exec.Command(node, "--check", broken).CombinedOutput(); err != nil {
		return errors.New(string(out))
	}
	return nil
}

// The aims: 300 breaks, 60 of them in what is said to the user, and 95 of 100 caught.
func TestListIsLong(t *testing.T) {
	list, _, kept := everything(t)
	said, tried, caught := 0, 0, 0
	for _, b := range list {
		if b.Said {
			said++
		}
		result, known := kept.of(b)
		if !known {
			continue
		}
		tried++
		if result.Verdict != Escaped {
			caught++
			continue
		}
		require.NotEmpty(t, b.Escapes, "%s: %s: escapes, and the list does not say why", b.listed, b.Why)
	}
	require.GreaterOrEqual(t, len(list), 300)
	require.GreaterOrEqual(t, said, 60)
	require.GreaterOrEqual(t, float64(caught), 0.95*float64(tried))
}

func TestParse(t *testing.T) {
	list, err := parse("x.txt", "# a remark\n\npackage: fit\nrun: TestA\n\nbreak: one\nold: a < b\nnew: a <= b\n\nsaid: two\npackage: tdc\n"+
		"old: if late {\nold: \treturn \"late\"\nnew: \nescapes: nobody reads it\n")
	require.NoError(t, err)
	require.Equal(t, []Break{
		{Why: "one", Package: "fit", Run: "TestA", Old: "a < b", New: "a <= b", listed: "x.txt:6"},
		{Why: "two", Said: true, Package: "tdc", Run: "TestA", Old: "if late {\n\treturn \"late\"", Escapes: "nobody reads it", listed: "x.txt:10"},
	}, list)
	for text, says := range map[string]string{
		"break: one\nold: a\nnew: b\n":                   `x.txt:1: "one" names no package`,
		"package: p\n\nbreak: one\nfile: a.js\nold: a\n": `x.txt:3: "one" names no tests`,
		"package: fit\n\nbreak: one\nnew: b\n":           `x.txt:3: "one" has no old text`,
		"package: fit\n\nbreak: one\nold: a\nnew: a\n":   `x.txt:3: "one" changes nothing`,
		"package: fit\n\nbreak: one\nodl: a\n":           `x.txt:4: "odl" is not a key`,
		"package: fit\n\nbreak: one\nold a\n":            "x.txt:4: expected a key and a colon",
	} {
		_, err := parse("x.txt", text)
		require.ErrorContains(t, err, says)
	}
	require.ErrorContains(t, unlike([]Break{{Why: "one", listed: "a:1"}, {Why: "one", listed: "b:2"}}), `b:2: "one" is listed at a:1 too`)
}

func TestPlace(t *testing.T) {
	p := program{"a/a.go": "x := 1\ny := 1\n", "b/b.go": "x := 1\n"}
	file, err := p.place(Break{Old: "y := 1", New: "y := 2"})
	require.NoError(t, err)
	require.Equal(t, "a/a.go", file)
	require.Equal(t, "x := 1\ny := 2\n", p.broken(file, Break{Old: "y := 1", New: "y := 2"}))
	file, err = p.place(Break{Old: "x := 1", File: "b/b.go"})
	require.NoError(t, err)
	require.Equal(t, "b/b.go", file)
	p["page/a.js"] = "y := 1\n"
	file, err = p.place(Break{Old: "y := 1"})
	require.NoError(t, err)
	require.Equal(t, "a/a.go", file, "a script is broken where it is named")
	file, err = p.place(Break{Old: "y := 1", File: "page/a.js"})
	require.NoError(t, err)
	require.Equal(t, "page/a.js", file)
	_, err = p.place(Break{Why: "w", Old: "x := 1"})
	require.ErrorContains(t, err, `"w": its old text stands 2 times`)
	_, err = p.place(Break{Why: "w", Old: "z"})
	require.ErrorContains(t, err, `"w": its old text is gone`)
}

// A result holds until its break is edited, and the table counts by the package that
// was broken.
func TestResultsAndTable(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, folder), 0o700))
	one := Break{Why: "one", Package: "b", Old: "y", New: "z"}
	two := Break{Why: "two", Said: true, Package: "b", Old: "x", New: "z", Escapes: "nobody looks"}
	three := Break{Why: "three", Said: true, Package: "b", Old: "w", New: "z"}
	list := []Break{one, two, three}
	kept := results{
		"one":  {"2026-11-25", Caught, "TestA", one.mark()},
		"two":  {"2026-11-25", Escaped, "", two.mark()},
		"gone": {"2026-11-25", Caught, "TestB", "00000000"},
	}
	require.NoError(t, kept.write(dir, list))
	read, err := readResults(dir)
	require.NoError(t, err)
	delete(kept, "gone")
	require.Equal(t, kept, read)
	text, err := table(program{"p/a.go": "x y", "q/b.go": "w"}, list, read)
	require.NoError(t, err)
	require.Contains(t, text, "| `p` | 2 | 1 | 1 | 0 |\n| `q` | 1 | 0 | 1 | 0 |\n| all | 3 | 1 | 2 | 0 |\n\n1 have not been tried")
	require.Contains(t, text, "- `p`: two: nobody looks\n")
	chosen, err := choose(list, read, options{fresh: true})
	require.NoError(t, err)
	require.Equal(t, []Break{three}, chosen)
	one.New = "zz"
	_, known := read.of(one)
	require.False(t, known)
}

// Breaks of scripts are tried by the tests of a browser, all of which pass first.
func TestScriptsApart(t *testing.T) {
	one, two, three := Break{Why: "one", Package: "p", Run: "A", File: "p/a.js"}, Break{Why: "two", Package: "p", Run: "B"}, Break{Why: "three", Package: "p", Run: "C", File: "p/b.js"}
	scripts, programs := apart([]Break{one, two, three, one})
	require.Equal(t, []Break{one, three, one}, scripts)
	require.Equal(t, []Break{two}, programs)
	require.Equal(t, "A|C", runsOf(scripts, "p"))
	require.Empty(t, runsOf(scripts, "q"))
}
