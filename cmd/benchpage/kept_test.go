package main

import (
	"context"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"
)

// kills is how often the browser is killed: 20, or as often as EVENDROP_KILLS says.
func kills(t *testing.T) int {
	text := os.Getenv("EVENDROP_KILLS")
	if text == "" {
		return 20
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err)
	return n
}

// What was kept is there after the browser was killed at that very moment.
func TestKilledWhenKept(t *testing.T) {
	file := pageFile(t)
	profile := t.TempDir()
	for n := range kills(t) {
		b, err := browser.Start(context.Background(), profile)
		require.NoError(t, err)
		h := at(t, b, file, sizes[0])
		if n == 0 {
			h.pick(example(t)...)
		} else {
			h.tap(".jobs .row")
		}
		h.until(`bench.open() && bench.at.state.readings.length`)
		require.Equal(t, strconv.Itoa(24+n), h.value(`bench.at.state.readings.length`), "nothing was lost at kill %d", n)
		h.typed(fmt.Sprintf("%d", 340+n), "6.04")
		// the page itself waits for the word, so that no time is lost before the kill
		require.NoError(t, h.Eval(`new Promise((done) => {
			const kept = document.getElementById('kept');
			const look = () => { if (kept.className === 'kept kept' && bench.at.state.readings.length > window.before) done(true); else setTimeout(look, 0); };
			look();
		})`, nil))
		require.NoError(t, b.Kill())
	}
	t.Logf("killed %d times right after kept, nothing lost", kills(t))
}

// A browser that keeps nothing is told of loudly, with a way out: the export has what was
// typed.
func TestStorageRefused(t *testing.T) {
	file := pageFile(t)
	for name, broken := range map[string]string{
		"refused": `IDBDatabase.prototype.transaction = () => { throw new DOMException('refused', 'SecurityError'); }`,
		"full":    `IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); }`,
	} {
		t.Run(name, func(t *testing.T) {
			h := at(t, browsertest.Start(t, ""), file, sizes[0])
			h.pick(example(t)...)
			require.NoError(t, h.Eval(broken, nil))
			h.typed("352", "6.04")
			h.until(`document.getElementById('top').classList.contains('loud')`)
			require.Contains(t, h.text("#kept"), "NOT KEPT")
			h.sound("not kept")
			same(t, h.given(func() { h.tap("#export-now") }), map[string]bool{"cylinder-1.csv": true})
		})
	}
}

// A second tab does not write a job that is open in the first, and takes it over only when
// it is asked to.
func TestTwoTabs(t *testing.T) {
	file := pageFile(t)
	b := browsertest.Start(t, "")
	first := at(t, b, file, sizes[0])
	first.pick(example(t)...)
	second := at(t, b, file, sizes[0])
	second.tap(".jobs .row")
	second.until(`document.getElementById('take-over')`)
	second.sound("open elsewhere")
	first.read("352", "6.04")
	second.tap("#take-over")
	second.until(`bench.open() && bench.at.state.readings.length === 25`)
	first.until(`bench.at.kept === 'elsewhere'`)
	require.NoError(t, first.Eval(`bench.type('f 351 6.2')`, nil))
	var waiting int
	require.NoError(t, second.Eval(`store.waiting(bench.at.id).then((list) => list.length)`, &waiting))
	require.Zero(t, waiting, "what is typed where the job is not open is not typed later")
	second.read("353", "5.9")
	require.NoError(t, second.Reload())
	second.until(`bench.at.state?.readings.length === 26 && bench.open()`)
}

// A core that fails is started again with the job as it was kept.
func TestCoreFails(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.read("352", "6.04")
	require.NoError(t, h.Eval(`(() => { const real = evendrop; evendrop = (r) => {
		if (!r.includes('"type"')) return real(r);
		evendrop = real;
		throw new Error('broken on purpose');
	}; })()`, nil))
	h.typed("353", "5.9")
	h.until(`document.querySelector('.panel.remark')?.innerText.includes('started again')`)
	require.Equal(t, "25", h.value(`bench.at.state.readings.length`))
	require.Equal(t, "353 5.9", h.value(`document.getElementById('f-angle').value + ' ' + document.getElementById('f-depth').value`), "what was typed is still there")
	h.tap("#keep")
	h.until(`bench.at.state.readings.length === 26`)
}

// Keys are taken while the core still starts, and what was typed then is kept.
func TestTypedBeforeTheCore(t *testing.T) {
	file := pageFile(t)
	b := browsertest.Start(t, "")
	h := at(t, b, file, sizes[0])
	h.pick(example(t)...)
	require.NoError(t, h.Throttle(6))
	require.NoError(t, h.Reload())
	h.until(`document.querySelector('.pad')`)
	require.True(t, h.is(`(() => {
		for (const key of ['3', '5', '2', '', '6', '.', '0', '4', '']) (document.querySelector('.pad [data-key="' + key + '"]') || document.getElementById('keep')).click();
		return !bench.open();
	})()`), "all of it while the core still starts")
	h.until(`bench.open() && bench.at.state.readings.length === 25 && document.getElementById('kept').className === 'kept kept'`)
}
