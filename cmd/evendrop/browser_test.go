package main

import (
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"

	"github.com/stretchr/testify/require"
)

// looks is what a page did.
const looks = `({spill: document.documentElement.scrollWidth - document.documentElement.clientWidth, scripts: document.scripts.length, loud: !!window.loud,
  title: document.title, figures: document.querySelectorAll('figure > svg > title').length,
  drawn: [...document.querySelectorAll('figure > svg')].filter(s => s.getBoundingClientRect().height > 100).length})`

// intruder is what a page must not run nor ask for, and too wide for a phone.
const intruder = `<div style="width:3000px">x</div><img src="NAME.png"><script>loud = true; console.error("loud")</script>`

type seen struct {
	Spill, Scripts, Figures, Drawn int
	Loud                           bool
	Title                          string
}

// In a real browser a page full of hostile names runs nothing, asks for nothing,
// says nothing on the console and is as wide as a phone. That the test would see it
// is shown by two spoilt copies: one that keeps the page's policy, by which the
// browser holds the intruder, and one without it, which lets it loose.
func TestPageInABrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("-short: pages are not looked at in a browser")
	}
	dir := t.TempDir()
	const title = `<script>loud = true</script> & "שלום" 🔧 <img src=nowhere.png>`
	file := filepath.Join(dir, "page.html")
	code, _, errs := ev("find", hostileJob(t, title), "--page", file)
	require.Equal(t, answered, code, errs)
	page, err := os.ReadFile(file)
	require.NoError(t, err)
	spoilt := func(name string) string {
		return strings.Replace(string(page), "<main>", "<main>"+strings.Replace(intruder, "NAME", name, 1), 1)
	}
	loose := regexp.MustCompile(`<meta http-equiv[^>]*>`).ReplaceAllString(spoilt("loose"), "")
	address, asked := serve(t, map[string]string{"/page.html": string(page), "/held.html": spoilt("held"), "/loose.html": loose})

	p := browsertest.Page(t, browsertest.Start(t, ""))
	opened := func(name string, size browser.Size) (got seen) {
		require.NoError(t, p.Size(size))
		require.NoError(t, p.Open(address+"/"+name))
		require.NoError(t, p.Eval(looks, &got))
		return got
	}
	phone := browser.Size{Width: 390, Height: 800, Mobile: true}
	for _, size := range []browser.Size{phone, {Width: 1280, Height: 800}} {
		require.Equal(t, seen{Figures: 6, Drawn: 6, Title: title}, opened("page.html", size))
		require.Empty(t, p.Errors())
	}
	held := opened("held.html", phone)
	require.False(t, held.Loud, "the policy holds the script")
	require.Positive(t, held.Spill)
	require.NotEmpty(t, p.Errors(), "the policy is said to have been broken")
	require.True(t, opened("loose.html", phone).Loud)
	require.Contains(t, p.Errors(), "console.error: loud", "the console is heard")
	require.Equal(t, []string{"/held.html", "/loose.html", "/loose.png", "/page.html"}, asked())
}

// serve serves pages, and tells what was asked for, but for the icon that a browser
// asks of every server.
func serve(t *testing.T, pages map[string]string) (address string, asked func() []string) {
	var mutex sync.Mutex
	paths := map[string]bool{}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		mutex.Lock()
		defer mutex.Unlock()
		if page, has := pages[r.URL.Path]; has {
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			_, _ = io.WriteString(w, page) // a browser that hangs up is found out by what it shows
		} else {
			w.WriteHeader(http.StatusNotFound)
		}
		paths[r.URL.Path] = true
	}))
	t.Cleanup(server.Close)
	return server.URL, func() []string {
		mutex.Lock()
		defer mutex.Unlock()
		delete(paths, "/favicon.ico")
		return slices.Sorted(maps.Keys(paths))
	}
}

// hostileJob is the example with names that a page might take for its own.
func hostileJob(t *testing.T, title string) string {
	t.Helper()
	dir := t.TempDir()
	job, err := os.ReadFile(diagnostician)
	require.NoError(t, err)
	readings, err := os.ReadFile(filepath.Join(filepath.Dir(diagnostician), "cylinder-1.csv"))
	require.NoError(t, err)
	spoilt := strings.NewReplacer(`"Invented petrol four, locking pin in doubt"`, "'"+title+"'",
		`"locking pin hole"`, `'</style></svg><script>loud = true</script> שלום'`,
		`"pulley notch"`, `'"><img src=nowhere.png onerror="loud = true"> averylongnamewithoutanyblankinitthatgoesonandonandonandon'`).Replace(string(job))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "job.toml"), []byte(spoilt), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), readings, 0o600))
	return filepath.Join(dir, "job.toml")
}
