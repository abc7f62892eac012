package main

import (
	"context"
	"encoding/json"
	"html"
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// wrapper shows pages in frames, one as wide as a phone, and writes down what each
// did.
const wrapper = `<!doctype html><meta charset="utf-8">
<iframe id="phone" width="390" height="800" src="page.html"></iframe><iframe id="desk" width="1280" height="800" src="page.html"></iframe>
<iframe id="held" width="390" height="800" src="held.html"></iframe><iframe id="loose" width="390" height="800" src="loose.html"></iframe>
<pre id="out"></pre><script>onload = () => {
  const seen = {};
  for (const frame of document.querySelectorAll('iframe')) {
    const w = frame.contentWindow, d = w.document;
    seen[frame.id] = {spill: d.documentElement.scrollWidth - d.documentElement.clientWidth, scripts: d.scripts.length, loud: !!w.loud, title: d.title, figures: d.querySelectorAll('figure > svg > title').length,
      drawn: [...d.querySelectorAll('figure > svg')].filter(s => s.getBoundingClientRect().height > 100).length};
  }
  document.getElementById('out').textContent = JSON.stringify(seen);
};</script>`

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
	browser := chromium(t)
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
	address, asked := serve(t, map[string]string{
		"/wrapper.html": wrapper, "/page.html": string(page), "/held.html": spoilt("held"), "/loose.html": loose,
	})

	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	run := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-extensions",
		"--disable-background-networking", "--disable-sync", "--enable-logging=stderr",
		"--user-data-dir="+filepath.Join(dir, "profile"), "--virtual-time-budget=500", "--dump-dom", address+"/wrapper.html")
	var said strings.Builder
	run.Stderr = &said
	dom, err := run.Output()
	require.NoError(t, err, said.String())
	found := regexp.MustCompile(`(?s)<pre id="out">(.*)</pre>`).FindStringSubmatch(string(dom))
	require.Len(t, found, 2, "the wrapper did not finish")
	var frames map[string]seen
	require.NoError(t, json.Unmarshal([]byte(html.UnescapeString(found[1])), &frames))

	for _, name := range []string{"phone", "desk"} {
		require.Equal(t, seen{Figures: 6, Drawn: 6, Title: title}, frames[name])
	}
	require.False(t, frames["held"].Loud, "the policy holds the script")
	require.Positive(t, frames["held"].Spill)
	require.True(t, frames["loose"].Loud)
	require.Equal(t, []string{"/held.html", "/loose.html", "/loose.png", "/page.html", "/wrapper.html"}, asked())
	console := func(page string) bool { return regexp.MustCompile(`CONSOLE.*` + page).MatchString(said.String()) }
	require.True(t, console("loose.html"), "the console is heard")
	require.True(t, console("held.html"), "the policy is said to have been broken")
	require.False(t, console("page.html"), said.String())
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

// chromium is a browser to look with, or the end of the test.
func chromium(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("-short: pages are not looked at in a browser")
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("no chromium here: pages were not looked at in a browser; on Debian: apt-get install chromium")
	return ""
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
