// Package html writes a document for a browser and for paper.
package html

import (
	"bytes"
	"fmt"
	"html"
	"slices"
	"strings"
	"unicode/utf8"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
)

// part is the blocks of one part of a page as HTML, every section in an element of its own,
// named with a prefix. Words are escaped; a figure's SVG is taken as it is, since the program
// drew it.
func part(d doc.Document, prefix string) []byte {
	w := writer{prefix: prefix}
	w.all(d)
	return w.Bytes()
}

// all writes blocks, and closes the last section.
func (w *writer) all(d doc.Document) {
	for i, b := range d {
		if few := figures(d[i:]); few > 1 && (i == 0 || figures(d[i-1:]) == 0) {
			w.WriteString("<div class=\"figures\">\n")
		}
		w.write(b)
		if figures(d[i:]) == 1 && i > 0 && figures(d[i-1:]) > 1 {
			w.WriteString("</div>\n")
		}
	}
	w.end()
}

// figures is how many figures a document begins with: several stand side by side.
func figures(d doc.Document) int {
	for i, b := range d {
		if _, is := b.(doc.Figure); !is {
			return i
		}
	}
	return len(d)
}

// direction is the attribute by which text is written as its first letter is; nothing of
// text that runs from left to right either way.
func direction(text string) string {
	if mayRunLeft(text) {
		return ` dir="auto"`
	}
	return ""
}

// mayRunLeft tells whether a text has a letter that may run from right to left.
func mayRunLeft(text string) bool {
	const firstToRunLeft = '\u0590' // Hebrew; those before run right (UAX9, Bidi_Class)
	return strings.ContainsFunc(setApart.Replace(text), func(r rune) bool {
		return r >= firstToRunLeft && r != '…' && r != '−' && r != '→' && r != '←'
	})
}

// setApart takes away what keeps the direction of a name to itself.
var setApart = strings.NewReplacer("\u2068", "", "\u2069", "")

// Escape is text for an element or a quoted attribute. Where nothing runs to the left, no
// name has to be kept from turning the others round.
func Escape(text string) string {
	if text = legible.Directed(text); !mayRunLeft(text) {
		text = setApart.Replace(text)
	}
	return html.EscapeString(text)
}

// writer keeps whether a section is open.
type writer struct {
	bytes.Buffer
	prefix   string // of the names of sections
	section  bool
	sections int
}

// end closes an open section.
func (w *writer) end() {
	if w.section {
		w.WriteString("</section>\n")
	}
	w.section = false
}

func (w *writer) write(block doc.Block) {
	switch b := block.(type) {
	case doc.Heading:
		w.heading(b)
	case doc.Paragraph:
		w.put("<p%s>%s</p>\n", class(roles[b.Role]), Escape(b.Text))
	case doc.List:
		w.list(b)
	case doc.Table:
		w.table(b)
	case doc.Facts:
		w.WriteString("<dl>")
		for _, f := range b {
			w.put(`<div><dt>%s<dd%s>%s</div>`, Escape(f.What), direction(f.Is), Escape(f.Is))
		}
		w.WriteString("</dl>\n")
	case doc.Figure:
		w.figure(b)
	case doc.Banner:
		w.banner(b)
	case doc.Numbers:
		w.numbers(b)
	case doc.Beside:
		w.beside(b)
	case doc.Photo:
		w.photo(b)
	case doc.Verbatim:
		w.put("<pre>%s</pre>\n", html.EscapeString(legible.Text(string(b))))
	}
}

func (w *writer) put(format string, args ...any) { fmt.Fprintf(w, format, args...) }

// heading begins a section with its heading as the name.
func (w *writer) heading(h doc.Heading) {
	if h.Level != 2 {
		w.put("<h%d%s%s>%s%s</h%d>\n", h.Level, class(states[h.State]), direction(h.Text), sign(h.State), Escape(h.Text), h.Level)
		return
	}
	w.end()
	w.section = true
	w.sections++
	id := fmt.Sprintf("%s%d", w.prefix, w.sections)
	w.put("<section aria-labelledby=\"%s\">\n<h2 id=\"%s\"%s>%s</h2>\n", id, id, direction(h.Text), Escape(h.Text))
}

