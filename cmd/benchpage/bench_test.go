package main

import (
	"encoding/base64"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"
)

// built is the page in a file, built once for all tests.
var built = sync.OnceValues(func() ([]byte, error) {
	core, err := buildCore(tested)
	if err != nil {
		return nil, err
	}
	return single(core)
})

// pageFile is the page on a disk of this test.
func pageFile(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("the page in a browser is left out of short tests")
	}
	if _, err := browser.Find(); err != nil {
		t.Skip(err)
	}
	page, err := built()
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "bench.html")
	require.NoError(t, os.WriteFile(file, page, 0o600))
	return file
}

// sizes are the screens that it is held to: phones with a browser's bars and without, a
// small one, a desk.
var sizes = []browser.Size{
	{Width: 390, Height: 664, Mobile: true}, {Width: 390, Height: 844, Mobile: true}, {Width: 360, Height: 640, Mobile: true}, {Width: 1280, Height: 800},
}

// hand drives the page as somebody does.
type hand struct {
	*browser.Page
	t *testing.T
}

// patience is how long anything may take; a machine with two cores under load started a
// core in 8 s.
const patience = 30 * time.Second

// at opens the page, in a browser, and agrees to the cautions.
func at(t *testing.T, b *browser.Browser, file string, size browser.Size) hand {
	t.Helper()
	p := browsertest.Page(t, b)
	h := hand{p, t}
	require.NoError(t, p.Size(size))
	require.NoError(t, p.Open(file))
	require.NoError(t, p.Eval(`document.addEventListener('click', (e) => { window.clicked = e; }, true)`, nil))
	h.tap("#agree")
	return h
}

// reads waits, where a window is open, as long as it takes no second tap.
func (h hand) reads() {
	h.t.Helper()
	h.until(`!document.querySelector('dialog[open]') || !(performance.now() - window.clicked?.timeStamp < 650)`)
}

// is tells whether an expression of the page is true, or what it promises.
func (h hand) is(expression string) (yes bool) {
	h.t.Helper()
	require.NoError(h.t, h.Eval("Promise.resolve("+expression+").then(Boolean)", &yes))
	return yes
}

// until waits until an expression is true.
func (h hand) until(expression string) {
	h.t.Helper()
	if !assert.Eventually(h.t, func() bool { return h.is(expression) }, patience, 20*time.Millisecond, expression) {
		require.FailNow(h.t, "it shows: "+(h.text("dialog[open]")+h.text("body")).short()) // as it is now
	}
}

// shown is a text of the page.
type shownText string

func (s shownText) short() string { return string(s[:min(len(s), 600)]) }

// text is what an element shows.
func (h hand) text(selector string) (s shownText) {
	h.t.Helper()
	require.NoError(h.t, h.Eval(fmt.Sprintf(`document.querySelector(%q)?.innerText ?? ''`, selector), &s))
	return s
}

// tap waits for an element and taps it.
func (h hand) tap(selector string) {
	h.t.Helper()
	h.until(fmt.Sprintf(`document.querySelector(%q)?.getClientRects().length`, selector))
	h.reads()
	require.NoError(h.t, h.TapOn(selector))
}

// press taps the button with these words: the one that is there when the finger comes.
func (h hand) press(words string) {
	h.t.Helper()
	button := fmt.Sprintf(`[...(document.querySelector('dialog[open]') || document).querySelectorAll('button')].find((b) => b.innerText.trim().startsWith(%q) && b.getClientRects().length)`, words)
	h.until(button)
	h.reads()
	require.NoError(h.t, h.TapAt(button))
}

// keys taps keys of the keypad.
func (h hand) keys(typed string) {
	h.t.Helper()
	h.reads()
	for _, key := range strings.Split(typed, "") {
		require.NoError(h.t, h.TapOn(fmt.Sprintf(`.pad [data-key=%q]`, key)))
	}
}

// read takes a reading, and waits until it is kept.
func (h hand) read(angle, depth string) {
	h.t.Helper()
	h.typed(angle, depth)
	h.until(`document.getElementById('kept').className === 'kept kept' && bench.at.state.readings.length === window.before + 1`)
}

// typed types a reading and taps keep.
func (h hand) typed(angle, depth string) {
	h.t.Helper()
	h.tap("#tab-read")
	require.NoError(h.t, h.Eval(`window.before = bench.at.state.readings.length`, nil))
	h.keys(angle)
	h.tap("#keep")
	h.keys(depth)
	h.tap("#keep")
}

// pick opens files as somebody does who chose them: the system's own window cannot be
// tapped.
func (h hand) pick(files ...string) {
	h.t.Helper()
	h.tap("#open")
	h.choose(files...)
	h.until(`main.at() === 'read' && bench.open() && document.getElementById('kept').className !== 'kept keeping'`)
}

