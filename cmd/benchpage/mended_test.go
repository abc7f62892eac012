package main

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser/browsertest"
)

// How the cams are driven is put right where it was answered wrongly, and that is undone.
func TestCamsSaidAgain(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.tap("#tab-job")
	h.until(`document.getElementById('driven')?.innerText.includes('one cam')`)
	h.tap("#driven")
	h.sound("how the cams are driven")
	h.press("Cam in block")
	h.until(`document.querySelector('#asked')`)
	h.sound("the sprocket's teeth")
	require.NoError(t, h.Type("22\n"))
	h.until(`document.querySelector('dialog[open]')?.innerText.includes('Kept: the cams are driven as cam in block, with 22 teeth')`)
	h.press("OK")
	h.until(`document.getElementById('driven')?.innerText.includes('cam in block')`)
	h.sound("job, its cams said again")
	h.until(`store.files(bench.at.id).then((list) => list.find((f) => f.name === 'job.toml').text.includes('# before: layout = "one cam"'))`)
	h.tap("#tab-read")
	h.tap("#undo")
	require.Contains(t, h.text("dialog"), "the cams are driven as cam in block")
	h.press("Take it back")
	h.until(`bench.at.job.driven === 'one cam' && document.getElementById('kept').className === 'kept kept'`)
	require.Empty(t, h.Errors())
}

// What was exported is said where it is seen, with its name and where it is; not any more once the
// job was changed.
func TestExportIsSaid(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.tap("#tab-job")
	h.given(func() { h.tap("#export") })
	const says = "Exported: invented-petrol-four-locking-pin-in-doubt.zip, with every file of this job. It is on this device, where this browser puts its downloads."
	h.until(`document.getElementById('exported')`)
	require.Equal(t, says, string(h.text("#exported")))
	h.until("document.getElementById('live').textContent === `" + says + "`")
	h.sound("exported")
	h.read("352", "6.04")
	h.tap("#tab-job")
	h.until(`document.querySelector('.facts')`)
	require.False(t, h.is(`document.getElementById('exported')`), "a reading is not in it")
	require.Empty(t, h.Errors())
}

// A drawing of characters is whole on a phone: nothing of it runs out at the side.
func TestDrawingFits(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[1])
	h.tap("#new")
	for {
		h.until(`document.querySelector('.question')`)
		asked := string(h.text(".question"))
		if strings.HasPrefix(asked, "Piston read by?") { // whose drawing is as wide as any
			break
		}
		h.tap("#usual")
		h.until(`document.querySelector('.question')?.innerText !== ` + strconv.Quote(asked))
	}
	h.tap("#explain")
	h.until(`document.querySelector('pre')`)
	for _, size := range sizes {
		h.resize(size)
		require.True(t, h.is(`(({scrollWidth, clientWidth}) => scrollWidth <= clientWidth)(document.querySelector('pre'))`), "%d wide", size.Width)
	}
	h.sound("a drawing")
	require.Empty(t, h.Errors())
}
