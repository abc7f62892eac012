package draw

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Lean is a picture written shorter, for a page that has several: places to a tenth of a
// unit, which is a tenth of a pixel on a phone, what stands in one ink next to one another
// as one path, no attribute that says what is so without it, and no title of a part that the
// description has word for word. It looks the same, and is
// read out the same.
func Lean(svg []byte) []byte {
	var out bytes.Buffer
	var run route
	var heard string // what the picture's description says
	svg = underSigns.ReplaceAll(svg, []byte("$1"))
	for line := range strings.Lines(string(svg)) {
		line = strings.TrimSuffix(line, "\n")
		if said, is := within(line, "<desc>", "</desc>"); is {
			heard = said
		}
		if said, is := within(line, "<g><title>", "</title>"); is && strings.Contains(heard, said) {
			line = "<g>"
		}
		next, is := routeOf(line)
		if !is || next.attributes != run.attributes {
			out.WriteString(run.element())
			run = route{}
		}
		if is {
			run = route{next.attributes, append(run.steps, next.steps...)}
			continue
		}
		out.WriteString(leanElement(line))
	}
	return append(out.Bytes(), '\n')
}

// within is what an element says between its ends.
func within(line, before, after string) (string, bool) {
	rest, is := strings.CutPrefix(line, before)
	said, _, ended := strings.Cut(rest, after)
	return said, is && ended
}

// route is what is drawn in one ink: a path's attributes but for its d, and its steps.
type route struct {
	attributes string
	steps      []step
}

// step is a command of a path in SVG's letters, its numbers absolute.
type step struct {
	letter byte
	args   []float64
}

var (
	straight = regexp.MustCompile(`^<line class="([^"]*)" x1="([^"]*)" y1="([^"]*)" x2="([^"]*)" y2="([^"]*)"/>$`)
	upright  = regexp.MustCompile(`^<rect class="(fill\d)" x="([^"]*)" y="([^"]*)" width="([^"]*)" height="([^"]*)"/>$`)
	disc     = regexp.MustCompile(`^<circle class="(fill\d)" cx="([^"]*)" cy="([^"]*)" r="([^"]*)"/>$`)
	anyPath  = regexp.MustCompile(`^<path class="((?:grid|axis|bar|mark alarmed|fill\d|joint|edge|reach)[^"]*)" d="([^"]*)"/>$`)
	command  = regexp.MustCompile(`([MLAQZ])([^MLAQZ]*)`)
	place    = regexp.MustCompile(`( (?:x|y|x1|x2|y1|y2|cx|cy|r|width|height)=")(-?[0-9.]+)"`)
	// A sign has a ground of its own, as large as a disc under it.
	underSigns = regexp.MustCompile(`<circle class="paper"[^>]*/>\n(<path class="ground")`)
	anchored   = regexp.MustCompile(`(^<text class="[^"]*)" text-anchor="(middle|end)"`)
	along      = regexp.MustCompile(`( d=")([^"]*)"`)
)

// routeOf is what an element draws that may be joined with others of its class: lines, and
// shapes without a border, so that which of them is on top cannot be seen.
func routeOf(element string) (route, bool) {
	if m := straight.FindStringSubmatch(element); m != nil {
		n := numbers(m[2:]...)
		return route{inkOf(m[1]), []step{{'M', n[:2]}, {'L', n[2:]}}}, true
	}
	if m := upright.FindStringSubmatch(element); m != nil {
		n := numbers(m[2:]...)
		x, y, right, bottom := n[0], n[1], n[0]+n[2], n[1]+n[3]
		return route{inkOf(m[1]), []step{{'M', n[:2]}, {'L', []float64{right, y}}, {'L', []float64{right, bottom}}, {'L', []float64{x, bottom}}, {'Z', nil}}}, true
	}
	if m := disc.FindStringSubmatch(element); m != nil {
		n := numbers(m[2:]...)
		x, y, r := n[0], n[1], n[2]
		half := func(to float64) step { return step{'A', []float64{r, r, 0, 1, 1, to, y}} }
		return route{inkOf(m[1]), []step{{'M', []float64{x - r, y}}, half(x + r), half(x - r), {'Z', nil}}}, true
	}
	if m := anyPath.FindStringSubmatch(element); m != nil {
		return route{inkOf(m[1]), stepsOf(m[2])}, true
	}
	return route{}, false
}

