package looked_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/browser/browsertest"
	"evendrop/cmd/internal/looked"

	"github.com/stretchr/testify/require"
)

// sound is a small page in order: what each test spoils.
const sound = `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark"><title>Sound</title><style>:root{color-scheme:light dark}body{margin:0;font:16px/1.4 sans-serif}
@page{margin:12mm 13mm}td,th{text-align:left}figure{margin:0}figure,tr{break-inside:avoid}h2{break-after:avoid}svg{display:block;width:100%;max-width:300px}
text{font-size:14px;fill:CanvasText}.scroll{overflow-x:auto}</style></head><body>
<article class="sheet" role="region" aria-label="First sheet"><header><p>Invented four</p></header><h1>The pin is late</h1></article>
<main><section aria-labelledby="s"><h2 id="s">The marks</h2><div class="scroll" role="region" aria-label="Marks" tabindex="0"><table><thead><tr><th scope="col">mark</th></tr></thead>
<tbody><tr><th scope="row">pin</th></tr></tbody></table></div><p id="p">One more word.</p>
<figure><svg role="img" viewBox="0 0 300 60"><title>Marks</title><desc>All of them.</desc><rect width="300" height="60" fill="Canvas"/><text x="5" y="20">pin 2.8</text></svg></figure></section></main>
</body></html>`

// page is a tab with the sound page, some of it put in place of other.
func page(t *testing.T, b *browser.Browser, instead ...string) (*browser.Page, string, []byte) {
	t.Helper()
	for i := 0; i < len(instead); i += 2 {
		require.Contains(t, sound, instead[i])
	}
	html := []byte(strings.NewReplacer(instead...).Replace(sound))
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, html, 0o600))
	p := browsertest.Page(t, b)
	t.Cleanup(func() { require.NoError(t, p.Close()) })
	return p, file, html
}

// Nothing is wrong with a page in order.
func TestSound(t *testing.T) {
	p, file, html := page(t, browsertest.Start(t, ""))
	all, err := looked.Faults(p, file, html)
	require.NoError(t, err)
	for who, list := range all {
		require.Empty(t, list, who)
	}
}

// spoilt is a page with a fault, and the views that it is seen in.
type spoilt struct {
	instead, by string
	says        string
	in          string // a view of looked.Views; "": every one
}

var toTheEye = []spoilt{
	{`<p id="p">`, `<p id="p" style="width:1400px">`, "sideways: the page is 1400 px wide", "desk"},
	{`<p id="p">`, `<p id="p" style="width:330px">`, "sideways: the page is 330 px wide on 320", "small phone"},
	{`<p id="p">One`, `<p id="p"><span style="white-space:nowrap;display:block;width:40px;overflow:hidden">One more word</span>`, "hidden: “One more word” lies under", ""},
	{`<p id="p">One`, `<p id="p"><span style="display:block;height:9px;overflow:hidden">One more word</span>`, "hidden: “One more word” lies under", ""},
	{`<p id="p">`, `<div style="position:relative"><div style="position:absolute;left:0;top:0;width:90px;height:20px;background:#888"></div></div><p id="p" style="margin:0">`, "hidden: “One more word.” lies under <div>", ""},
	{`<p id="p">`, `<div style="position:relative"><div style="position:absolute;left:10px;top:3px">over it</div></div><p id="p" style="margin:0">`, "overlap: ", ""},
	{`<p id="p">`, `<p id="p" style="margin-left:-50px">`, "hidden: “One more word.” is off the screen", ""},
	{`x="5" y="20">pin 2.8`, `x="260" y="20">pin 2.8`, "hidden: “pin 2.8” lies under", ""},
	{`pin 2.8</text>`, `pin 2.8</text><path d="M0 15H300" stroke="red" stroke-width="2" pointer-events="none"/>`, "hidden: “pin 2.8” lies under <path>", ""},
	{`pin 2.8</text>`, `pin 2.8</text><text x="20" y="22">pulley</text>`, "overlap: “pin 2.8” and “pulley”", ""},
	{`pin 2.8</text>`, `pin 2.8</text><path id="bend" d="M40 58A40 40 0 0 1 120 58" fill="none"/><text><textPath href="#bend">round the bend</textPath></text><rect x="60" y="5" width="40" height="20" fill="#ccc"/>`,
		"hidden: “round the bend” lies under <rect>", ""},
	{`pin 2.8</text>`, `pin 2.8</text><path id="bend" d="M40 58A40 40 0 0 1 120 58" fill="none"/><text><textPath href="#bend">round the bend</textPath></text><text x="70" y="20">II</text>`,
		"overlap: ", ""},
	{`<text x="5"`, `<text style="font-size:10.9px" x="5"`, "small letters: 1 in “Marks”, the smallest “pin 2.8” at 10.9 px", "desk"},
	{`viewBox="0 0 300 60"`, `viewBox="0 0 400 60"`, "small letters: 1 in “Marks”, the smallest “pin 2.8” at 10.5 px", "phone"},
	{`<p id="p">`, `<p id="p" style="color:#777">`, "contrast: “One more word.” has 4.48 to 1", "phone"},
	{`<p id="p">`, `<p id="p" style="font-size:24px;color:#969696">`, "contrast: “One more word.” has 2.9", "phone"},
	{`<p id="p">`, `<p id="p" style="color:#000">`, "contrast: “One more word.” has 1.", "dark"},
	{`<p id="p">`, `<p id="p" style="color:#000;opacity:.5">`, "contrast: “One more word.” has 3.9", "desk"},
	{`<p id="p">`, `<p id="p" style="color:#333;background:#555">`, "contrast: “One more word.” has 1.69", "desk"},
	{`fill="Canvas"`, `fill="#333"`, "contrast: “pin 2.8” has 1.", "desk"},
	{`<p id="p">`, `<p id="p" style="forced-color-adjust:none;background:#fff;color:#ccc">`, "contrast: “One more word.” has 1.6", "forced colours"},
}

