package main

import (
	"archive/zip"
	"bytes"
	"image"
	"image/jpeg"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"
)

// The diagnostician's story, by taps: a job brought in, readings, a misfit, undo, marks, the
// sheet, and out again. Nothing is covered in any state at any size, nothing is asked for
// over the network, and the page says nothing on the console.
func TestStory(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.sound("no job")
	h.pick(example(t)...)
	h.until(`document.querySelector('.tdc .big')`)
	require.Contains(t, h.text(".tdc"), "3.34", h.text(".tdc"))
	h.sound("24 readings")
	h.speaks()
	h.sound("24 readings, with a voice")

	h.tap("#forward")
	h.typed("342.5", "3.29")
	h.until(`document.querySelector('.panel.question')`)
	require.Contains(t, h.text(".panel.question"), "does not fit")
	h.sound("a misfit is asked")
	h.tap(`[data-line="later"]`)
	h.sound("a misfit is answered later")
	h.tap("#undo")
	require.Contains(t, h.text("dialog"), "reading 342.5 3.29, turned forward", "it says what it takes back")
	h.sound("undo")
	h.press("Take it back")
	h.until(`bench.at.state.readings.length === 24`)
	h.tap("#undo")
	h.press("Do it again")
	h.until(`bench.at.state.readings.length === 25`)
	h.tap("#undo")
	h.press("Take it back")
	h.until(`bench.at.state.readings.length === 24`)
	h.read("352", "6.04")

	h.tap("#tab-seen")
	h.tap(".readings .row")
	h.sound("seen")
	h.tap(".fix")
	require.Equal(t, "true", h.value(`document.getElementById('f-angle').value === '352.0' || document.getElementById('f-angle').value === '352'`))
	h.sound("a reading is fixed")
	h.press("Leave it")

	h.tap("#tab-marks")
	h.until(`document.querySelectorAll('.mark').length === 4`)
	require.Equal(t, 2, h.count(".mark.outside"))
	require.Contains(t, h.text(".finding"), "flywheel on crank")
	h.sound("marks")
	h.tap("#tab-sheet")
	h.until(`document.getElementById('sheet')?.contentDocument?.querySelector('h1')`)
	require.True(t, h.is(`getComputedStyle(document.getElementById('sheet').contentDocument.body).margin === '0px'`), "the sheet has its style")
	h.sound("sheet")
	sheet := h.given(func() { h.tap("#save") })
	require.Contains(t, string(sheet[:100]), "<!doctype html>")

	h.tap("#tab-job")
	h.sound("job")
	same(t, h.given(func() { h.tap("#export") }), map[string]bool{"cylinder-1.csv": true})
	require.Empty(t, h.Errors())
	require.Empty(t, blobless(h.Requests()))
}

// blobless is requests but for those of files that the page itself made.
func blobless(list []string) (rest []string) {
	for _, one := range list {
		if len(one) < 5 || one[:5] != "blob:" && one != "about:srcdoc" {
			rest = append(rest, one)
		}
	}
	return rest
}

// speaks gives the page voices: one of the device is used, one of a server never.
func (h hand) speaks() {
	h.t.Helper()
	voices := func(list string) {
		require.NoError(h.t, h.Eval(`(() => { speechSynthesis.getVoices = () => `+list+`; main.redraw(); })()`, nil))
	}
	voices(`[{localService: false, lang: 'en', name: 'far'}]`)
	require.False(h.t, h.is(`document.getElementById('speak')`))
	voices(`[{localService: false, lang: 'en', name: 'far'}, {localService: true, lang: 'en', name: 'here'}]`)
	require.True(h.t, h.is(`document.getElementById('speak')`))
}

func (h hand) value(expression string) (s string) {
	h.t.Helper()
	require.NoError(h.t, h.Eval("String("+expression+")", &s))
	return s
}

func (h hand) count(selector string) (n int) {
	h.t.Helper()
	n, err := strconv.Atoi(h.value("document.querySelectorAll('" + selector + "').length"))
	require.NoError(h.t, err)
	return n
}

// same holds a zip to the example's files, byte for byte, but for those that begin as they
// did and were added to.
func same(t *testing.T, packed []byte, longer map[string]bool) {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	require.Len(t, r.File, len(example(t)))
	for _, file := range example(t) {
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		f, err := r.Open(filepath.Base(file))
		require.NoError(t, err)
		got, err := io.ReadAll(f)
		require.NoError(t, err)
		if longer[filepath.Base(file)] {
			require.Greater(t, len(got), len(want))
			got = got[:len(want)]
		}
		require.Equal(t, string(want), string(got), file)
	}
}

// A job that nothing was typed into goes out as it came in, as a zip too.
func TestInAndOut(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[3])
	h.pick(example(t)...)
	h.tap("#tab-job")
	packed := h.given(func() { h.tap("#export") })
	same(t, packed, nil)
	zipped := filepath.Join(t.TempDir(), "job.zip")
	require.NoError(t, os.WriteFile(zipped, packed, 0o600))
	h.pick(zipped)
	h.tap("#tab-job")
	require.Equal(t, packed, h.given(func() { h.tap("#export") }))
}

