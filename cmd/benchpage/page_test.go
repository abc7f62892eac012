package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func unpacked(t *testing.T, packed []byte) []byte {
	t.Helper()
	r, err := gzip.NewReader(bytes.NewReader(packed))
	require.NoError(t, err)
	data, err := io.ReadAll(r)
	require.NoError(t, err)
	return data
}

// undense is dense the other way round, as page/boot.js does it.
func undense(text string, size int) []byte {
	out := make([]byte, 0, size)
	bits, have := 0, 0
	put := func(seven int) {
		bits, have = bits<<7|seven, have+7
		if have >= 8 && len(out) < size {
			have -= 8
			out = append(out, byte(bits>>have))
		}
		bits &= 0x7fff
	}
	for _, c := range text {
		if c < 0x80 {
			put(int(c))
			continue
		}
		put(int(refused[(c-0x80)>>7]))
		put(int(c & 0x7f))
	}
	return out
}

// Any data comes out of its text as it went in, and the text has nothing that a text on its
// way may lose.
func TestDense(t *testing.T) {
	const seed = 7
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	for n := range 400 {
		data := make([]byte, n)
		for i := range data {
			data[i] = byte(rng.UintN(256)) & byte(rng.UintN(2)*255) // zeros among them
		}
		text := dense(data)
		require.Equal(t, data, undense(text, n))
		for _, c := range refused {
			require.NotContains(t, text, string(rune(c)))
		}
		require.LessOrEqual(t, len(text), n*8/7+2)
	}
}

// unwide is wide the other way round, as page/boot.js does it.
func unwide(text string) (out []byte) {
	for i := 0; i < len(text); i++ {
		if b := text[i]; b == '=' {
			i++
			out = append(out, text[i]^0x40)
		} else {
			out = append(out, b)
		}
	}
	return out
}

// Any data comes out of its bytes as it went in, and they have none that a page may change.
func TestWide(t *testing.T) {
	var all []byte
	for i := range 512 {
		all = append(all, byte(i), byte(i/2))
	}
	text := wide(all)
	require.Equal(t, all, unwide(text))
	for _, c := range "\x00\r<" {
		require.NotContains(t, text, string(c))
	}
	require.Equal(t, `"\u2192\ud83d\ude00 a"`, plainScript(`"→😀 a"`))
	require.Equal(t, `content:"\b1 x"`, plainStyle(`content:"±x"`))
	require.Equal(t, `&#177; a &lt;b&gt;`, escaped("± a <b>"))
}

// A script loses its indents and remarks, and nothing that does something.
func TestBare(t *testing.T) {
	require.Equal(t, "'use strict';const a = 'b // c';\nif (a) {}\nd(); // it's;\n", bare("// of it\n'use strict';\n  // of a\n  const a = 'b // c'; // d\n\n\tif (a) {\n\t}\n\td(); // it's;\n"))
	of, err := runner()
	require.NoError(t, err)
	require.Regexp(t, `^// Copyright .*\n// .*BSD-style\n// .*\n\n"use strict";\(\(\) => \{const `, bareRunner(of), "it says whose it is")
	texts := map[string]string{"wasm_exec.js": of}
	for _, name := range append([]string{"boot.js"}, shown...) {
		texts[name] = part(name)
	}
	for name, all := range texts {
		for line := range strings.Lines(all) {
			if text := strings.TrimSpace(line); !strings.HasPrefix(text, "//") {
				require.Zero(t, strings.Count(text, "`")%2, "%s: a text in backquotes goes over the end of a line: %s", name, text)
			}
		}
	}
}

// mostPage is the largest page, bytes: 3.0 MB was asked for.
const mostPage = 3_000_000

// The same source gives the same bytes; every script and style sheet that stands in the page
// is one that its rules allow, and nothing may be asked for.
func TestPage(t *testing.T) {
	core, err := buildCore(tested)
	require.NoError(t, err)
	page, err := single(core)
	require.NoError(t, err)
	t.Logf("page %.2f MB, core %.2f packed, %.2f unpacked", mb(len(page)), mb(len(core.packed)), mb(core.size))
	require.Less(t, len(page), mostPage)
	again, err := buildCore(tested)
	require.NoError(t, err)
	second, err := single(again)
	require.NoError(t, err)
	require.True(t, bytes.Equal(page, second), "the same source, other bytes")

	rules := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindSubmatch(page)
	require.NotNil(t, rules)
	require.Contains(t, string(rules[1]), "default-src 'none'")
	require.Contains(t, string(rules[1]), "connect-src 'none'")
	require.NotContains(t, string(rules[1]), "unsafe-inline")
	require.NotContains(t, string(rules[1]), "'unsafe-eval'")
	standing := regexp.MustCompile(`(?s)<(script|style)>(.*?)</`).FindAllSubmatch(page, -1)
	require.Len(t, standing, 4)
	for _, one := range standing {
		sum := sha256.Sum256(one[2])
		require.Contains(t, string(rules[1]), "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	text := regexp.MustCompile(`(?s)id="core" data-size="\d+" data-charset="windows-1252">(.*?)</script>`).FindSubmatch(page)
	require.Equal(t, core.packed, unwide(string(text[1])))
	require.Contains(t, string(page[:200]), `<meta charset="windows-1252">`, "a browser looks for it in the first kilobyte")
	for _, b := range bytes.Replace(page, text[1], nil, 1) {
		require.Less(t, b, byte(0x80), "but for the core, only ASCII stands in it")
	}
	require.Equal(t, core.size, len(unpacked(t, core.packed)))
	for _, asks := range []string{"http://", "fetch(", "XMLHttpRequest", "WebSocket", "@import", "localStorage", "eval("} {
		for _, name := range append([]string{"page.html", "boot.js", "style.css"}, shown...) {
			require.NotContains(t, strings.ReplaceAll(part(name), "http://www.w3.org/2000/svg", ""), asks, name) // a name, which nothing is asked of
		}
	}
}

// A site is the page, what makes it an app, and a worker that keeps all of it.
func TestSite(t *testing.T) {
	core := program{packed: []byte("packed"), runner: "// runner", version: tested}
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, writeSite(dir, core))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	worker, err := os.ReadFile(filepath.Join(dir, "worker.js"))
	require.NoError(t, err)
	require.Regexp(t, `const version = 'evendrop-[0-9a-f]{16}'`, string(worker))
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
		if name := e.Name(); name != "index.html" && name != "worker.js" {
			require.Contains(t, string(worker), "'"+name+"'")
		}
	}
	require.Equal(t, []string{"icon.png", "index.html", "manifest.webmanifest", "worker.js"}, slices.Sorted(slices.Values(names)))
	page, err := os.ReadFile(filepath.Join(dir, "index.html"))
	require.NoError(t, err)
	require.Contains(t, string(page), "worker-src 'self'")
	require.Contains(t, string(page), "rel=\"manifest\"")
	one, err := single(core)
	require.NoError(t, err)
	require.False(t, strings.Contains(string(one), "manifest"), "one file asks for nothing beside it")
}

// The command line says what it takes.
func TestUsage(t *testing.T) {
	for _, c := range []struct {
		args []string
		site string
	}{{nil, ""}, {[]string{"a", "b"}, ""}, {[]string{"a"}, "b"}} {
		require.ErrorContains(t, run(c.args, c.site, ""), "go run ./cmd/benchpage bench.html")
	}
}
