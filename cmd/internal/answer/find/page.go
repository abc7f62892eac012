package find

import (
	"cmp"
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/answer/sheet"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/html"
	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job/record"
	"evendrop/tdc/mark"
)

// Page is the answer for a browser and for paper: the customer's sheet, and behind it
// everything in full.
type Page struct {
	Answer
	Version string // of the program
}

//go:embed page.css
var pageCSS string

// HTML is the page: one file that asks for nothing and needs no script. An error is of a
// picture that cannot be drawn.
func (p Page) HTML() ([]byte, error) { return p.After(nil, nil) }

// After is the page of what was measured again, with a document that goes before the rest
// of what is behind the sheet; HTML's where again is nil. An error is of a picture that
// cannot be drawn.
func (p Page) After(again *sheet.Again, first doc.Document) ([]byte, error) {
	front, err := p.Front(again)
	if err != nil {
		return nil, err
	}
	p.All = p.Isolated()
	p.EveryReading = true
	pen, shown := p.drawn(&err), p.onSheet()
	rest := func(name string, n int, caption string) []doc.Block {
		if name == shown {
			return nil
		}
		return pen(name, n, caption)
	}
	title := p.Job.Title
	if title == "" {
		title = "Timing check"
	}
	return html.Page{
		Title: legible.Undirected(title), Generator: p.Version, Style: draw.Style() + pageCSS,
		Articles: []html.Article{{Class: "sheet", Is: front}, {Class: "appendix", Is: append(first, p.behind(rest)...)}},
	}.Write(), err
}

// Front is the customer's sheet alone; of what was measured again where again is not nil.
// An error is of a picture that cannot be drawn.
func (p Page) Front(again *sheet.Again) (doc.Document, error) {
	p.All = p.Isolated()
	var err error
	s := sheet.Sheet{All: p.All, Warnings: len(p.warnings()), Evidence: p.evidence(&err), Again: again}
	d, failed := s.Document()
	return d, cmp.Or(failed, err)
}

// behind is what is behind the sheet.
func (p Page) behind(pen drawing) doc.Document {
	var d doc.Document
	d.Section("In full")
	d.Add(p.said()...)
	d.Add(photos(p.Job.Photos)...)
	d.Add(p.full(pen)...)
	d.Section("Before you turn an engine")
	var cautions doc.Facts
	for _, c := range caution.List {
		cautions = append(cautions, doc.Fact{What: c.Hazard, Is: c.Advice})
	}
	d.Add(cautions)
	d.SayAs(doc.Quiet, "Made by "+p.Version+".")
	return d
}

// evidence is the picture of what was read or seen, for a sheet without marks.
func (p Page) evidence(failed *error) doc.Document {
	caption := ""
	if left := len(p.Throws) - 1 - mostThrows; left > 0 {
		p.Throws = worstThrows(p.Throws)
		caption = fmt.Sprintf("Those that are farthest off; the other %d are in the table behind this sheet.", left)
	}
	pen := p.drawn(failed)
	for _, name := range []string{picture.Throws, picture.Curve, picture.Observations} {
		if figure := pen(name, 0, map[string]string{picture.Throws: caption}[name]); figure != nil {
			return figure
		}
	}
	return nil
}

// mostThrows is how many throws a sheet has room to draw.
const mostThrows = 4

// worstThrows is the throw that the others are measured from, and those that are farthest
// off, in the order of the cylinders.
func worstThrows(all []mark.JudgedThrow) []mark.JudgedThrow {
	off := func(t mark.JudgedThrow) float64 { return math.Abs(float64(t.Angle)) }
	worst := slices.SortedFunc(slices.Values(all[1:]), func(a, b mark.JudgedThrow) int { return cmp.Compare(off(b), off(a)) })[:mostThrows]
	least := off(worst[mostThrows-1])
	return append(all[:1:1], slices.DeleteFunc(slices.Clone(all[1:]), func(t mark.JudgedThrow) bool { return off(t) < least })...)
}

// photos are what somebody took, under a heading of their own.
func photos(list []record.Photo) (d doc.Document) {
	if len(list) == 0 {
		return nil
	}
	d.Section("Photos")
	for _, p := range list {
		d.Add(doc.Photo{Data: p.Data, MIME: string(p.Kind), Width: p.Width, Height: p.Height, Shows: cmp.Or(p.Shows, "a photo")})
	}
	return d
}

// Picture draws one of picture.Names as SVG; those of readings and lobes are of the n-th
// cylinder, Lean of the n-th lobe. An answer that has nothing to show in it is an error.
func (f Answer) Picture(name string, n int) ([]byte, error) { return f.book().Draw(name, n) }