// A photo and a customer go into the job, and onto the sheet.
func TestPhoto(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	var photo bytes.Buffer
	require.NoError(t, jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 40, 30)), nil))
	taken := filepath.Join(t.TempDir(), "Locking pin 1.JPG")
	require.NoError(t, os.WriteFile(taken, photo.Bytes(), 0o600))
	h.tap("#tab-sheet")
	h.tap("#photo")
	h.choose(taken)
	h.tap("#w-shows")
	require.NoError(t, h.Type("the pin beside its hole\n"))
	h.press("OK")
	h.tap("#customer")
	h.tap("#asked")
	require.NoError(t, h.Type("Bay 4\n"))
	h.until(`document.querySelector('dialog p')?.innerText.includes('customer')`)
	h.sound("the customer is asked")
	h.press("Leave it out")
	h.press("OK")
	h.until(`document.getElementById('sheet')?.contentDocument?.querySelector('img[src^="data:image/jpeg"]')`)
	require.Contains(t, h.value(`document.getElementById('sheet').contentDocument.body.innerText`), "the pin beside its hole")
	require.Empty(t, h.Errors())
}

// A job is begun by its questions, an inch one too, and one with quadrants has keys for them.
func TestBegun(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.tap("#new")
	for range 30 {
		h.until(`document.querySelector('.question, .work')`)
		if h.is(`document.querySelector('.work')`) {
			break
		}
		asked := string(h.text(".question"))
		h.sound(asked)
		answer := map[string]string{"Engine's name": "Inline\n", "What does it read a little before and after the top?": "4 BTDC and 4 ATDC\n"}[asked]
		if answer == "" {
			h.tap("#usual")
		} else {
			h.tap("#answer")
			require.NoError(t, h.Type(answer))
		}
		h.until(`document.querySelector('.work') || document.querySelector('.question')?.innerText !== ` + strconv.Quote(asked))
	}
	h.until(`main.at() === 'read'`)
	if h.is(`document.querySelector('dialog[open]')`) {
		h.press("OK")
	}
	require.True(t, h.is(`document.querySelector('[data-key="BTDC"]')`))
	h.sound("no readings")
	for _, r := range [][3]string{{"24.5", "BTDC", "11.74"}, {"14.5", "BTDC", "7.9"}, {"18.5", "ATDC", "7.4"}} {
		h.keys(r[0])
		h.tap(`[data-key="` + r[1] + `"]`)
		h.tap("#keep")
		h.keys(r[2])
		h.tap("#keep")
		h.until(`document.getElementById('f-angle').value === '' && document.getElementById('kept').className === 'kept kept'`)
	}
	h.until(`bench.at.state.readings.length === 3`)
	h.sound("3 readings on quadrants")
	require.Empty(t, h.Errors())
}

// Of a keyboard alone: Enter goes on and keeps, a letter turns and undoes.
func TestKeyboardAlone(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[3])
	h.pick(example(t)...)
	require.NoError(t, h.Type("f"))
	h.until(`document.getElementById('forward').getAttribute('aria-pressed') === 'true'`)
	require.NoError(t, h.Type("352\n6.04\n"))
	h.until(`bench.at.state.readings.length === 25 && document.getElementById('kept').className === 'kept kept'`)
	h.until(`document.getElementById('live').textContent.startsWith('Kept. TDC ')`)
	require.NoError(t, h.Type("u"))
	h.until(`document.querySelector('dialog[open]')`)
	require.NoError(t, h.Press("Escape"))
	h.until(`!document.querySelector('dialog[open]')`)
	require.Empty(t, h.Errors())
}

// contrast is the least that a text of these has with what lies behind it, as WCAG22 1.4.3
// reckons it.
const contrast = `(() => {
	const parts = (css) => css.match(/[\d.]+/g).map(Number);
	const light = (css) => {
		const [r, g, b] = parts(css).map((c) => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const behind = (e) => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor; if ((parts(c)[3] ?? 1) > 0) return c; } };
	let least = 99, of = '';
	for (const e of document.querySelectorAll('.tdc .big *, .place *, .key:enabled, .field input, .hint, .kept, .readings span, .mark .off *, .ticks span, .panel p')) {
		if (!e.innerText && e.tagName !== 'INPUT') continue;
		const [a, b] = [light(getComputedStyle(e).color), light(behind(e))].sort((x, y) => y - x);
		const ratio = (a + 0.05) / (b + 0.05);
		if (ratio < least) { least = ratio; of = e.className + ' ' + e.innerText; }
	}
	return {least, of};
})()`

// The numbers stand out seven to one, in the sun and in the dark.
func TestContrast(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	for _, dark := range []bool{false, true} {
		require.NoError(t, h.Media(browser.Media{Dark: dark}))
		for tab, seen := range map[string]string{"read": ".place", "seen": ".readings", "marks": ".mark"} {
			h.tap("#tab-" + tab)
			h.until(`document.querySelector('` + seen + `')`)
			var got struct {
				Least float64
				Of    string
			}
			require.NoError(t, h.Eval(contrast, &got))
			t.Logf("%s, dark %t: at least %.1f, of %s", tab, dark, got.Least, got.Of)
			require.GreaterOrEqual(t, got.Least, 7.0, "%s, dark %t: %s", tab, dark, got.Of)
		}
	}
}