// Whatever somebody could not see or read is said, in the view that spoils it, and only of
// the fault's sort.
func TestToTheEye(t *testing.T) {
	b := browsertest.Start(t, "")
	for _, s := range toTheEye {
		p, file, _ := page(t, b, s.instead, s.by)
		require.NoError(t, p.Open(file))
		for _, v := range looked.Views {
			if s.in != "" && v.Name != s.in || s.in == "" && v.Print {
				continue
			}
			list, err := v.Faults(p)
			require.NoError(t, err)
			require.Contains(t, said(list), s.says, "%s: %s", v.Name, s.by)
		}
	}
}

func said(list []looked.Fault) string { return strings.Trim(fmt.Sprint(list), "[]") }

// As large as they must be is large enough: the limits themselves pass.
func TestAtTheLimits(t *testing.T) {
	b := browsertest.Start(t, "")
	for _, s := range []spoilt{
		{instead: `<p id="p">`, by: `<p id="p" style="color:#767676">`}, // 4.54 to 1
		{instead: `<p id="p">`, by: `<p id="p" style="font-size:24px;color:#949494">`},
		{instead: `<text x="5"`, by: `<text style="font-size:11px" x="5"`},
		{instead: `<p id="p">`, by: `<p id="p" style="width:1280px">`},
		{instead: `>pin</th>`, by: `><div style="width:2000px">pin and much to the <b style="float:right">right</b></div></th>`}, // can be scrolled to
		{instead: `pin 2.8</text>`, by: `pin 2.8</text><path d="M40 58A40 40 0 0 1 120 58L110 58A30 30 0 0 0 50 58" fill="#ddd" style="color-scheme:light"/>` +
			`<path id="bend" d="M45 58A35 35 0 0 1 115 58" fill="none"/><text><textPath href="#bend">round the bend</textPath></text><text x="60" y="57">inside</text>`},
	} {
		p, file, _ := page(t, b, s.instead, s.by)
		require.NoError(t, p.Open(file))
		list, err := looked.Views[0].Faults(p)
		require.NoError(t, err)
		require.Empty(t, list, s.by)
	}
}

