// Package looked looks at a page in a browser as people do, and says what is wrong with it:
// on screens of every width, in the dark, in forced colours, read aloud, and on paper. An
// error is the browser's, the disk's or Poppler's; what is wrong with a page is none.
package looked

import (
	_ "embed"
	"fmt"
	"slices"

	"evendrop/cmd/internal/browser"
)

// Fault is something wrong with a page.
type Fault struct {
	Rule string // such as "sideways" or "contrast"
	What string
}

func (f Fault) String() string { return f.Rule + ": " + f.What }

// View is how somebody sees a page.
type View struct {
	Name string
	browser.Size
	browser.Media
}

// smallest is the smallest that letters of a picture may be on a screen, CSS pixels.
const smallest = 11.0

// Views are a desk, phones, a desk's page made twice as large (1.4.4 of WCAG22: half as many
// CSS pixels, each of two), a phone in the dark, one with colours of its owner's, and
// what goes on paper, before it is cut into pages.
var Views = []View{
	{"desk", browser.Size{Width: 1280, Height: 800}, browser.Media{}},
	{"phone", browser.Size{Width: 390, Height: 664, Scale: 2, Mobile: true}, browser.Media{}},
	{"small phone", browser.Size{Width: 320, Height: 568, Scale: 2, Mobile: true}, browser.Media{}},
	{"twice as large", browser.Size{Width: 640, Height: 400, Scale: 2}, browser.Media{}},
	{"dark", browser.Size{Width: 390, Height: 664, Scale: 2, Mobile: true}, browser.Media{Dark: true}},
	{"forced colours", browser.Size{Width: 390, Height: 664, Scale: 2, Mobile: true}, browser.Media{ForcedColours: true}},
	{"A4", browser.Size{Width: 695, Height: 1000}, browser.Media{Print: true}}, // the paper less margins of 13 mm, at 96 px an inch
	{"Letter", browser.Size{Width: 717, Height: 950}, browser.Media{Print: true}},
}

var (
	//go:embed rules.js
	rules string
	//go:embed structure.js
	structure string
)

// Show makes the view.
func (v View) Show(p *browser.Page) error {
	if err := p.Size(v.Size); err != nil {
		return err
	}
	return p.Media(v.Media)
}

// Faults is what is wrong with the open page as it is seen so: too wide, hidden, over one
// another, pale or small.
func (v View) Faults(p *browser.Page) (list []Fault, err error) {
	if err := v.Show(p); err != nil {
		return nil, err
	}
	letters := smallest
	if v.Print {
		letters = 0 // paper is held as near as one likes
	}
	err = p.Eval(fmt.Sprintf("%s(%d, %g)", rules, v.Width, letters), &list)
	return once(list), err
}

// Aloud is what is wrong with the open page for who hears it.
func Aloud(p *browser.Page) (list []Fault, err error) {
	err = p.Eval(structure+"()", &list)
	return once(list), err
}

// quiet is what the open page said on the console and asked for, which is nothing.
func quiet(p *browser.Page) (list []Fault) {
	for _, said := range p.Errors() {
		list = append(list, Fault{"console", said})
	}
	for _, url := range p.Requests() {
		list = append(list, Fault{"request", url})
	}
	return list
}

// once leaves out what is said already.
func once(list []Fault) (kept []Fault) {
	for _, f := range list {
		if !slices.Contains(kept, f) {
			kept = append(kept, f)
		}
	}
	return kept
}
