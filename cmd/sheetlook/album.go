package main

import (
	"fmt"
	"os"
	"path/filepath"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/looked"
)

// seen is a page as it was seen.
type seen struct {
	Name, Shows string
	Bytes       int
	Screens     []shot
	Papers      []paper
	Faults      map[string][]looked.Fault
}

// shot is a picture in a file.
type shot struct{ View, File string }

// paper is a page printed, and its sheets where they could be drawn.
type paper struct {
	Name, File string
	Sheets     int
	Shots      []shot
}

// album is where a page's pictures go.
type album struct {
	page *browser.Page
	dir  string
	seen
}

// fill writes the page, its pictures and its prints, and notes what is wrong.
func (a *album) fill(html []byte) (err error) {
	file, err := a.keep(".html", html)
	if err != nil {
		return err
	}
	file = filepath.Join(a.dir, file)
	if a.Faults, err = looked.Faults(a.page, file, html); err != nil {
		return err
	}
	if err := a.page.Open(file); err != nil {
		return err
	}
	for _, v := range looked.Views {
		if err := a.screen(v); err != nil {
			return err
		}
	}
	for _, on := range []browser.Paper{browser.A4, browser.Letter} {
		if err := a.print(on); err != nil {
			return err
		}
	}
	return nil
}

// keep writes a file of this page's and returns its name.
func (a *album) keep(ending string, data []byte) (string, error) {
	name := a.Name + ending
	return name, os.WriteFile(filepath.Join(a.dir, name), data, 0o666)
}

// screen takes the page as it is seen so.
func (a *album) screen(v looked.View) error {
	if v.Print {
		return nil // which is on paper
	}
	v.Scale = 1 // a long page of more dots takes half a minute to draw
	if err := v.Show(a.page); err != nil {
		return err
	}
	data, err := a.page.Screenshot()
	if err != nil {
		return err
	}
	file, err := a.keep(fmt.Sprintf("-%d-%s.png", v.Width, ending(v)), data)
	a.Screens = append(a.Screens, shot{fmt.Sprintf("%s, %d px", v.Name, v.Width), file})
	return err
}

// ending is a view's name in a file's.
func ending(v looked.View) string {
	switch {
	case v.Dark:
		return "dark"
	case v.ForcedColours:
		return "forced"
	}
	return "light"
}

// print prints the page, and draws its sheets where that can be.
func (a *album) print(on browser.Paper) error {
	pdf, err := looked.Print(a.page, on)
	if err != nil {
		return err
	}
	file, err := a.keep("-"+on.Name+".pdf", pdf)
	if err != nil {
		return err
	}
	printed := paper{Name: on.Name, File: file, Sheets: looked.Sheets(pdf)}
	if looked.Poppler() == nil {
		if printed.Shots, err = a.sheets(pdf, on); err != nil {
			return err
		}
	}
	a.Papers = append(a.Papers, printed)
	return nil
}

// sheets draws a print's sheets.
func (a *album) sheets(pdf []byte, on browser.Paper) (list []shot, err error) {
	const dotsAnInch = 60
	pages, err := looked.PNG(pdf, dotsAnInch)
	for i, data := range pages {
		file, err := a.keep(fmt.Sprintf("-%s-%02d.png", on.Name, i+1), data)
		if err != nil {
			return nil, err
		}
		list = append(list, shot{fmt.Sprintf("%s, page %d", on.Name, i+1), file})
	}
	return list, err
}