// inkOf is the attribute of a class.
func inkOf(class string) string { return `class="` + class + `"` }

// numbers reads what number wrote.
func numbers(written ...string) (out []float64) {
	for _, w := range written {
		x, _ := strconv.ParseFloat(w, 64) // of the program's own writing
		out = append(out, x)
	}
	return out
}

// stepsOf reads a path of absolute commands.
func stepsOf(d string) (out []step) {
	for _, m := range command.FindAllStringSubmatch(d, -1) {
		out = append(out, step{m[1][0], numbers(strings.Fields(m[2])...)})
	}
	return out
}

// element is the route as a path; nothing of none.
func (r route) element() string {
	if len(r.steps) == 0 {
		return ""
	}
	return "<path " + r.attributes + ` d="` + relative(r.steps) + `"/>`
}

// leanElement is an element that is joined with none.
func leanElement(element string) string {
	if !strings.HasPrefix(element, "<") {
		return "\n" + element // a line within words
	}
	tag, rest, _ := strings.Cut(element, ">")
	tag = strings.Replace(tag, ` text-anchor="start"`, "", 1)
	tag = strings.Replace(tag, `" fill-rule="evenodd"`, ` o"`, 1)
	tag = strings.Replace(tag, ` xmlns="http://www.w3.org/2000/svg"`, "", 1) // a page knows it
	tag = anchored.ReplaceAllStringFunc(tag, func(s string) string {         // the first letter is a class
		m := anchored.FindStringSubmatch(s)
		return m[1] + " " + m[2][:1] + `"`
	})
	tag = place.ReplaceAllStringFunc(tag, func(s string) string {
		m := place.FindStringSubmatch(s)
		return m[1] + decimal(tenths(numbers(m[2])[0])) + `"`
	})
	tag = along.ReplaceAllStringFunc(tag, func(s string) string {
		return ` d="` + relative(stepsOf(along.FindStringSubmatch(s)[2])) + `"`
	})
	return tag + ">" + rest
}

// relative writes a path with places counted from the one before, which are whole tenths,
// so that nothing adds up.
func relative(steps []step) string {
	var p pen
	for _, s := range steps {
		p.take(s)
	}
	return p.String()
}

// pen is where a path is, and began, in tenths of a unit.
type pen struct {
	strings.Builder
	x, y, fromX, fromY int
}

// take writes a step and goes where it leads.
func (p *pen) take(s step) {
	if s.letter == 'Z' {
		p.WriteByte('z')
		p.x, p.y = p.fromX, p.fromY
		return
	}
	n := len(s.args)
	x, y := tenths(s.args[n-2]), tenths(s.args[n-1])
	dx, dy := decimal(x-p.x), decimal(y-p.y)
	switch {
	case s.letter == 'L' && dy == "0":
		p.WriteString("h" + dx)
	case s.letter == 'L' && dx == "0":
		p.WriteString("v" + dy)
	case s.letter == 'A':
		p.WriteString("a" + number(s.args[0]))
		for _, arg := range s.args[1:5] {
			p.WriteString(" " + number(arg))
		}
		p.WriteString(spaced(dx) + spaced(dy))
	case s.letter == 'Q':
		p.WriteString("q" + decimal(tenths(s.args[0])-p.x) + spaced(decimal(tenths(s.args[1])-p.y)) + spaced(dx) + spaced(dy))
	default:
		p.WriteString(strings.ToLower(string(s.letter)) + dx + spaced(dy))
	}
	p.x, p.y = x, y
	if s.letter == 'M' {
		p.fromX, p.fromY = x, y
	}
}

func tenths(x float64) int { return int(math.Round(x * 10)) }

// decimal is so many tenths as a number.
func decimal(tenths int) string { return number(float64(tenths) / 10) }

// spaced is a number after another.
func spaced(number string) string {
	if strings.HasPrefix(number, "-") {
		return number
	}
	return " " + number
}