// choose gives files to the page as if they were chosen.
func (h hand) choose(files ...string) {
	h.t.Helper()
	var list []string
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(h.t, err)
		list = append(list, fmt.Sprintf(`new File([Uint8Array.from(atob(%q), (c) => c.charCodeAt(0))], %q)`, base64.StdEncoding.EncodeToString(data), filepath.Base(file)))
	}
	require.NoError(h.t, h.Eval(fmt.Sprintf(`(() => {
		const chosen = new DataTransfer();
		for (const f of [%s]) chosen.items.add(f);
		const input = document.getElementById('pick');
		input.files = chosen.files;
		input.dispatchEvent(new Event('change'));
	})()`, strings.Join(list, ",")), nil))
}

// given is the last file that the page handed over, which is saved by the browser.
func (h hand) given(act func()) []byte {
	h.t.Helper()
	require.NoError(h.t, h.Eval(`(() => {
		const real = URL.createObjectURL;
		window.given = undefined;
		URL.createObjectURL = (file) => { window.given = file; return real.call(URL, file); };
	})()`, nil))
	act()
	h.until(`window.given`)
	var text string
	require.NoError(h.t, h.Eval(`given.arrayBuffer().then((b) => btoa(Array.from(new Uint8Array(b), (c) => String.fromCharCode(c)).join('')))`, &text))
	data, err := base64.StdEncoding.DecodeString(text)
	require.NoError(h.t, err)
	return data
}

// example is the diagnostician's files.
func example(t *testing.T) (files []string) {
	t.Helper()
	for _, name := range []string{"job.toml", "cylinder-1.csv", "known-good.toml", "capture.csv", "capture-healthy.csv"} {
		files = append(files, filepath.Join("..", "..", "examples", "diagnostician", name))
	}
	return files
}

// faults are controls that cannot be tapped where they are seen: covered, clipped or small,
// labels that run out of their field, words of a table that are broken, or a page that runs out
// at the side.
const faults = `(() => {
	const out = [], dialog = document.querySelector('dialog[open]');
	for (const e of (dialog || document).querySelectorAll('button, input')) {
		if (!e.getClientRects().length || e.classList.contains('aloud') || e.disabled) continue;
		const box = e.closest('.field') || e, name = e.id || e.innerText || e.className;
		e.scrollIntoView({block: 'center', behavior: 'instant'});
		const r = box.getBoundingClientRect();
		for (const [x, y] of [[r.x + r.width / 2, r.y + r.height / 2], [r.left + 4, r.top + 4], [r.right - 4, r.top + 4], [r.left + 4, r.bottom - 4], [r.right - 4, r.bottom - 4]]) {
			const top = document.elementFromPoint(x, y);
			if (!top || !box.contains(top)) out.push(name + ' lies under ' + (top ? top.outerHTML.slice(0, 60) : 'nothing'));
		}
		if (r.width < 55.9 || r.height < 55.9) out.push(name + ' is ' + Math.round(r.width) + ' x ' + Math.round(r.height));
		if (e.tagName === 'BUTTON' && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) out.push(name + ' is clipped');
	}
	for (const e of (dialog || document).querySelectorAll('.field label')) {
		if (e.getClientRects().length && e.getBoundingClientRect().right > e.closest('.field').getBoundingClientRect().right - 4) out.push(e.innerText + ' runs out of its field');
	}
	for (const e of (dialog || document).querySelectorAll('td, th')) {
		const ends = document.createRange();
		ends.selectNodeContents(e);
		const lines = new Set([...ends.getClientRects()].map((r) => Math.round(r.top))).size;
		if (e.getClientRects().length && lines > e.innerText.trim().split(/\s+/).length) out.push(e.innerText + ' is broken within a word');
	}
	if (document.documentElement.scrollWidth > innerWidth) out.push('it runs out at the side');
	return [...new Set(out)];
})()`

// sound holds what is on the screen to that, at every size.
func (h hand) sound(what string) {
	h.t.Helper()
	for _, size := range sizes {
		h.resize(size)
		var found []string
		require.NoError(h.t, h.Eval(faults, &found))
		require.Empty(h.t, found, "%s at %d x %d", what, size.Width, size.Height)
	}
	h.resize(sizes[0])
}

// resize makes the screen another, and waits until it is drawn.
func (h hand) resize(size browser.Size) {
	h.t.Helper()
	require.NoError(h.t, h.Size(size))
	h.until(fmt.Sprintf(`innerWidth === %d && new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))`, size.Width))
}
