package html_test

import (
	"bytes"
	"html/template"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/html"
	"evendrop/cmd/internal/legible"
)

// hostile are names that would be more than text if a writer let them.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onmouseover='x`, `&lt;b&gt;`, `&amp;amp;`, `a&b<c>d"e'f`,
	`</title><svg onload=x>`, `--><!--`, `]]>`, "`${x}`", `{{.}}`, "\u00a0\u2028", "\ufeff", "ñ 漢字 עברית العربية",
}

// An element's text and a quoted attribute come out as html/template of the
// standard library writes them, once entities are told alike.
func TestEscapesAsTheStandardLibraryDoes(t *testing.T) {
	for _, name := range hostile {
		var want bytes.Buffer
		page := template.Must(template.New("").Parse(`<p title="{{.}}">{{.}}</p>`))
		require.NoError(t, page.Execute(&want, legible.Line(name)))
		got := `<p title="` + html.Escape(name) + `">` + html.Escape(name) + `</p>`
		assert.Equal(t, alike(want.String()), alike(got), "%q", name)
	}
}

// alike writes the entities that either of the two uses in one way. html/template
// also writes plus and backtick as entities, against browsers of 2010.
func alike(text string) string {
	return strings.NewReplacer("&#43;", "+", "&#96;", "`").Replace(text)
}

// No block lets a name out of its place: but for the name, a page is the same
// whatever the name is.
func TestEveryBlockEscapes(t *testing.T) {
	want := named("x")
	for _, name := range hostile {
		assert.Equal(t, want, strings.ReplaceAll(named(name), html.Escape(name), "x"), "%q", name)
	}
}

// named is a page with a name in every place that takes one.
func named(name string) string {
	d := doc.Document{
		doc.Heading{Level: 1, Text: name}, doc.Heading{Level: 2, Text: name}, doc.Paragraph{Text: name},
		doc.List{Items: []string{name}}, doc.Facts{{What: name, Is: name}},
		doc.Table{Caption: name, Header: []string{name, name, strings.Repeat("wide", 8)}, Rows: [][]string{{name, name, ""}}}, // which is wide whatever the name
		doc.Figure{SVG: []byte("<svg></svg>"), Caption: name},
		doc.Heading{Level: 1, Text: name, State: doc.Outside}, doc.Banner{From: name, About: name, When: name},
		doc.Numbers{{What: name, Where: name, Value: name, Unit: name, Way: name, Half: name, Allow: name, Word: name, Was: &doc.Was{Says: name}, Notes: []string{name}}},
		doc.Beside{First: doc.Document{doc.Paragraph{Text: name}}, Second: doc.Document{doc.Heading{Level: 2, Text: name}}},
		doc.Photo{MIME: "image/png", Shows: name},
	}
	page := string(html.Page{Title: name, Generator: name, Articles: []html.Article{{Class: "a", Is: d}, {Class: "b", Is: d}}}.Write())
	return strings.NewReplacer(` class="wide"`, "", ` dir="auto"`, "").Replace(page) // by how long a value is, and where a name runs
}

// Marks that turn the direction of writing round are shown, not obeyed; letters of
// every script stay.
func TestDirectionIsLeftAlone(t *testing.T) {
	assert.Equal(t, `pin\u202e \u2066evil\u2069`, html.Escape("pin\u202e \u2066evil\u2069"))
	assert.Equal(t, "שלום", html.Escape("שלום"))
	assert.Equal(t, `\u001b[31m`, html.Escape("\x1b[31m"))
}

// Sections close, and each is named by its heading.
func TestSections(t *testing.T) {
	var d doc.Document
	d.Section("Marks")
	d.Say("One.")
	d.Section("Drive")
	d.Part("Looks")
	got := string(html.Write(d))
	assert.Equal(t, `<section aria-labelledby="s1">
<h2 id="s1">Marks</h2>
<p>One.</p>
</section>
<section aria-labelledby="s2">
<h2 id="s2">Drive</h2>
<h3>Looks</h3>
</section>
`, got)
}

