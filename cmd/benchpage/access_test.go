package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"
)

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

// An answer that comes while a finger is down takes no button away under it.
func TestDrawnUnderAFinger(t *testing.T) {
	file := pageFile(t)
	b := browsertest.Start(t, "")
	for _, size := range []browser.Size{sizes[0], sizes[3]} {
		h := at(t, b, file, size)
		h.pick(example(t)...)
		h.until(`document.getElementById('next')`)
		require.NoError(t, h.Eval(`window.old = document.getElementById('next')`, nil))
		require.NoError(t, h.Hold("#next"))
		require.NoError(t, h.Eval(`main.redraw()`, nil))
		require.NoError(t, h.Lift())
		h.until(`document.querySelector('dialog[open]')`)
		h.until(`old !== document.getElementById('next')`) // and then it is drawn
	}
}

// So does none that a screen asked for before the finger came.
func TestAnsweredUnderAFinger(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[3]) // a mouse, whose button is not found again where it is drawn anew
	h.pick(example(t)...)
	for _, screen := range [][2]string{{"marks", "#add-mark"}, {"job", "#details"}, {"sheet", "#customer"}} {
		h.tap("#tab-" + screen[0])
		h.until(`document.querySelector('` + screen[1] + `')`)
		require.NoError(t, h.Eval(`(() => {
			const slow = (of, name) => {
				const real = of[name];
				of[name] = async (...all) => { const r = await real(...all); of[name] = real; await new Promise((go) => { window.answer = go; }); return r; };
			};
			window.answer = undefined;
			if (main.at() === 'job') slow(store, 'jobs'); else slow(bench, 'ask');
			main.redraw();
		})()`, nil))
		h.until(`window.answer`)
		if screen[0] == "sheet" { // which shows nothing to tap until it is answered, but for being asked twice
			require.NoError(t, h.Eval(`main.redraw()`, nil))
			h.until(`document.querySelector('` + screen[1] + `')`)
		}
		require.NoError(t, h.Eval(`window.old = document.querySelector('`+screen[1]+`')`, nil))
		require.NoError(t, h.Hold(screen[1]))
		require.NoError(t, h.Eval(`answer()`, nil))
		require.NoError(t, h.Lift())
		h.until(`document.querySelector('dialog[open]')`)
		h.until(`!old.isConnected`) // and then it is drawn
		require.NoError(t, h.Eval(`ask.close()`, nil))
	}
	require.Empty(t, h.Errors())
}
