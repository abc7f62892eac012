package main

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser/browsertest"
	"evendrop/geometry"
)

// unread is a job without a reading.
func unread(t *testing.T) (files []string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"job.toml":       "title = \"Unread\"\n[engine]\nstroke = 86\nrod = 146\n[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\n",
		"cylinder-1.csv": "angle,depth,turn\n",
	} {
		files = append(files, filepath.Join(dir, name))
		require.NoError(t, os.WriteFile(files[len(files)-1], []byte(text), 0o600))
	}
	return files
}

// places is where a thumb finds what it types with, at each size, px.
func (h hand) places() (list []string) {
	h.t.Helper()
	for _, size := range sizes {
		h.resize(size)
		list = append(list, h.value(`['[data-key="5"]', '#keep', '#f-angle', '#f-depth', '#forward'].map((s) => {
			const {x, y, width, height} = document.querySelector(s).getBoundingClientRect();
			return [s, x, y, width, height].join(' ');
		}).join(', ')`))
	}
	h.resize(sizes[0])
	return list
}

// The keys stay where they are under a thumb that types, whatever is said over them.
func TestKeypadStays(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(unread(t)...)
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	still := h.places()
	stays := func(when string) {
		t.Helper()
		require.Equal(t, still, h.places(), when)
		h.sound(when)
	}
	read := func(u, off float64) {
		h.read(strconv.FormatFloat(u+35, 'f', 1, 64), strconv.FormatFloat(float64(crank.Drop(geometry.Angle(u)*geometry.Degree))+off, 'f', 2, 64))
	}
	for i, u := range []float64{-25, -20, -15, -12} {
		read(u, 0)
		stays(strconv.Itoa(i+1) + " readings")
	}
	h.tap("#backward")
	h.until(`document.querySelector('.panel.remark')?.innerText.includes('Caution: turn back')`)
	stays("a caution")
	read(20, 0)
	stays("turned back")
	read(15, 0)
	read(30, 1.5)
	h.tap(`[data-line="later"]`)
	h.until(`document.querySelector('.panel.open')?.innerText.includes('does not fit')`)
	stays("a misfit")
	require.Empty(t, h.Errors())
}

// tapTwice taps an element, and what lies there then: a button of a window. It is done by the page
// itself, so that no slow machine makes two taps of it. The second is a click of so many: 2 of a
// finger, 0 of a key.
func (h hand) tapTwice(selector string, second int) {
	h.t.Helper()
	var yes bool
	require.NoError(h.t, h.Eval(`(() => {
		const {x, y, width, height} = document.querySelector('`+selector+`').getBoundingClientRect();
		const place = {clientX: x + width / 2, clientY: y + height / 2};
		const click = (detail) => {
			const under = document.elementFromPoint(place.clientX, place.clientY);
			under.dispatchEvent(new MouseEvent('click', {...place, detail, bubbles: true, cancelable: true}));
			return Boolean(under.closest('dialog button'));
		};
		click(1);
		return click(`+strconv.Itoa(second)+`);
	})()`, &yes))
	require.True(h.t, yes, "a button lies there")
}

// A window that a tap opens takes no second tap at its place: nothing is done that was not read.
// Once it may have been read it takes one there, and a key at any time.
func TestDoubleTap(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.read("352", "6.04")
	h.read("353", "5.9")
	back := func() {
		h.tap("#undo")
		h.until(`document.querySelector('dialog .go')`)
		require.NoError(t, h.TapOn("dialog .go")) // elsewhere, at once
		h.until(`bench.at.state.readings.length === 25 && document.getElementById('kept').className === 'kept kept'`)
	}
	back()
	h.tapTwice("#undo", 2)
	require.True(t, h.is(`document.querySelector('dialog[open]')`), "it was not pressed")
	h.reads()
	require.NoError(t, h.TapAt(`document.elementFromPoint(clicked.clientX, clicked.clientY).closest('dialog button')`))
	h.until(`bench.at.state.readings.length === 26`) // it was done again
	back()
	h.tapTwice("#undo", 0)
	h.until(`bench.at.state.readings.length === 26`)
	require.Empty(t, h.Errors())
}

// A mark that was added before TDC is known does not look lost. Where TDC is known, and the job has
// none, that is said.
func TestMarkWaits(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(unread(t)...)
	require.NoError(t, h.Eval(`bench.type('mark locking pin; flywheel; 41; 0; 1')`, nil))
	h.until(`bench.at.state.undo && document.getElementById('kept').className === 'kept kept'`)
	says := func(want string) {
		t.Helper()
		h.tap("#tab-marks")
		h.until(`document.querySelector('.bars > .quiet')?.innerText === ` + strconv.Quote(want))
		h.sound(want)
	}
	says("A mark that was added is kept, and judged later.")
	require.NotContains(t, h.text("#screen"), "No marks yet")
	h.tap("#tab-job")
	h.pick(pair(t, 1)...)
	says("No marks yet.")
	require.Empty(t, h.Errors())
}
