package looked

import (
	"fmt"
	"regexp"

	"evendrop/cmd/internal/browser"
)

// most is how many bytes a page may have, photos aside: it goes through any mail and is
// soon there on any phone.
const most = 80 * 1024

// photo is a picture of dots inside a page.
var photo = regexp.MustCompile(`data:image/(?:jpeg|png|webp);base64,[A-Za-z0-9+/=]*`)

// Faults is all that is wrong with a page in a file, by who sees it: on screens, aloud, in
// its bytes, and on paper, where that can be looked at.
func Faults(p *browser.Page, file string, html []byte) (map[string][]Fault, error) {
	all := map[string][]Fault{}
	if n := len(photo.ReplaceAll(html, nil)); n > most {
		all["bytes"] = []Fault{{"bytes", fmt.Sprintf("%d, %d at most", n, most)}}
	}
	if err := p.Open(file); err != nil {
		return nil, err
	}
	for _, v := range Views {
		list, err := v.Faults(p)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", v.Name, err)
		}
		all[v.Name] = list
	}
	var err error
	if all["aloud"], err = Aloud(p); err != nil {
		return nil, err
	}
	all["quiet"] = quiet(p)
	return all, onPaper(p, file, all)
}

// onPaper adds what is wrong on paper.
func onPaper(p *browser.Page, file string, all map[string][]Fault) error {
	for _, on := range []browser.Paper{browser.A4, browser.Letter} {
		list, err := firstSheet(p, on)
		if err == nil && Poppler() == nil {
			var more []Fault
			more, err = broken(p, on)
			list = append(list, more...)
			if err == nil {
				err = p.Open(file)
			}
		}
		if err != nil {
			return fmt.Errorf("%s: %w", on.Name, err)
		}
		all[on.Name+" in pages"] = list
	}
	return nil
}

// broken is what is wrong with where pages end. The page has to be opened again.
func broken(p *browser.Page, on browser.Paper) ([]Fault, error) {
	pdf, err := Print(p, on)
	if err != nil {
		return nil, err
	}
	list, err := blank(pdf, on)
	if err != nil {
		return nil, err
	}
	more, err := cut(p, on)
	return append(list, more...), err
}
