package recheck

import (
	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/answer/sheet"
	"evendrop/cmd/internal/chart/bars"
	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
)

// Page is both jobs as a sheet for a customer, and what is behind it in full. An error is
// of a picture or a page that cannot be drawn.
func (r Recheck) Page(version string) ([]byte, error) {
	svg, err := r.picture()
	if err != nil {
		return nil, err
	}
	var d doc.Document
	d.Section("Before and after")
	d.Add(svg...)
	d.Add(r.said(false)...)
	d.Say("True top dead centre stands elsewhere on the protractor each time that one is set up, so it is not compared.")
	return find.Page{Answer: r.After, Version: version}.After(r.again(), d)
}

// Front is the sheet alone. An error is of a picture that cannot be drawn.
func (r Recheck) Front() (doc.Document, error) { return find.Page{Answer: r.After}.Front(r.again()) }

// again is what a sheet has to know of before.
func (r Recheck) again() *sheet.Again {
	return &sheet.Again{Before: r.Before.Isolated(), Changes: r.Marks, Back: r.back()}
}

// picture is both states of each mark on one scale; nothing where none was judged in both.
func (r Recheck) picture() ([]doc.Block, error) {
	p := bars.Picture{
		Title:       "How far each mark is off, before and now",
		Description: "A bar a mark on one scale of crank degrees, dashed as it was before; zero is where each mark should be, later is to the right.",
		Counted:     picture.OffPlace,
	}
	for _, c := range r.Marks {
		if c.After.OnlyMeasured() || c.Before.OnlyMeasured() {
			continue
		}
		b := picture.MarkBar(c.After)
		b.Was = &bars.Was{Measured: picture.MarkMeasured(c.Before), Says: "before: " + words.Off(c.Before.Angle, c.Before.Expanded)}
		p.Bars = append(p.Bars, b)
	}
	if len(p.Bars) == 0 {
		return nil, nil
	}
	svg, err := p.SVG()
	return []doc.Block{doc.Figure{SVG: draw.Lean(draw.Unstyled(svg))}}, err
}
