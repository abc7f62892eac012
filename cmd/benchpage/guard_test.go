package main

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser/browsertest"
)

// The word kept, seen and aloud, comes once a reading is on the disk, and not before.
func TestKeptOnceOnDisk(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.until(`document.getElementById('kept').className === 'kept kept'`)
	require.NoError(t, h.Eval(`(() => { const real = store.keep; store.keep = async (...all) => { await new Promise((go) => { window.write = go; }); return real(...all); }; })()`, nil))
	h.typed("352", "6.04")
	h.until(`bench.at.state.readings.length === 25 && window.write`)
	require.Equal(t, "kept keeping", h.value(`document.getElementById('kept').className`))
	require.NotContains(t, h.text("#live"), "Kept")
	require.NoError(t, h.Eval(`write()`, nil))
	h.until(`document.getElementById('kept').className === 'kept kept' && document.getElementById('live').textContent.startsWith('Kept')`)
	require.Empty(t, h.Errors())
}

// Nothing is spoken by the voice of a server.
func TestSpokenHere(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.until(`document.getElementById('next')`)
	require.NoError(t, h.Eval(`(() => { window.said = []; SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } }; speechSynthesis.speak = (u) => said.push(u.voice.name + ': ' + u.text); })()`, nil))
	h.speaks()
	h.tap("#speak")
	require.Regexp(t, `^here: Turning \w+, \w+ side, near`, h.value(`said`))
	require.Empty(t, h.Errors())
}

// On a protractor with sides an angle has a side in place of a minus, and one side; a depth has a
// minus.
func TestSides(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	dir := t.TempDir()
	job := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(job, []byte("title = \"Sides\"\n[engine]\nstroke = 86\nrod = 146\n[protractor]\nwraps = 90\n[[cylinder]]\nnumber = 1\nstops = [[\"30 BTDC\", \"26 ATDC\"]]\n"), 0o600))
	h.pick(job)
	h.until(`document.querySelector('[data-key="BTDC"]:enabled')`)
	require.True(t, h.is(`document.querySelector('[data-key="-"]').disabled`))
	h.keys("24.5")
	for _, side := range []string{"BTDC", "ATDC"} {
		h.tap(`[data-key="` + side + `"]`)
	}
	require.Equal(t, "24.5 ATDC", h.value(`document.getElementById('f-angle').value`))
	h.tap("#keep")
	require.True(t, h.is(`document.querySelector('[data-key="BTDC"]').disabled`))
	h.keys("-0.4")
	require.Equal(t, "-0.4", h.value(`document.getElementById('f-depth').value`))
	require.Empty(t, h.Errors())
}

// A second Enter, meant for the reading that was typed, answers no question.
func TestSecondEnter(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[3])
	h.pick(example(t)...)
	require.NoError(t, h.Type("f342.5\n3.29\n"))
	h.until(`document.querySelector('.panel.question')`)
	require.NoError(t, h.Type("\n\n"))
	h.until(`bench.type('list')`) // which comes behind whatever these two typed
	require.True(t, h.is(`bench.at.state.question`), "nobody answered it")
	require.Equal(t, "25", h.value(`bench.at.state.readings.length`))
	require.Empty(t, h.Errors())
}

// Every file goes out byte for byte, also one that the job does not name and that is no text,
// and one by one where the core makes no zip of them.
func TestEveryByte(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	job, rows := filepath.Join(t.TempDir(), "job.toml"), pair(t, 1)[0]
	data, err := os.ReadFile(pair(t, 1)[1])
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(job, append([]byte("\xef\xbb\xbf"), bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))...), 0o600))
	other := filepath.Join(filepath.Dir(job), "notes.bin")
	require.NoError(t, os.WriteFile(other, []byte{0, 0xff, 0xfe, 13, 10, 0x80, 26}, 0o600))
	h.pick(job, rows, other)
	h.tap("#tab-job")
	packed := h.given(func() { h.tap("#export") })
	r, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	for _, name := range []string{job, rows, other} {
		f, err := r.Open(filepath.Base(name))
		require.NoError(t, err)
		got, err := io.ReadAll(f)
		require.NoError(t, err)
		want, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, want, got, name)
	}
	require.NoError(t, h.Eval(`(() => { const real = evendrop; evendrop = (r) => (r.includes('"export"') ? '{"error": "broken on purpose"}' : real(r)); window.out = []; filed.give = async (name) => { out.push(name); return 'Here.'; }; })()`, nil))
	h.tap("#export")
	h.until(`out.length === 3 && bench.at.exported.includes('notes.bin')`)
	require.Empty(t, h.Errors())
}

