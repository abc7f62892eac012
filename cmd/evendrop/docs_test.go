package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const root = "../.."

var (
	inline      = regexp.MustCompile("`evendrop ([^`\n]+)`")
	started     = regexp.MustCompile(`(?m)^(?:\$ )?(?:go run \./cmd/evendrop|\$ evendrop) (.+)$`)
	placeholder = regexp.MustCompile(`\b[A-Z]{2,}\b|\.\.\.`)
	flagName    = regexp.MustCompile(`--[a-z][a-z0-9-]*`)
)

// Every command line that a document shows names a command and flags that there
// are, and runs when it names no file of the reader's own.
func TestDocumentedCommandsRun(t *testing.T) {
	t.Chdir(root)
	shown := 0
	for path, text := range documents(t) {
		for _, found := range append(inline.FindAllStringSubmatch(text, -1), started.FindAllStringSubmatch(text, -1)...) {
			shown++
			args := strings.Fields(found[1])
			if args[0] == "alone" || strings.HasPrefix(args[0], "COMMAND") {
				continue
			}
			_, help, _ := ev(args[0], "--help")
			require.NotEmpty(t, help, "%s: evendrop %s", path, found[1])
			for _, name := range flagName.FindAllString(found[1], -1) {
				require.Contains(t, help+"--help", name, "%s: evendrop %s", path, found[1])
			}
			// a bare name is a mention; the lesson's folder is made by its own test
			mention := len(args) == 1 && args[0] != "cautions"
			if mention || placeholder.MatchString(found[1]) || args[0] == "rehearse" || strings.Contains(found[1], "lesson/") {
				continue
			}
			code, _, errs := ev(args...)
			require.Equal(t, answered, code, "%s: evendrop %s: %s", path, found[1], errs)
		}
	}
	require.Greater(t, shown, 15)
}

// documents are the texts that show command lines, by their paths from the root.
func documents(t *testing.T) map[string]string {
	t.Helper()
	texts := map[string]string{}
	for _, pattern := range []string{"*.md", "examples/*/*.md"} {
		paths, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, path := range paths {
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			texts[path] = string(data)
		}
	}
	return texts
}

// listed is a reference's key in DEVELOPERS.md.
var listed = regexp.MustCompile(`(?m)^- ([A-Z][A-Za-z0-9 -]*(?:, [A-Z]+ \d+)?): `)

// key is a reference key with its year.
var key = regexp.MustCompile(`\b[A-Z][A-Za-z]+(?:19|20)\d\d\b`)

// Every reference key in the code is listed in DEVELOPERS.md, and every one that is
// listed is cited.
func TestReferencesResolve(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	require.NoError(t, err)
	_, references, _ := strings.Cut(string(data), "## References")
	references, _, _ = strings.Cut(references, "\n## ")
	code := sources(t)
	cited := key.FindAllString(code, -1)
	require.Greater(t, len(cited), 5)
	for _, k := range cited {
		require.Contains(t, references, "- "+k+":")
	}
	found := listed.FindAllStringSubmatch(references, -1)
	require.Greater(t, len(found), 15)
	for _, f := range found {
		for _, k := range strings.Split(f[1], ", ") {
			require.Contains(t, code, k, "nobody cites %s", k)
		}
	}
}

// sources is all the Go code there is, and the licences of nobody.
func sources(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	require.NoError(t, filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || filepath.Ext(path) != ".go" {
			return err
		}
		text, err := os.ReadFile(path)
		all.Write(text)
		return err
	}))
	return all.String()
}

var (
	defined   = regexp.MustCompile(`(?m)^  --([a-z-]+)`)
	mentioned = regexp.MustCompile(`--([a-z][a-z-]+)`)
)

// Every flag that the command's own words name is one that some command has.
func TestWordsNameFlagsThereAre(t *testing.T) {
	have := map[string]bool{"help": true, "version": true}
	texts := map[string]string{}
	for _, root := range []string{".", "../internal", "../../tdc/job"} {
		require.NoError(t, filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") || strings.HasPrefix(path, "../internal/browser/") { // flags of a browser
				return err
			}
			text, err := os.ReadFile(path)
			texts[path] = string(text)
			return err
		}))
	}
	require.Greater(t, len(texts), 300)
	for _, c := range commands() {
		_, help, _ := ev(c.name, "--help")
		for _, f := range defined.FindAllStringSubmatch(help, -1) {
			have[f[1]] = true
		}
	}
	require.Greater(t, len(have), 40)
	for path, text := range texts {
		for _, m := range mentioned.FindAllStringSubmatch(text, -1) {
			require.True(t, have[m[1]], "%s names --%s, which no command has", path, m[1])
		}
	}
}
