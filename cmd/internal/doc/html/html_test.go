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
		doc.Table{Caption: name, Header: []string{name, name}, Rows: [][]string{{name, name}}},
		doc.Figure{SVG: []byte("<svg></svg>"), Caption: name},
	}
	return string(html.Page{Title: name, Generator: name, Head: d, Main: d, Foot: d}.Write())
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
<h2 id="s1" dir="auto">Marks</h2>
<p>One.</p>
</section>
<section aria-labelledby="s2">
<h2 id="s2" dir="auto">Drive</h2>
<h3 dir="auto">Looks</h3>
</section>
`, got)
}
