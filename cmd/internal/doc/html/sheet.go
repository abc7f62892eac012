package html

import (
	"encoding/base64"
	"fmt"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
)

// sign is the shape of a state, which says nothing that the words beside it do not.
func sign(state doc.State) string {
	if state == doc.Unjudged || state == doc.Doubtful {
		return ""
	}
	return string(draw.SignSVG(state))
}

func (w *writer) banner(b doc.Banner) {
	w.WriteString(`<p class="banner">`)
	for _, text := range []string{b.From, b.About, b.When} {
		w.put(`<span dir="auto">%s</span> `, Escape(text))
	}
	w.WriteString("</p>\n")
}

// numbers are a list; each is read out as a sentence would be.
func (w *writer) numbers(list doc.Numbers) {
	w.WriteString("<ul class=\"numbers\">\n")
	for _, n := range list {
		w.number(n)
	}
	w.WriteString("</ul>\n")
}

func (w *writer) number(n doc.Number) {
	w.put("<li%s>", class(numberClass(n)))
	w.line("what", n.What)
	w.line("where", n.Where)
	w.WriteString(`<p class="amount">` + amount(n) + "</p>")
	w.half(n)
	if n.Word != "" {
		w.put(`<p class="state">%s%s</p>`, sign(n.State), Escape(n.Word))
	}
	if n.Was != nil {
		w.put(`<p class="was">%swas %s</p>`, sign(n.Was.State), Escape(n.Was.Says))
	}
	for _, note := range n.Notes {
		w.line("note", note)
	}
	w.WriteString("</li>\n")
}

// line is a paragraph with a class; nothing without a text.
func (w *writer) line(class, text string) {
	if text != "" {
		w.put(`<p class="%s" dir="auto">%s</p>`, class, Escape(text))
	}
}

// amount is the value, large, with its unit and its way.
func amount(n doc.Number) string {
	text := fmt.Sprintf(`<b>%s</b>`, Escape(n.Value))
	if len(n.Value) > wideValue {
		text = fmt.Sprintf(`<b class="wide">%s</b>`, Escape(n.Value))
	}
	switch n.Unit {
	case "":
	case "°":
		text += `<span class="deg">°</span>`
	default:
		text += " <span>" + Escape(n.Unit) + "</span>"
	}
	if n.Way != "" {
		text += " <i>" + Escape(n.Way) + "</i>"
	}
	return text
}

// wideValue is how many characters go into a column at full size.
const wideValue = 5

// half is the half-width and what is allowed.
func (w *writer) half(n doc.Number) {
	if n.Half == "" && n.Allow == "" {
		return
	}
	w.WriteString(`<p class="half">`)
	if n.Half != "" {
		w.put(`<b>± %s</b>`, Escape(n.Half))
	}
	if n.Allow != "" {
		w.put(` <span>allowed ± %s</span>`, Escape(n.Allow))
	}
	w.WriteString("</p>")
}

// numberClass is the state of a number, and whether its part is the likely one.
func numberClass(n doc.Number) string {
	name := states[n.State]
	if n.Likely {
		name += " likely"
	}
	return name
}

func (w *writer) beside(b doc.Beside) {
	w.WriteString("<div class=\"beside\">\n")
	for _, d := range []doc.Document{b.First, b.Second} {
		w.WriteString("<div>\n")
		w.all(d)
		w.WriteString("</div>\n")
	}
	w.WriteString("</div>\n")
}

// photo is in the page, which asks for nothing.
func (w *writer) photo(p doc.Photo) {
	w.put(`<figure class="photo"><img src="data:%s;base64,%s" width="%d" height="%d" alt="%s"><figcaption dir="auto">%s</figcaption></figure>`+"\n",
		p.MIME, base64.StdEncoding.EncodeToString(p.Data), p.Width, p.Height, Escape(p.Shows), Escape(p.Shows))
}
