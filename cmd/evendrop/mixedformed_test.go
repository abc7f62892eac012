package main

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
)

var (
	// voids are elements of HTML that have no end (WHATWG HTML, 13.1.2).
	voids = regexp.MustCompile(`<(area|base|br|col|embed|hr|img|input|link|meta|source|track|wbr)((?:\s[^<>]*?)?)/?>`)
	// css is what XML would take for markup and HTML does not.
	css        = regexp.MustCompile(`(?s)(<style>)(.*?)(</style>)`)
	sizesOfSVG = map[string]bool{
		"x": true, "y": true, "x1": true, "y1": true, "x2": true, "y2": true, "cx": true, "cy": true, "r": true, "rx": true, "ry": true,
		"width": true, "height": true,
	}
)

// wellFormedPage finds what is wrong with a page by the strict rules of XML, which are
// those of HTML and more once the elements without an end are closed.
func (s *benched) wellFormedPage(page string) {
	if !strings.HasPrefix(page, "<!doctype html>") {
		s.find("page does not begin with its type")
	}
	page = voids.ReplaceAllString(page, "<$1$2/>")
	page = css.ReplaceAllString(page, "$1<![CDATA[$2]]>$3")
	s.wellFormed("page", page)
}

// wellFormedPicture finds what is wrong with a picture.
func (s *benched) wellFormedPicture(name, svg string) { s.wellFormed("picture of "+name, svg) }

// wellFormed reads XML to its end: elements that are not closed, attributes without
// quotes or given twice, an id given twice, and numbers that are none are found.
func (s *benched) wellFormed(what, text string) {
	if bad := noNumber(text); bad != "" {
		s.find("%s says %q", what, bad)
	}
	decoder := xml.NewDecoder(strings.NewReader(ended(text)))
	decoder.Entity = xml.HTMLEntity
	ids := map[string]bool{}
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			s.find("%s is not well formed: %v", what, err)
			return
		}
		element, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		given := map[string]bool{}
		for _, a := range element.Attr {
			name := a.Name.Space + ":" + a.Name.Local
			if given[name] {
				s.find("%s: <%s> has %s twice", what, element.Name.Local, a.Name.Local)
			}
			given[name] = true
			if a.Name.Local == "id" && ids[a.Value] {
				s.find("%s: the id %s is given twice", what, a.Value)
			}
			ids[a.Value] = ids[a.Value] || a.Name.Local == "id"
			if _, err := strconv.ParseFloat(a.Value, 64); err != nil && sizesOfSVG[a.Name.Local] && !strings.HasSuffix(a.Value, "%") {
				s.find("%s: <%s> has %s=%q", what, element.Name.Local, a.Name.Local, a.Value)
			}
		}
	}
}

var (
	openRow  = regexp.MustCompile(`(?m)^(?:<thead>|<tbody>)?<tr[^>]*><th[^\n]*$`)
	openFact = regexp.MustCompile(`<dt>([^<]*)<dd([^<]*)</div>`)
	openCell = regexp.MustCompile(`<(t[hd])\b[^>]*>[^<]*`)
)

// ended is a page with the ends of its cells, rows, heads, bodies and facts, which HTML lets be left out and XML
// does not (WHATWG 13.1.2.4).
func ended(page string) string {
	page = strings.NewReplacer("\n<tbody>", "</thead>\n<tbody>", "</table>", "</tbody></table>").Replace(page)
	page = openFact.ReplaceAllString(page, "<dt>$1</dt><dd$2</dd></div>")
	return openRow.ReplaceAllStringFunc(page, func(row string) string {
		cells, heads := strings.CutSuffix(row, "</thead>")
		cells = openCell.ReplaceAllString(cells, "$0</$1>") + "</tr>"
		if heads {
			cells += "</thead>"
		}
		return cells
	})
}
