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

	"evendrop/cmd/internal/browser/browsertest"
	"evendrop/geometry"
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
	h.until(`bench.at.state.readings.length === 25 && document.querySelector('.panel.question')`) // nobody answered it
	h.tap(`[data-line="undo"]`)
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

// A line of a mark that is not understood is put right where it was typed. While a lobe is
// read, nothing sends anybody to a place of the piston.
func TestMarkPutRightAndLobeRead(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.tap("#tab-marks")
	h.tap("#add-mark")
	for id, text := range map[string]string{"#w-name": "new notch", "#w-on": "pulley", "#w-read": "soon", "#w-limit": "1"} {
		h.tap(id)
		require.NoError(t, h.Type(text))
	}
	h.press("Keep")
	h.until(`document.querySelector('dialog p')?.innerText.includes('is neither what the protractor reads')`)
	require.Equal(t, "new notch pulley soon 1", h.value(`['name', 'on', 'read', 'limit'].map((n) => document.getElementById('w-' + n).value).join(' ')`))
	h.sound("a mark is put right")
	h.press("Leave it")
	require.NoError(t, h.Eval(`bench.type('lift inlet 1: 62.5 1.04')`, nil))
	h.until(`bench.at.state.lobe`)
	if h.is(`document.querySelector('dialog[open]')`) {
		h.press("OK")
	}
	h.tap("#tab-read")
	h.typed("72.5", "2.04")
	h.until(`document.querySelector('.panel.lobe')`)
	require.Contains(t, h.text(".panel.lobe"), "2 lifts")
	require.False(t, h.is(`document.getElementById('next')`), "no place of the piston")
	h.sound("a lobe is read")
	h.tap("#tab-seen")
	h.press("Card of a lobe")
	require.Equal(t, "inlet lobe, cylinder 1", h.value(`document.getElementById('w-lobe').value`), "the one that is read")
	h.press("Leave it")
	h.press("Another cylinder")
	require.NoError(t, h.Type("2"))
	h.press("Read it")
	h.until(`document.querySelector('dialog[open]')?.innerText.includes('after cylinder 1')`)
	require.NoError(t, h.Type("soon"))
	h.press("Answer")
	h.until(`document.querySelector('dialog[open]')?.innerText.includes('"soon" is not')`)
	require.True(t, h.is(`document.querySelector('dialog[open]').innerText.includes('after cylinder 1')`), "asked again, under why")
	require.Empty(t, h.Errors())
}

// No reading agrees with none; what a question means is told.
func TestDwellsAlone(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.tap("#new")
	h.until(`document.getElementById('explain')`)
	for range 2 {
		h.tap("#usual")
	}
	h.tap("#explain")
	h.until(`document.querySelector('.ask-pane > p:not(.question)')`)
	h.sound("a question is explained")
	name := filepath.Join(t.TempDir(), "job.toml")
	require.NoError(t, os.WriteFile(name, []byte("title = \"x\"\n[engine]\nstroke = 86\nrod = 146\n[[cylinder]]\nnumber = 1\ndwell = [{ still = -7, moves = 5, turn = \"forward\" }, { still = 5, moves = -7, turn = \"backward\" }]\n"), 0o600))
	h = at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(name)
	h.until(`document.querySelector('.tdc .big')`)
	require.NotContains(t, h.text(".tdc"), "readings agree")
	h.typed("30", "6.9")
	h.until(`bench.at.state.tdc.readings === 1`)
	require.NotContains(t, h.text(".tdc"), "readings agree", "one agrees with nothing")
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
		answer := map[string]string{"Engine's name": "Inline\n", "What does it read a little before and after the top?": "4 BTDC and 4 ATDC\n",
			"What is to be judged?": "damper mark\n"}[asked]
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
	h.named()
	require.Empty(t, h.Errors())
}

// named reads a mark that was named when the job was begun: a button until it is read. Which
// cylinder is read, and which lobe, stands over its TDC.
func (h hand) named() {
	h.tap("#tab-marks")
	h.until(`document.querySelector('.to-read')?.innerText === 'Read damper mark'`)
	h.tap(".to-read")
	for _, answer := range []string{"4 ATDC\n", "\n", "\n"} {
		h.until(`document.querySelector('#asked')?.value === ''`)
		h.tap("#asked")
		require.NoError(h.t, h.Type(answer))
	}
	h.until(`!document.querySelector('#asked') && document.querySelector('dialog[open]')`)
	h.press("OK")
	h.until(`!document.querySelector('.to-read')`)
	h.tap("#tab-read")
	require.Equal(h.t, "True TDC on the protractor", string(h.text("h2")))
	h.is(`void bench.type('cylinder 2 180') || true`)
	h.until(`bench.at.state.cylinder === 2`)
	require.Equal(h.t, "Cylinder 2: true TDC", string(h.text("h2")))
}

// What moved is said where the readings are typed, at the reading after which it shows.
func TestMovedIsSaid(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	dir := t.TempDir()
	write := func(name, text string) string {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
		return filepath.Join(dir, name)
	}
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	rows := "angle,depth,turn\n"
	add := func(u, shown float64, turn string) (angle, depth string) {
		angle = strconv.FormatFloat(shown, 'f', 1, 64)
		depth = strconv.FormatFloat(float64(crank.Drop(geometry.Angle(u)*geometry.Degree)), 'f', 3, 64)
		rows += angle + "," + depth + "," + turn + "\n"
		return angle, depth
	}
	for _, u := range []float64{-27, -22, -17, -12, -7, 7, 12, 17, 22, 27} {
		add(u, u+35, "forward")
	}
	add(27, 64, "backward") // the pointer was knocked by 2 deg where the crank was turned back
	h.pick(write("job.toml", "title = \"x\"\n[engine]\nstroke = 86\nrod = 146\n[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\n"), write("cylinder-1.csv", rows))
	h.until(`document.querySelector('.tdc .big')`)
	for i, u := range []float64{22, 17, 12, 7, -7, -12} {
		angle, depth := add(u, u+37, "backward")
		h.read(angle, depth)
		h.until(`bench.at.state.readings.length === ` + strconv.Itoa(12+i))
		if h.is(`document.querySelector('[data-line="k"]')`) {
			h.tap(`[data-line="k"]`)
		}
		if h.is(`document.querySelector('.panel.remark')?.innerText.includes('is the pointer loose')`) {
			h.sound("something moved")
			return
		}
	}
	require.Fail(t, "nothing was said of the pointer")
}
