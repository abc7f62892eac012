package browser_test

import (
	"bytes"
	"fmt"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"

	"github.com/stretchr/testify/require"
)

// written is a page in a file.
func written(t *testing.T, html string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, []byte("<!doctype html><meta charset=utf-8>"+html), 0o600))
	return file
}

func opened(t *testing.T, p *browser.Page, html string) {
	t.Helper()
	require.NoError(t, p.Open(written(t, html)))
}

func is[V any](t *testing.T, p *browser.Page, want V, expression string) {
	t.Helper()
	var got V
	require.NoError(t, p.Eval(expression, &got), expression)
	require.Equal(t, want, got, expression)
}

// What a page says and asks for is kept, and only of the page that is open.
func TestWhatAPageSays(t *testing.T) {
	p := browsertest.Page(t, browsertest.Start(t, ""))
	opened(t, p, `<img src="nowhere.png"><img src="data:image/gif;base64,R0lGODlhAQABAAAAACw="><script>console.error("loud", 3); console.log("quiet"); nothing()</script>`)
	require.Len(t, p.Requests(), 1)
	require.Contains(t, p.Requests()[0], "nowhere.png")
	said := fmt.Sprint(p.Errors())
	require.Contains(t, said, "console.error: loud 3")
	require.Contains(t, said, "nothing is not defined")
	require.NotContains(t, said, "quiet")

	opened(t, p, `<p>good</p>`)
	require.Empty(t, p.Requests())
	require.Empty(t, p.Errors())
	is(t, p, "good", `Promise.resolve(document.querySelector('p').textContent)`)
	require.ErrorContains(t, p.Eval(`nothing()`, nil), "nothing is not defined")
	require.ErrorContains(t, p.Eval(`undefined`, new(int)), "no value")
	require.Error(t, p.Open(filepath.Join(t.TempDir(), "missing.html")))
}

// A page is told of the screen, the paper and the colours that it is to stand on.
func TestScreens(t *testing.T) {
	p := browsertest.Page(t, browsertest.Start(t, ""))
	opened(t, p, `<meta name=viewport content="width=device-width"><body style="margin:0"><div style="height:3000px">tall</div>`)
	for _, s := range []browser.Size{{Width: 1280, Height: 800}, {Width: 390, Height: 664, Scale: 2, Mobile: true}} {
		require.NoError(t, p.Size(s))
		is(t, p, s.Width, `innerWidth`)
		is(t, p, s.Mobile, `matchMedia('(pointer: coarse)').matches`)
		shot, err := p.Screenshot()
		require.NoError(t, err)
		picture, err := png.Decode(bytes.NewReader(shot))
		require.NoError(t, err)
		scale := max(1, int(s.Scale))
		require.Equal(t, scale*s.Width, picture.Bounds().Dx())
		require.Equal(t, scale*3000, picture.Bounds().Dy(), "all of the page")
	}
	for _, m := range []browser.Media{{}, {Print: true}, {Dark: true}, {ForcedColours: true}} {
		require.NoError(t, p.Media(m))
		is(t, p, m.Print, `matchMedia('print').matches`)
		is(t, p, m.Dark, `matchMedia('(prefers-color-scheme: dark)').matches`)
		is(t, p, m.ForcedColours, `matchMedia('(forced-colors: active)').matches`)
	}
	opened(t, p, `<style>@media screen{div{height:3000px}}</style><div>short on paper</div>`)
	require.NoError(t, p.Media(browser.Media{}))
	for _, on := range []browser.Paper{browser.A4, browser.Letter} {
		printed, err := p.PDF(on)
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(printed, []byte("%PDF-")))
		require.Contains(t, string(printed), fmt.Sprintf("/MediaBox [0 0 %.0f", on.Width*72))
		require.Equal(t, 1, bytes.Count(printed, []byte("/Type /Page\n")))
	}
}