// A picture that comes into the page has nothing left that could run or ask for something.
func TestPictureIsHarmless(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	const hostile = `<svg xmlns="http://www.w3.org/2000/svg" onload="ran()"><script>ran()</script><g><script>ran()</script><rect onclick="ran()" style="fill:url(x)" width="1"/></g>` +
		`<a href="x"><text>a</text></a><image href="x"/><use href="#x"/><foreignObject><p>a</p></foreignObject><style>rect{fill:red}</style><path d="M0 0"/></svg>`
	require.NoError(t, h.Eval("window.drawn = dom.picture(`"+hostile+"`)", nil))
	require.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg"><g><rect width="1"/></g><path d="M0 0"/></svg>`, h.value(`new XMLSerializer().serializeToString(drawn)`))
	require.True(t, h.is("dom.picture('<html/>') === null && dom.picture('no') === null")) // the page's rules refuse the rest while it is parsed, and say so
}

// A reading that is fixed stays the one that it was, with its turn.
func TestFixed(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.tap("#tab-seen")
	h.tap("#r-3")
	require.NoError(t, h.Eval(`window.was = bench.at.state.readings[2]`, nil))
	h.tap(".fix")
	h.until(`document.getElementById('f-depth').value`)
	h.tap(`[data-key="erase"]`)
	h.keys("1")
	require.NoError(t, h.Eval(`window.typed = document.getElementById('f-depth').value`, nil))
	h.tap("#keep")
	h.until(`bench.at.state.readings[2].depth_mm === Number(window.typed)`)
	require.True(t, h.is(`bench.at.state.readings.length === 24 && bench.at.state.readings[2].turn === was.turn && bench.at.state.readings[2].angle === was.angle`))
	require.Empty(t, h.Errors())
}

// What is said to a line waits while something is typed into a window: that is not lost.
func TestSaidWaitsForAWindow(t *testing.T) {
	file := pageFile(t)
	h := at(t, browsertest.Start(t, ""), file, sizes[0])
	h.pick(example(t)...)
	h.tap("#tab-marks")
	h.tap("#add-mark")
	require.NoError(t, h.Type("notch"))
	h.until(`bench.type('look').then(() => bench.at.said.length)`)
	require.Equal(t, "notch", h.value(`document.getElementById('w-name')?.value`))
	h.press("Leave it")
	h.until(`document.getElementById('ask-title')?.innerText === 'Said'`)
	h.press("OK")
	h.until(`!document.querySelector('dialog')`)
	require.Empty(t, h.Errors())
}

// Nothing is shown of a job, and no key is obeyed, before the cautions are agreed to, in every sitting.
func TestCautionsFirst(t *testing.T) {
	file := pageFile(t)
	b := browsertest.Start(t, "")
	h := at(t, b, file, sizes[3])
	h.pick(example(t)...)
	h.until(`document.getElementById('kept').className === 'kept kept'`)
	next := hand{browsertest.Page(t, b), t}
	require.NoError(t, next.Open(file))
	next.until(`bench.at.program`)
	require.NoError(t, next.Type("?"))
	next.until(`document.getElementById('agree') && main.at() === 'job'`)
	require.True(t, next.is(`document.getElementById('tabs').hidden && !document.querySelector('.jobs') && !document.querySelector('dialog')`))
	next.tap("#agree")
	next.until(`document.querySelector('.jobs')`)
	require.NoError(t, h.Reload())
	h.until(`document.querySelector('.work .pad')`) // agreed to once a sitting
	require.Empty(t, h.Errors())
}