// book is what the pictures are drawn from.
func (f Answer) book() picture.Book {
	b := picture.Book{
		Bench: f.Bench(), Results: f.Results, Drive: f.Job.Drive, Marks: f.Marks, Lobes: f.Lobes, Diagnosis: f.Diagnosis,
		Trend: f.trend, Headline: f.Headline(), Throws: f.Throws,
	}
	b.Limits.Throw, b.Limits.Crown = f.Job.Setup.Engine.ThrowLimit, f.Job.Setup.Engine.CrownLimit
	return b
}

// drawing draws a figure of the n-th cylinder, or lobe, and nothing where there is none.
type drawing func(name string, n int, caption string) []doc.Block

// plotted draws what reads well in characters, so many columns wide.
func (f Answer) plotted(width int) drawing {
	b := f.book()
	return func(name string, n int, _ string) []doc.Block {
		if text, err := b.Plot(name, n, width); err == nil && text != "" {
			return []doc.Block{doc.Figure{Text: text}}
		}
		return nil
	}
}

func (draw drawing) figure(d *doc.Document, name, caption string) { d.Add(draw(name, 0, caption)...) }

// readings adds the pictures of a cylinder's readings, where panels of all do not do as
// well (of the first one, where its answer carries a warning), and of what was seen without a depth.
func (draw drawing) readings(d *doc.Document, f Answer, n int) {
	if len(f.Throws) == 0 || f.book().InFull(n) && (n > 0 || len(f.Warnings(f.Results[n])) > 0) {
		for _, name := range []string{picture.Curve, picture.Residuals, picture.Midpoints} {
			d.Add(draw(name, n, captions[name])...)
		}
	}
	d.Add(draw(picture.Observations, n, captions[picture.Observations])...)
}

// lobes adds the pictures of every cylinder's lobes, and of every lobe.
func (draw drawing) lobes(d *doc.Document, f Answer) {
	for n := range f.Results {
		d.Add(draw(picture.Lobes, n, captions[picture.Lobes])...)
	}
	caption := captions[picture.Lean] // said once
	for n, m := range f.Lobes {
		if figure := draw(picture.Lean, n, strings.TrimSpace(caption+" "+picture.LeanSays(m))); figure != nil {
			d.Add(figure...)
			caption = ""
		}
	}
}

// captions are of the pictures that the text beside them does not explain.
var captions = map[string]string{
	picture.Observations: "A bar goes from the first angle to the last, an arrow the way the crank was turned. TDC should be half-way; " +
		"the line there is what the protractor and the eye leave open. Turned one way, a dwell comes late, and lash moves it; turned both ways that cancels.",
	picture.Cylinders: "Scatter that is alike in all cylinders is the instruments'. A step at TDC, an arch or an S in one cylinder alone " +
		"is its own; in all of them it is the engine's dimensions or the protractor. A point crossed out, or an arrow at the edge, does not fit.",
	picture.Throws: ofBars, picture.Crowns: ofBars, picture.Marks: ofBars,
	picture.Curve: "A point is a reading; its bars are the instruments' own ±, where that is wider than the point. The line is the motion of crank and rod fitted to all of them.",
	picture.Residuals: "Most bars should reach the line. An arch points to the gauge's scale, stroke or rod; a step at TDC to lash; " +
		"an S to an offset; one point alone to a bad reading.",
	picture.Midpoints: "Half-way between two angles of equal depth. Points that come nearer as the drop grows " +
		"point to lash, those that drift to an offset or a protractor off its centre.",
	picture.Lobes: "A point is a reading. A full bar shows for how long the readings are above the checking lift, a hollow one is the card's. " +
		"The stroke across it is the centre. Bars of one length that stand apart point to a moved cam; bars of unlike length, " +
		"about one centre, to lash, wear or another card.",
	picture.Lean: "Half-way between two angles at which the lobe lifts equally. A bar is the ± of a middle, and most of it moves " +
		"all points together. A lobe with like flanks makes a line that stands upright; a point crossed out lies apart, and is to be read again.",
}

const ofBars = "The box is what is allowed, the line across a sign its 95 % interval."

// onSheet is the name of the picture of several cylinders that is on the sheet, and so not
// drawn again behind it: the table there has every cylinder, also those that the sheet has
// no room for.
func (p Page) onSheet() string {
	if len(p.Marks) == 0 && p.book().NothingIn(picture.Throws, 0) == nil {
		return picture.Throws
	}
	return ""
}

// drawn draws what there is to draw, and keeps the first error. The page has the
// style sheet.
func (p Page) drawn(failed *error) drawing {
	b := p.book()
	return func(name string, n int, caption string) []doc.Block {
		if b.NothingIn(name, n) != nil {
			return nil
		}
		svg, err := b.Draw(name, n)
		if err != nil {
			*failed = err
			return nil
		}
		return []doc.Block{doc.Figure{SVG: draw.Lean(draw.Unstyled(svg)), Caption: caption}}
	}
}