const buttons = `<meta name=viewport content="width=device-width"><body style="height:4000px">
<button style="position:absolute;top:3000px" onclick="pressed = event.pointerType">far down</button>
<i>under</i><b style="position:absolute;inset:0 0 auto 0;height:99px">over</b>
<input style="position:absolute;top:2000px" onkeydown="said.push(event.key)"><script>pressed = ''; said = []</script>`

// A finger and a mouse press what they can reach, and say so where they cannot.
func TestTap(t *testing.T) {
	p := browsertest.Page(t, browsertest.Start(t, ""))
	for pointer, mobile := range map[string]bool{"touch": true, "mouse": false} {
		require.NoError(t, p.Size(browser.Size{Width: 390, Height: 664, Mobile: mobile}))
		opened(t, p, buttons)
		require.NoError(t, p.TapOn("button"))
		is(t, p, pointer, "pressed")
		require.NoError(t, p.Eval(`pressed = ''`, nil))
		require.NoError(t, p.Hold("button"))
		is(t, p, "", "pressed")
		require.NoError(t, p.Lift())
		is(t, p, pointer, "pressed")
		require.ErrorContains(t, p.TapOn("i"), `"i") lies under <b`)
		require.ErrorContains(t, p.TapOn("u"), `"u") is not there`)
	}
}

// Keys arrive one by one.
func TestKeys(t *testing.T) {
	p := browsertest.Page(t, browsertest.Start(t, ""))
	opened(t, p, buttons)
	require.NoError(t, p.TapOn("input"))
	require.NoError(t, p.Type("6.5é"))
	require.NoError(t, p.Press("ArrowLeft"))
	require.NoError(t, p.Press("Backspace"))
	require.NoError(t, p.Type("\n"))
	is(t, p, "6.é", `document.querySelector('input').value`)
	is(t, p, []string{"6", ".", "5", "é", "ArrowLeft", "Backspace", "Enter"}, `said`)
	require.ErrorContains(t, p.Press("Any"), "no key")
}

// A slowed processor is slower: eight times is more than twice, however busy the machine.
func TestThrottle(t *testing.T) {
	p := browsertest.Page(t, browsertest.Start(t, ""))
	opened(t, p, `<p>x</p>`)
	took := func() (ms float64) {
		require.NoError(t, p.Eval(`(() => { const t = performance.now(); let x = 0; for (let i = 0; i < 3e7; i++) x += i % 7; return performance.now() - t })()`, &ms))
		return ms
	}
	took() // until it is compiled
	quick := took()
	require.NoError(t, p.Throttle(8))
	require.Greater(t, took(), 2*quick)
}

// served is a page that has an origin of its own, and so remembers.
func served(t *testing.T) string {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, `<!doctype html><link rel=icon href="data:,"><p>memory</p>`)
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// keeping writes a value so that it is on the disk before it is answered.
const keeping = `new Promise((done, fail) => {
	const open = indexedDB.open('kept', 1);
	open.onupgradeneeded = () => open.result.createObjectStore('all');
	open.onerror = fail;
	open.onsuccess = () => {
		const t = open.result.transaction('all', 'readwrite', {durability: 'strict'}), all = t.objectStore('all');
		const old = all.get('n');
		old.onsuccess = () => all.put((old.result || 0) + 1, 'n');
		t.oncomplete = () => done(old.result || 0);
	};
})`

// What was on the disk when the browser was killed is there when it is started again with
// the same profile; killed, it answers no call.
func TestKillAndStartAgain(t *testing.T) {
	profile, address := t.TempDir(), served(t)
	for n := range 3 {
		b := browsertest.Start(t, profile)
		p := browsertest.Page(t, b)
		require.NoError(t, p.Open(address))
		is(t, p, n, keeping)
		began := time.Now()
		require.NoError(t, b.Kill())
		require.ErrorContains(t, p.Eval(`1`, nil), "gone")
		require.Less(t, time.Since(began), callWithin, "it does not wait for an answer that cannot come")
	}
	require.DirExists(t, profile)
}

// callWithin is well below the limit of a call, and above what killing takes.
const callWithin = 10 * time.Second
