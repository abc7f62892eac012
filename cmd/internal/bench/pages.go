package bench

import (
	"fmt"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
)

// picture draws one of the pictures.
func (c *Core) picture(r Request) (Response, error) {
	f, err := c.open.Found()
	if err != nil {
		return Response{}, err
	}
	of, what := len(f.Results), "cylinder"
	if r.Name == picture.Lean {
		of, what = len(f.Lobes), "lobe"
	}
	if r.N < 0 || r.N >= of {
		return Response{}, fmt.Errorf("there is no %s %d to draw", what, r.N)
	}
	svg, err := f.Picture(r.Name, r.N)
	return Response{Picture: string(svg)}, err
}

// sheet is the customer's sheet, photos in it.
func (c *Core) sheet(Request) (Response, error) {
	f, err := c.open.Found()
	if err != nil {
		return Response{}, err
	}
	if f.Job.Photos, err = c.open.paper.pictures(f.Job.Photos); err != nil {
		return Response{}, err
	}
	page, err := find.Page{Answer: f, Version: c.Version, Framed: true}.HTML()
	return Response{Page: string(page)}, err
}

// details is the whole answer as a document.
func (c *Core) details(Request) (Response, error) {
	f, err := c.open.Found()
	if err != nil {
		return Response{}, err
	}
	f.Details, f.EveryReading, f.OnPage = true, true, true
	out := Response{Document: blocks(f.Document(true))}
	legibly(out.Document)
	return out, nil
}

// roles and rows are what a document's are called over the border.
var (
	roles = map[doc.Role]string{doc.Finding: "finding", doc.Warning: "warning", doc.Caution: "caution", doc.Quiet: "quiet", doc.Never: "never"}
	rows  = map[doc.State]string{doc.Within: "within", doc.Outside: "outside", doc.TooClose: "close", doc.Doubtful: "doubtful"}
)

// blocks is a document; a kind of block that the border has not is left out.
func blocks(d doc.Document) []Block {
	list := []Block{}
	for _, one := range d {
		if b := block(one); b.Kind != "" {
			list = append(list, b)
		}
	}
	return list
}

func block(one doc.Block) Block {
	switch b := one.(type) {
	case doc.Heading:
		return Block{Kind: "heading", Level: b.Level, Text: b.Text}
	case doc.Paragraph:
		return Block{Kind: "paragraph", Role: roles[b.Role], Text: b.Text}
	case doc.List:
		return Block{Kind: "list", Role: roles[b.Role], Ordered: b.Ordered, Items: b.Items}
	case doc.Table:
		return table(b)
	case doc.Facts:
		out := Block{Kind: "facts"}
		for _, f := range b {
			out.Rows = append(out.Rows, []string{f.What, f.Is})
		}
		return out
	case doc.Figure:
		if len(b.SVG) == 0 {
			return Block{Kind: "lines", Text: legible.Text(b.Text)}
		}
		return Block{Kind: "figure", Text: b.Caption, SVG: string(b.SVG)}
	case doc.Verbatim:
		return Block{Kind: "lines", Text: string(b)}
	}
	return Block{}
}

func table(t doc.Table) Block {
	out := Block{Kind: "table", Text: t.Caption, Header: t.Header, Rows: t.Rows}
	for i := range t.Rows {
		out.States = append(out.States, rows[t.State(i)])
	}
	return out
}
