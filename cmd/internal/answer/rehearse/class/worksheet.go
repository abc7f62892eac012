package class

import (
	_ "embed"
	"fmt"

	"evendrop/cmd/internal/answer/motion"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/protractor"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/html"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

//go:embed sheet.css
var sheetCSS string

// sheets is the page to print: how it is done, and a sheet an engine.
func (c Class) sheets() ([]byte, error) {
	var head, main doc.Document
	head.Title("Find true TDC")
	head.Say("The piston hardly moves near the top, so the highest reading says little. Half-way between two angles at which it is equally deep says much.")
	head.ListAs(doc.Plain, []string{
		"Read each protractor to half a degree or better: long lines are 5 degrees, middle ones 1, short ones half. The needle's tip says where.",
		"Numbers grow in the running direction and begin again after 360: 355 and 5 are ten degrees apart, with 0 half-way.",
		"For each depth take half-way between rising and falling. Turned one way only, lash makes half-way come late in that direction; turned both ways it cancels.",
		"Say how sure you are: true TDC should lie within your ± in 95 of 100 such jobs. A ± that is too small is as wrong as one that tells nothing.",
		"Say whether the pin is within its limit or outside.",
	})
	why, err := halfWayPicture()
	if err != nil {
		return nil, err
	}
	head.Add(doc.Figure{SVG: draw.Unstyled(why), Caption: "An engine with more lash than it should have, turned one way and the other."})
	head.SayAs(doc.Quiet, invented+caution.Line)
	for _, e := range c.engines {
		if err := e.sheet(&main); err != nil {
			return nil, err
		}
	}
	return c.page("Find true TDC: sheets for a class", head, main), nil
}

// halfWayPicture is why it is done so, on an engine that is none of the class.
func halfWayPicture() ([]byte, error) {
	m, err := motion.Of(motion.Question{Engines: motion.Engines{Stroke: []geometry.Length{86}, Rod: []geometry.Length{146}}, From: -30, To: 30, By: 5})
	if err != nil {
		return nil, err
	}
	chords, err := m.Chords(m.SeenLash())
	if err != nil {
		return nil, err
	}
	return chords.Picture()
}

// invented is on both pages.
const invented = "Everything here is invented. "

// page is one of the class's pages.
func (c Class) page(title string, head, main doc.Document) []byte {
	return html.Page{Title: title, Generator: "rehearse --class, " + c.Version, Style: sheetCSS + draw.Style(), Articles: []html.Article{{Class: "head", Is: head}, {Class: "engines", Is: main}}}.Write()
}

// sheet is an engine's sheet.
func (e engine) sheet(d *doc.Document) error {
	d.Section(e.name())
	d.Say(e.engine())
	d.Say(e.pin())
	for n, h := range e.Held {
		svg, err := protractor.Picture{
			Title: fmt.Sprintf("%s, protractor %d", e.name(), n+1), At: h.Pointer,
			Description: "Part of a protractor with a needle, to be read by eye; if you cannot see it, ask for the figure in the key.",
		}.SVG()
		if err != nil {
			return err
		}
		d.Add(doc.Figure{SVG: draw.Unstyled(svg), Caption: fmt.Sprintf("%d. %s, at %s mm: ________ deg", n+1, held(h), words.Fixed(h.Depth, 2))})
	}
	d.Table(e.halfWays())
	d.Add(doc.Facts{{What: "Name"}, {What: "TDC, deg"}, {What: "±, deg"}, {What: "Pin: within or outside"}})
	return nil
}

func (e engine) name() string { return fmt.Sprintf("Engine %d", e.Number) }

// engine is what a learner is told of engine and instruments.
func (e engine) engine() string {
	a := e.Job.Answer
	return fmt.Sprintf("Stroke %s mm, rod %s mm. Dial gauge through the plug hole, good to 0.02 mm, its depth growing as the piston goes down; protractor good to 0.25 deg. "+
		"More readings of it, taken at other depths, are in the folder %s.", words.Plain(a.Stroke), words.Plain(a.Rod), twoDigits(e.Number))
}

// pin is how the locking pin was read.
func (e engine) pin() string {
	var read []string
	for _, angle := range e.Job.Pin {
		read = append(read, words.Fixed(angle, 1))
	}
	return fmt.Sprintf("With the locking pin in, the protractor showed %s deg. It should be at TDC; its limit is %s deg either way.", words.And(read), words.Plain(practice.PinLimit))
}

// held is how the crank came where it stands.
func held(h practice.Held) string {
	side := "rising"
	if h.Falling {
		side = "falling"
	}
	return words.Capital(h.Turn.String()) + ", " + side
}

// halfWays is the table to be filled in, a row a pair of readings.
func (e engine) halfWays() doc.Table {
	t := doc.Table{Caption: "Half-way between rising and falling", Header: []string{"Pair", "turned", "gauge, mm", "rising, deg", "falling, deg", "half-way, deg"}}
	for n := 0; n+1 < len(e.Held); n += 2 {
		h := e.Held[n]
		t.Add(doc.Unjudged, fmt.Sprintf("%d and %d", n+1, n+2), h.Turn.String(), words.Fixed(h.Depth, 2), "", "", "")
	}
	return t
}

// bothWays tells whether an engine was turned back as well.
func (e engine) bothWays() bool { return e.Held[len(e.Held)-1].Turn == evidence.Backward }
