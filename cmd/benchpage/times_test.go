package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"
)

// Times of the first answer and of further ones, to a reading that fits, to one that does
// not and to one after 200 others, on this machine and six times slower, and the core's memory.
func TestTimes(t *testing.T) {
	file := pageFile(t)
	b := browsertest.Start(t, "")
	for _, slow := range []float64{1, 6} {
		h, ready := slowed(t, b, file, slow)
		h.pick(example(t)...)
		h.watch()
		fits, misfits := h.answers(0), h.answers(1)
		require.NoError(t, h.Close())
		h, _ = slowed(t, b, file, slow)
		h.pick(repeated(t, 200)...)
		h.watch()
		many := h.answers(0)
		t.Logf("%g times slower: the core answers %.2f s after the page is opened; a further reading %.0f ms (least %.0f, the first %.0f), one that does not fit %.0f (%.0f), one after 200 %.0f (%.0f); memory %.1f MB",
			slow, ready.Seconds(), median(fits), slices.Min(fits), fits[0], median(misfits), slices.Min(misfits), median(many), slices.Min(many), h.memory())
		require.NoError(t, h.Close())
	}
}

// slowed opens the page on a machine so many times slower, and tells how long its core took
// to answer.
func slowed(t *testing.T, b *browser.Browser, file string, times float64) (hand, time.Duration) {
	t.Helper()
	h := hand{browsertest.Page(t, b), t}
	require.NoError(t, h.Size(sizes[0]))
	require.NoError(t, h.Throttle(times))
	began := time.Now()
	require.NoError(t, h.Open(file))
	h.until(`bench.at.program`)
	ready := time.Since(began)
	h.tap("#agree")
	return h, ready
}

// answers is how long the core takes over each of nine further readings, off by so many mm
// and taken back again, ms.
func (h hand) answers(off float64) (all []float64) {
	h.t.Helper()
	for i := range 9 {
		var took float64
		require.NoError(h.t, h.Eval(fmt.Sprintf(`(async () => {
			const r = await bench.ask({action: 'expect', line: '%[1]g', turn: 'forward'});
			const line = 'f %[1]g ' + (r.expected.gauge_mm + %[2]g).toFixed(2), began = performance.now();
			await bench.ask({action: 'type', line});
			const took = performance.now() - began;
			await bench.ask({action: 'type', line: 'undo'});
			return took;
		})()`, 341+0.5*float64(i), off), &took))
		all = append(all, took)
	}
	return all
}

// watch starts the core again, so that it can be seen how much memory it takes.
func (h hand) watch() {
	h.t.Helper()
	require.NoError(h.t, h.Eval(`(async () => {
		const real = WebAssembly.instantiate, was = evendrop;
		WebAssembly.instantiate = async (...all) => window.instance = await real.apply(WebAssembly, all);
		evendrop = () => { evendrop = was; throw new Error('broken on purpose'); };
		await bench.ask({action: 'state'});
	})()`, nil))
	h.until(`window.instance && bench.open()`)
}

// memory is how much the core has taken since, MB.
func (h hand) memory() (mb float64) {
	h.t.Helper()
	require.NoError(h.t, h.Eval(`instance.exports.mem.buffer.byteLength / 1e6`, &mb))
	return mb
}

// repeated is files of the diagnostician's job with its readings over and over, n in all.
func repeated(t *testing.T, n int) []string {
	t.Helper()
	job, err := os.ReadFile(example(t)[0])
	require.NoError(t, err)
	readings, err := os.ReadFile(example(t)[1])
	require.NoError(t, err)
	rows := strings.SplitAfter(string(readings), "\n")
	head, rows := rows[:2], rows[2:26]
	for len(rows) < n {
		rows = append(rows, rows[len(rows)-24])
	}
	files := []string{filepath.Join(t.TempDir(), "job.toml"), filepath.Join(t.TempDir(), "cylinder-1.csv")}
	require.NoError(t, os.WriteFile(files[0], job, 0o600))
	require.NoError(t, os.WriteFile(files[1], []byte(strings.Join(append(head, rows...), "")), 0o600))
	return files
}

func median(list []float64) float64 {
	return slices.Sorted(slices.Values(list))[len(list)/2]
}
