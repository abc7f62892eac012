package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser/browsertest"
	"evendrop/geometry"
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

// pair is a job of one cylinder or of two, the second one's throw late by 1.5 deg and its crown
// low by 0.3 mm.
func pair(t *testing.T, cylinders int) (files []string) {
	t.Helper()
	dir := t.TempDir()
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	write := func(name, text string) {
		files = append(files, filepath.Join(dir, name))
		require.NoError(t, os.WriteFile(files[len(files)-1], []byte(text), 0o600))
	}
	job := "title = \"Pair\"\n[engine]\nstroke = 86\nrod = 146\n"
	for n := range cylinders {
		job += fmt.Sprintf("[[cylinder]]\nnumber = %d\nthrow = %d\nreadings = \"cylinder-%[1]d.csv\"\n", n+1, 180*n)
		rows := "angle,depth,turn\n"
		for _, u := range []float64{-25, -20, -15, -10, -5, 0, 5, 10, 15, 20, 25} {
			rows += fmt.Sprintf("%.1f,%.3f,forward\n", u+10+181.5*float64(n), float64(crank.Drop(geometry.Angle(u)*geometry.Degree))+0.3*float64(n))
		}
		write(fmt.Sprintf("cylinder-%d.csv", n+1), rows)
	}
	write("job.toml", job)
	return files
}

// Crowns and throws are compared by buttons, once more than one cylinder is measured.
func TestCylindersCompared(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(pair(t, 1)...)
	for _, tab := range [][2]string{{"#tab-job", ".facts"}, {"#tab-marks", "#add-mark"}} {
		h.tap(tab[0])
		h.until(`document.querySelector('` + tab[1] + `')`)
		require.False(t, h.is(`document.querySelector('.crowns')`), "one cylinder has nothing to be compared with")
	}
	h.tap("#tab-job")
	h.pick(pair(t, 2)...)
	h.tap("#tab-job")
	h.until(`document.querySelector('.crowns') && document.querySelector('.throws')`)
	h.sound("job of two cylinders")
	h.tap("#tab-marks")
	h.tap(".crowns")
	h.sound("crowns")
	h.keys("0.1")
	h.press("Keep")
	h.until(`document.querySelector('dialog[open]')?.innerText.includes('the crowns are compared with one another, and one may stand 0.1 mm off')`)
	h.press("OK")
	h.tap(".throws")
	h.keys("0.5")
	h.press("Keep")
	h.until(`document.querySelector('dialog[open]')?.innerText.includes('a throw may be 0.5 deg out of its place')`)
	h.press("OK")
	h.until(`/Cylinder 2's throw is \+1.5/.test(document.querySelector('.finding')?.innerText)`)
	h.until(`document.querySelector('.finding').innerText.includes('crown')`)
	h.tap("#tab-read")
	h.tap("#undo")
	require.Contains(t, h.text("dialog"), "a throw may be 0.5 deg")
	require.Empty(t, h.Errors())
}

// The whole answer is read in a window: no word of its tables is broken, and its figures are whole.
// Where a reading does not fit, how far the others are off is still seen.
func TestWholeAnswer(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.typed("342.5", "3.29")
	h.until(`document.querySelector('.panel.question')`)
	h.tap("#tab-seen")
	h.until(`document.querySelector('#r-25 .doubtful')`)
	require.True(t, h.is(`document.querySelector('#r-25 .doubtful').getAttribute('width') === '28'`), "one that does not fit ends where its scale ends")
	require.True(t, h.is(`[...document.querySelectorAll('.resid .bar')].some((bar) => bar.getAttribute('width') === '28')`), "the scale is that of the others")
	h.tap("#tab-job")
	h.tap("#details")
	h.until(`document.querySelectorAll('.document table').length > 2`)
	h.sound("the whole answer")
	require.Empty(t, h.Errors())
}