// A row that was judged has its state as a class and its verdict as a word set apart;
// a doubtful one has the class alone.
func TestStatesOfRows(t *testing.T) {
	table := doc.Table{Header: []string{"Mark", "off", "verdict"}}
	table.Add(doc.Outside, "pin", "2.8", "outside")
	table.Add(doc.Unjudged, "notch", "0.1", "no limit given")
	table.Add(doc.Doubtful, "5", "1.0", "suspect")
	got := string(html.Write(doc.Document{table}))
	for _, row := range []string{
		"<tr class=\"outside\"><th>pin<td>2.8<td class=\"badge\">outside\n",
		"<tr><th>notch<td>0.1<td>no limit given\n",
		"<tr class=\"doubtful\"><th>5<td>1.0<td>suspect\n",
	} {
		assert.Contains(t, got, row)
	}
}

// Figures one after another stand side by side, and every element that is opened is
// closed, wherever they stand.
func TestFiguresSideBySide(t *testing.T) {
	figure, words := doc.Figure{SVG: []byte("<svg/>")}, doc.Paragraph{Text: "x"}
	for text, d := range map[string]doc.Document{
		"F": {figure}, "[FF]": {figure, figure}, "x[FFF]": {words, figure, figure, figure}, "FxF": {figure, words, figure},
		"[FF]x[FF]x": {figure, figure, words, figure, figure, words},
	} {
		got := strings.NewReplacer("<div class=\"figures\">\n", "[", "</div>\n", "]", "<figure><svg/></figure>\n", "F", "<p>x</p>\n", "x").Replace(string(html.Write(d)))
		assert.Equal(t, text, got)
	}
}

// A name that was set apart keeps its direction of writing to itself, where a letter has one
// that could turn the rest round; marks that do not pair are shown.
func TestIsolatedNamesStayApart(t *testing.T) {
	assert.Equal(t, "the \u2068שלום\u2069 is late", html.Escape("the "+legible.Isolated("שלום")+" is late"))
	assert.Equal(t, `a \u2069b\u2068`, html.Escape("a \u2069b\u2068"))
	assert.Equal(t, "\u2068שx\u2069, \u2068pin\u2069", html.Escape(legible.Isolated("ש\u202e\u2069x")+", "+legible.Isolated("pin")))
	assert.Equal(t, "\u2068&lt;ש&gt;\u2069", html.Escape(legible.Isolated("<ש>")))
	assert.Equal(t, "the pin is late", html.Escape("the "+legible.Isolated("pin")+" is late"))
}

// What has a letter that runs from right to left is written the way that its first letter
// runs; plain text says nothing of it.
func TestDirectionOfNames(t *testing.T) {
	write := func(name string) string {
		return string(html.Write(doc.Document{doc.Facts{{What: "On", Is: name}}}))
	}
	for _, name := range []string{"פין נעילה", "علامة", "\u2068פין\u2069", "pin \u2068פין\u2069"} {
		assert.Contains(t, write(name), `<dd dir="auto">`, "%q", name)
	}
	for _, name := range []string{"pin", "\u2068pin\u2069", "2.8 ± 0.4°, ñ Ω"} {
		assert.Contains(t, write(name), `<dd>`, "%q", name)
	}
}

// By hand: a table whose longest words have 30 letters between them, the first cell of a row
// taken as 11, has a name and no more; one that may be wider is a region that can be scrolled.
func TestNarrowTablesAreNoRegions(t *testing.T) {
	write := func(header ...string) string {
		return string(html.Write(doc.Document{doc.Table{Caption: "C", Header: header, Rows: [][]string{{strings.Repeat("x", 40), "12 34", "5"}}}}))
	}
	assert.True(t, strings.HasPrefix(write("Name", "words are broken apart", "at blanks"), `<table aria-label="C">`))
	assert.True(t, strings.HasPrefix(write("Name", "±", strings.Repeat("w", 17)), `<table aria-label="C">`), "11, 2 and 17")
	assert.True(t, strings.HasPrefix(write("Name", "±", strings.Repeat("w", 18)), `<div class="scroll" tabindex="0" role="region" aria-label="C"><table>`))
	assert.Equal(t, 1, strings.Count(write("Name", "±", strings.Repeat("w", 18)), "</div>"))
	assert.NotContains(t, write("Name", "a", "b"), "div")
}