func (w *writer) list(l doc.List) {
	kind := "ul"
	if l.Ordered {
		kind = "ol"
	}
	w.put("<%s%s>", kind, class(roles[l.Role]))
	for i, item := range l.Items {
		w.put("<li>%s%s</li>", sign(l.State(i)), Escape(item))
	}
	w.put("</%s>\n", kind)
}

// figure is the picture under its caption's name.
func (w *writer) figure(f doc.Figure) {
	w.put("<figure>%s", f.SVG)
	if f.Caption != "" {
		w.put("<figcaption>%s</figcaption>", Escape(f.Caption))
	}
	w.WriteString("</figure>\n")
}

// table can be scrolled sideways where it may be wider than a screen. Ends of cells, rows and
// bodies, and what a cell heads, a column where only heads stand beside it, are said by what
// comes next to them (WHATWG 13.1.2.4, 4.9.12.2).
func (w *writer) table(t doc.Table) {
	name := ` aria-label="` + Escape(t.Caption) + `"`
	if !narrow(t) {
		w.put(`<div class="scroll" tabindex="0" role="region"%s>`, name)
		defer w.WriteString("</div>\n")
		name = ""
	}
	w.put("<table%s>\n<thead><tr>", name)
	for _, cell := range t.Header {
		w.put(`<th>%s`, Escape(cell))
	}
	w.WriteString("\n<tbody>")
	for i, row := range t.Rows {
		w.row(row, t.State(i))
	}
	w.WriteString("</table>\n")
}

// narrow tells whether a table is never wider than a small phone: cells break between words,
// and 30 letters with room between columns take 250 of its 288 px.
func narrow(t doc.Table) bool {
	widest := make([]int, len(t.Header))
	widest[0] = 11 // the style sheet's least, and names break anywhere
	for _, row := range slices.Concat(t.Rows, [][]string{t.Header}) {
		for k, cell := range row[min(1, len(row)):] {
			for word := range strings.FieldsSeq(cell) {
				widest[k+1] = max(widest[k+1], utf8.RuneCountInString(word))
			}
		}
	}
	letters := 0
	for _, w := range widest {
		letters += w
	}
	return letters <= 30
}

// row is a row of a table; of one that was judged the last cell is its verdict.
func (w *writer) row(cells []string, state doc.State) {
	w.put("<tr%s>", class(states[state]))
	for k, cell := range cells {
		switch judged := state == doc.Within || state == doc.Outside || state == doc.TooClose; {
		case k == 0:
			w.put(`<th%s>%s`, direction(cell), Escape(cell))
		case judged && k == len(cells)-1:
			w.put(`<td class="badge">%s`, Escape(cell))
		default:
			w.put("<td>%s", Escape(cell))
		}
	}
	w.WriteString("\n")
}

// roles are the classes of the style sheet.
var roles = map[doc.Role]string{
	doc.Finding: "finding", doc.Warning: "warning", doc.Caution: "caution", doc.Quiet: "quiet", doc.Never: "never",
}

// class is the attribute of a class; nothing of none.
func class(name string) string {
	if name == "" {
		return ""
	}
	return fmt.Sprintf(` class="%s"`, name)
}

// states are the classes of what was judged; each also has its word.
var states = map[doc.State]string{doc.Within: "within", doc.Outside: "outside", doc.TooClose: "close", doc.Doubtful: "doubtful"}

// Page is a whole page that asks for nothing and needs no script.
type Page struct {
	Title, Generator string
	Style            string // CSS of the program's own
	WholeStyle       bool   // its rules of classes that the page has not stay too
	Articles         []Article
}

// Article is a part of a page that is read by itself, with the name that the style sheet
// knows it by.
type Article struct {
	Class string
	Is    doc.Document
}

// policy lets a page load nothing at all.
const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"

// Write is the page.
func (p Page) Write() []byte {
	var body, out strings.Builder
	for _, a := range p.Articles {
		fmt.Fprintf(&body, "<article class=\"%s\">\n%s</article>\n", a.Class, part(a.Is, a.Class))
	}
	shared, style := draw.Shared(body.String()), p.Style
	if !p.WholeStyle {
		style = needed(style, shared)
	}
	fmt.Fprintf(&out, `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="%s">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="%s">
<title>%s</title>
<style>%s</style>
</head>
<body>
<main>
%s</main>
</body>
</html>
`, policy, Escape(p.Generator), Escape(p.Title), style, shared)
	return []byte(out.String())
}