var toTheEar = []spoilt{
	{instead: ` lang="en"`, by: ``, says: "language: "},
	{instead: `<title>Sound</title>`, by: ``, says: "title: "},
	{instead: `, initial-scale=1`, by: `, user-scalable=no`, says: "viewport: the page cannot be made larger"},
	{instead: `<h2 id="s">The marks</h2>`, by: `<h1 id="s">The marks</h1>`, says: "headings: 2 h1"},
	{instead: `<h1>The pin is late</h1>`, by: `<p>The pin is late</p>`, says: "headings: 0 h1"},
	{instead: `<h2 id="s">The marks</h2>`, by: `<h3 id="s">The marks</h3>`, says: "headings: h3 “The marks” comes after h1"},
	{instead: ` role="img"`, by: ``, says: "pictures: <svg> has no role"},
	{instead: `<title>Marks</title>`, by: ``, says: "pictures: <svg> has no name"},
	{instead: `<desc>All of them.</desc>`, by: ``, says: "pictures: <svg> “Marks” has no description"},
	{instead: `<svg role="img"`, by: `<svg aria-hidden="true"`, says: "pictures: <svg> is hidden from ears and has text"},
	{instead: `<th scope="col">mark</th>`, by: `<td>mark</td>`, says: "tables: a table has no header cells"},
	{instead: `<th scope="row">pin</th>`, by: `<td>pin</td>`, says: "tables: a row has no header cell"},
	{instead: ` aria-label="Marks"`, by: ``, says: "tables: a table has no name"},
	{instead: ` role="region" aria-label="Marks"`, by: ``, says: "names: <div class=scroll> can be reached by the keyboard"},
	{instead: `One more`, by: `<a href="x"></a>One more`, says: "names: <a> has no name"},
	{instead: `One more`, by: `<button><svg aria-hidden="true"></svg></button>One more`, says: "names: <button> has no name"},
	{instead: `One more`, by: `<input>One more`, says: "names: <input> has no label"},
	{instead: `One more`, by: `<a href="#z">x</a>One more`, says: "names: a link to #z, which is not there"},
	{instead: `aria-labelledby="s"`, by: `aria-labelledby="t"`, says: "names: <section> is named by t, which is not there"},
	{instead: `<p id="p">`, by: `<p id="s">`, says: "ids: s stands twice"},
	{instead: `<main>`, by: `<div>`, says: "landmarks: 0 main"},
	{instead: ` role="region" aria-label="First sheet"`, by: ``, says: "landmarks: <article class=sheet> has text in no landmark"},
	{instead: `class="sheet"`, by: ``, says: "first: there is no h1 in a sheet"},
	{instead: `</header>`, by: `</header><p>Words</p>`, says: "first: “Words” comes before the finding"},
}

// Whatever somebody could not hear is said.
func TestToTheEar(t *testing.T) {
	b := browsertest.Start(t, "")
	for _, s := range toTheEar {
		p, file, _ := page(t, b, s.instead, s.by)
		require.NoError(t, p.Open(file))
		list, err := looked.Aloud(p)
		require.NoError(t, err)
		require.Contains(t, said(list), s.says, s.by)
	}
}

// What a page asks for, cries out and weighs is said; what photos weigh is not counted.
func TestQuietAndBytes(t *testing.T) {
	b := browsertest.Start(t, "")
	p, file, html := page(t, b, "One more", `<img alt="x" src="nowhere.png"><script>console.error("loud")</script>`+strings.Repeat(" ", 81_920)+`One more`)
	all, err := looked.Faults(p, file, html)
	require.NoError(t, err)
	require.Contains(t, said(all["quiet"]), "console: console.error: loud")
	require.Contains(t, said(all["quiet"]), "request: file://")
	require.Contains(t, said(all["bytes"]), "81920 at most")

	p, file, html = page(t, b, "One more", `<img alt="x" src="data:image/jpeg;base64,`+strings.Repeat("A", 81_920)+`">One more`)
	all, err = looked.Faults(p, file, html)
	require.NoError(t, err)
	require.Empty(t, all["bytes"])
}

// On paper the first sheet is whole, pictures, rows and headings are not parted, and pages
// are filled.
func TestOnPaper(t *testing.T) {
	if err := looked.Poppler(); err != nil {
		t.Skip(err)
	}
	b := browsertest.Start(t, "")
	for _, s := range []spoilt{
		{`is late</h1>`, `is late</h1><div style="height:400mm">x</div>`, "first sheet: takes 2 pages of A4", ""},
		{`<article class="sheet"`, `<article class="page"`, "first sheet: the first of the page is no article.sheet", ""},
		{`</svg></figure>`, `</svg><div style="height:300mm"></div><figcaption>Below</figcaption></figure>`, "cut: figure “Marks” begins on page 2 of A4 and goes on on page 3", ""},
		{`<tr><th scope="row">pin`, `<tr style="break-inside:auto"><th scope="row">pin<div style="height:400mm"></div>below`, "cut: tr “pinbelow” begins on page 1", ""},
		{`<h2 id="s">`, `<h2 id="s" style="break-after:page">`, "cut: heading “The marks” begins on page 1 of A4 and goes on on page 2", ""},
		{`<main>`, `<main style="break-before:page">`, "% of page 1 of 2 of A4 are empty", ""},
	} {
		p, file, html := page(t, b, s.instead, s.by)
		all, err := looked.Faults(p, file, html)
		require.NoError(t, err)
		require.Contains(t, said(all["A4 in pages"]), s.says, s.by)
	}
}
