package looked

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"os/exec"
	"regexp"

	"evendrop/cmd/internal/browser"
)

// errNoPoppler says that pages of paper cannot be looked at.
var errNoPoppler = errors.New("no pdftotext and pdftoppm here: where pages break was not looked at; on Debian: apt-get install poppler-utils")

// Poppler is nil where pages of paper can be looked at.
func Poppler() error {
	for _, tool := range []string{"pdftotext", "pdftoppm"} {
		if _, err := exec.LookPath(tool); err != nil {
			return errNoPoppler
		}
	}
	return nil
}

// aSheet is how a PDF of Chromium's begins a page.
var aSheet = regexp.MustCompile(`/Type\s*/Page\b`)

// Sheets is how many pages a PDF of Chromium's has.
func Sheets(pdf []byte) int { return len(aSheet.FindAll(pdf, -1)) }

// Print is the open page on paper, printed from a desk in the light.
func Print(p *browser.Page, on browser.Paper) ([]byte, error) {
	if err := Views[0].Show(p); err != nil {
		return nil, err
	}
	return p.PDF(on)
}

// firstSheet is what is wrong where the article that is the first sheet is not the first of
// the page, or does not fit on one sheet of the paper. It leaves the page as it was.
func firstSheet(p *browser.Page, on browser.Paper) ([]Fault, error) {
	var is bool
	if err := p.Eval(`(s => s && [...document.querySelectorAll('body *')].filter(e => !e.contains(s) && !s.contains(e)).every(e => s.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING))(document.querySelector('article.sheet')) || false`, &is); err != nil {
		return nil, err
	}
	if !is {
		return []Fault{{"first sheet", "the first of the page is no article.sheet"}}, nil
	}
	if err := p.Eval(`alone = new CSSStyleSheet(), alone.replaceSync('body :not(.sheet,:has(.sheet),.sheet *){display:none!important}'), document.adoptedStyleSheets = [alone], 0`, nil); err != nil {
		return nil, err
	}
	pdf, err := Print(p, on)
	if err := errors.Join(err, p.Eval(`document.adoptedStyleSheets = [], 0`, nil)); err != nil {
		return nil, err
	}
	if n := Sheets(pdf); n != 1 {
		return []Fault{{"first sheet", fmt.Sprintf("takes %d pages of %s", n, on.Name)}}, nil
	}
	return nil, nil
}

// tagging puts a word too small to see at the beginning and the end of what is not to be
// cut, in a line that is there already, and at all that stands below a heading.
const tagging = `(() => {
	let n = 0;
	const word = (what) => { const e = document.createElement('span'); e.textContent = ' qz' + n + what + ' '; e.style = 'font:1px monospace;letter-spacing:0;direction:ltr'; return e; };
	const lines = e => {
		const found = [], walker = document.createTreeWalker(e, NodeFilter.SHOW_TEXT);
		for (let node; node = walker.nextNode();) if (node.data.trim() && !node.parentElement.closest('svg') && node.parentElement.checkVisibility()) found.push(node);
		return found;
	};
	const drawn = (svg, what, low) => {
		const box = svg.viewBox.baseVal, e = document.createElementNS('http://www.w3.org/2000/svg', 'text');
		e.textContent = 'qz' + n + what;
		e.setAttribute('style', 'font:1px monospace;fill:#000');
		e.setAttribute('x', box.x + 1);
		e.setAttribute('y', low ? box.y + box.height - 2 : box.y + 2);
		svg.append(e);
	};
	const begin = (e, what) => { const svg = e.querySelector('svg[role=img]'), first = lines(e)[0]; if (svg && e.matches('figure')) drawn(svg, what, false); else if (first) first.before(word(what)); };
	const end = (e, what) => { const svg = e.querySelector('svg[role=img]'), last = lines(e).at(-1); if (last) last.after(word(what)); else if (svg) drawn(svg, what, true); };
	const high = cell => { const r = document.createRange(); r.selectNodeContents(cell); return r.getBoundingClientRect().height; };
	const said = [];
	for (const e of document.querySelectorAll('figure:has(svg),tr')) {
		const cells = [...(e.cells || [])].sort((a, b) => high(b) - high(a));
		said.push({is: e.localName, says: (e.querySelector('title,th,td,figcaption')?.textContent || '').trim().slice(0, 48)});
		begin(cells[0] || e, 'a'); end(cells[0] || e, 'b');
		n++;
	}
	for (const e of document.querySelectorAll('h2,h3')) {
		const below = [];
		for (let next = e.nextElementSibling; next && !/^h[1-3]$/.test(next.localName); next = next.nextElementSibling) if (next.checkVisibility()) below.push(next);
		if (!below.length) continue;
		said.push({is: 'heading', says: e.textContent.trim().slice(0, 48)});
		end(e, 'a'); for (const next of below) begin(next, 'b');
		n++;
	}
	return said;
})()`

// tagged is what was tagged, in the order of the tags' numbers.
type tagged struct{ Is, Says string }

// cut is what is parted by the end of a page: a picture, a row of a table, or a heading
// from what stands below it. The page has to be opened again afterwards.
func cut(p *browser.Page, on browser.Paper) (list []Fault, err error) {
	if err := p.Media(browser.Media{Print: true}); err != nil { // what is told to be hidden there gets no tag
		return nil, err
	}
	var all []tagged
	if err := p.Eval(tagging, &all); err != nil {
		return nil, err
	}
	pdf, err := Print(p, on)
	if err != nil {
		return nil, err
	}
	words, err := words(pdf)
	if err != nil {
		return nil, err
	}
	for n, t := range all {
		from, to := words[fmt.Sprintf("qz%da", n)], words[fmt.Sprintf("qz%db", n)]
		switch {
		case from == 0 || to == 0:
			list = append(list, Fault{"cut", fmt.Sprintf("%s “%s” is not on %s, or not whole", t.Is, t.Says, on.Name)})
		case from != to:
			list = append(list, Fault{"cut", fmt.Sprintf("%s “%s” begins on page %d of %s and goes on on page %d", t.Is, t.Says, from, on.Name, to)})
		}
	}
	return list, nil
}

// words are the first pages that words stand on, from 1: a table's header comes again on
// every page.
func words(pdf []byte) (map[string]int, error) {
	command := exec.Command("pdftotext", "-bbox", "-", "-")
	command.Stdin = bytes.NewReader(pdf)
	out, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("pdftotext: %w", err)
	}
	var read struct {
		Pages []struct {
			Words []string `xml:"word"`
		} `xml:"body>doc>page"`
	}
	decoder := xml.NewDecoder(bytes.NewReader(out))
	decoder.Strict = false
	if err := decoder.Decode(&read); err != nil {
		return nil, fmt.Errorf("pdftotext: %w", err)
	}
	found := map[string]int{}
	for i, page := range read.Pages {
		for _, word := range page.Words {
			if found[word] == 0 {
				found[word] = i + 1
			}
		}
	}
	return found, nil
}
