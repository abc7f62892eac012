package draw

import (
	"bytes"
	"regexp"
	"strings"
)

// Lean is a picture written shorter, for a page that has several: places to a tenth of a
// unit, which is a tenth of a pixel on a phone and a thirtieth of a millimetre on paper, what
// stands in one ink next to one another as one path, words of one kind next to one another as
// one group, no attribute that says what is so without it, no ground, since the page has one,
// and no title of a part that the description has word for word. It looks the same, and is
// read out the same.
func Lean(svg []byte) []byte {
	var out bytes.Buffer
	var open run
	for _, line := range untitled(underSigns.ReplaceAllString(string(svg), "$1")) {
		next, is := runOf(line)
		if is && open.goesOn(next) {
			open.steps, open.words = append(open.steps, next.steps...), append(open.words, next.words...)
			continue
		}
		out.WriteString(open.written())
		if open = next; !is {
			out.WriteString(leanElement(line))
		}
	}
	return append(out.Bytes(), '\n')
}

// untitled is the lines of a picture without the titles that its description has, and without
// the groups that did no more than have one.
func untitled(svg string) (lines []string) {
	var heard string // what the description says
	var idle []bool  // of every group that is open, whether it is left out
	for line := range strings.Lines(svg) {
		line = strings.TrimSuffix(line, "\n")
		out := false
		if said, is := within(line, "<desc>", "</desc>"); is {
			heard = said
		}
		switch {
		case strings.HasPrefix(line, "<g"):
			said, is := within(line, "<g><title>", "</title>")
			out = is && strings.Contains(heard, said)
			idle = append(idle, out)
		case line == "</g>":
			out = idle[len(idle)-1]
			idle = idle[:len(idle)-1]
		}
		if !out {
			lines = append(lines, line)
		}
	}
	return lines
}

// within is what an element says between its ends.
func within(line, before, after string) (string, bool) {
	rest, is := strings.CutPrefix(line, before)
	said, _, ended := strings.Cut(rest, after)
	return said, is && ended
}

// leanElement is an element that is joined with none.
func leanElement(element string) string {
	if !strings.HasPrefix(element, "<") {
		return "\n" + element // a line within words
	}
	if strings.HasPrefix(element, `<rect class="paper"`) {
		return ""
	}
	tag, rest, _ := strings.Cut(element, ">")
	tag = strings.Replace(tag, ` text-anchor="start"`, "", 1)
	tag = strings.Replace(tag, `" fill-rule="evenodd"`, ` o"`, 1)
	tag = strings.Replace(tag, ` xmlns="http://www.w3.org/2000/svg"`, "", 1) // a page knows it
	tag = place.ReplaceAllStringFunc(tag, func(s string) string {
		m := place.FindStringSubmatch(s)
		return placed(m[1], decimal(tenths(numbers(m[2])[0])))
	})
	tag = translated.ReplaceAllStringFunc(tag, func(s string) string {
		n := numbers(translated.FindStringSubmatch(s)[1:]...)
		return "translate(" + decimal(tenths(n[0])) + " " + decimal(tenths(n[1])) + ")"
	})
	tag = along.ReplaceAllStringFunc(tag, func(s string) string {
		return ` d="` + relative(evened(stepsOf(along.FindStringSubmatch(s)[2]))) + `"`
	})
	return tag + ">" + rest
}

var (
	place      = regexp.MustCompile(` (x|y|x1|x2|y1|y2|cx|cy|r|width|height)="(-?[0-9.]+)"`)
	translated = regexp.MustCompile(`translate\(([^ ]*) ([^)]*)\)`)
	along      = regexp.MustCompile(`( d=")([^"]*)"`)
	// A sign has a ground of its own, as large as a disc under it.
	underSigns = regexp.MustCompile(`<circle class="paper"[^>]*/>\n(<g transform="[^"]*">\n<path class="ground")`)
)
