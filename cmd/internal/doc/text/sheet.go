package text

import (
	"strings"

	"evendrop/cmd/internal/doc"
)

// plain is a document with the blocks of a sheet as those that characters can show.
func plain(d doc.Document) (out doc.Document) {
	for _, block := range d {
		switch b := block.(type) {
		case doc.Banner:
			out.Say(joined(" · ", b.From, b.About, b.When))
		case doc.Numbers:
			out.Table(numbers(b))
		case doc.Beside:
			out.Add(plain(b.First)...)
			out.Add(plain(b.Second)...)
		case doc.Photo:
			out.Say("Photo: " + b.Shows)
		default:
			out.Add(block)
		}
	}
	return out
}

// numbers is a table of them.
func numbers(list doc.Numbers) doc.Table {
	t := doc.Table{Caption: "What was measured", Header: []string{"Measured", "is", "± (95 %)", "allowed", "state"}}
	for _, n := range list {
		allow := n.Allow
		if allow != "" {
			allow = "± " + allow
		}
		t.Add(n.State, joined(", ", append([]string{n.What, n.Where}, n.Notes...)...), joined(" ", n.Amount(), n.Way), n.Half, allow, joined(", ", n.Word, was(n)))
	}
	return t
}

// was is how a number stood before; "" without.
func was(n doc.Number) string {
	if n.Was == nil {
		return ""
	}
	return "was " + n.Was.Says
}

// joined is those of the texts that say something.
func joined(by string, texts ...string) string {
	var some []string
	for _, text := range texts {
		if text != "" {
			some = append(some, text)
		}
	}
	return strings.Join(some, by)
}
