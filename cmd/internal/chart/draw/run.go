package draw

import (
	"regexp"
	"strconv"
	"strings"
)

// run is what stands next to one another and is written as one element: a path of what is
// drawn in one ink, or a group of words of one kind.
type run struct {
	attributes string // all that its parts have alike
	steps      []step
	words      []string // elements of text, without what is alike
}

// step is a command of a path in SVG's letters, its numbers absolute.
type step struct {
	letter byte
	args   []float64
}

var (
	straight = regexp.MustCompile(`^<line class="([^"]*)" x1="([^"]*)" y1="([^"]*)" x2="([^"]*)" y2="([^"]*)"/>$`)
	upright  = regexp.MustCompile(`^<rect class="fill(\d)" x="([^"]*)" y="([^"]*)" width="([^"]*)" height="([^"]*)"/>$`)
	disc     = regexp.MustCompile(`^<circle class="fill(\d)" cx="([^"]*)" cy="([^"]*)" r="([^"]*)"/>$`)
	anyPath  = regexp.MustCompile(`^<path class="((?:grid|axis|bar|mark alarmed|fill\d|joint|edge|reach)[^"]*)" d="([^"]*)"/>$`)
	words    = regexp.MustCompile(`^<text class="([^"]*)" text-anchor="(start|middle|end)"(.*</text>)$`)
	command  = regexp.MustCompile(`([MLAQZ])([^MLAQZ]*)`)
)

// runOf is what an element may be joined with others as: lines, words, and shapes without a
// border, so that which of them is on top cannot be seen. A box is a line as thick as the box
// is high, and a disc one of no length with round ends (SVG2 13.5.4, from memory): a point of
// many is then its place and little else.
func runOf(element string) (run, bool) {
	if m := straight.FindStringSubmatch(element); m != nil {
		n := numbers(m[2:]...)
		return run{attributes: class(m[1]), steps: stroke(n[0], n[1], n[2], n[3])}, true
	}
	if m := upright.FindStringSubmatch(element); m != nil {
		n := numbers(m[2:]...)
		middle := n[1] + n[3]/2
		return run{attributes: class("stroke"+m[1]) + thick(n[3]), steps: stroke(n[0], middle, n[0]+n[2], middle)}, true
	}
	if m := disc.FindStringSubmatch(element); m != nil {
		n := numbers(m[2:]...)
		return run{attributes: class("dot stroke"+m[1]) + thick(2*n[2]), steps: stroke(n[0], n[1], n[0], n[1])}, true
	}
	if m := anyPath.FindStringSubmatch(element); m != nil {
		return run{attributes: class(m[1]), steps: stepsOf(m[2])}, true
	}
	if m := words.FindStringSubmatch(element); m != nil {
		return run{attributes: class(kindOf(m[1], m[2])), words: []string{leanElement("<text" + m[3])}}, true
	}
	return run{}, false
}

// kindOf is the classes of words, which are small and in the ink of text unless they say so.
func kindOf(classes, anchor string) string {
	if anchor != "start" {
		classes += " " + anchor[:1]
	}
	return strings.TrimSpace(strings.TrimPrefix(classes, "text small"))
}

// class is the attribute of classes; nothing of none.
func class(classes string) string {
	if classes == "" {
		return ""
	}
	return ` class="` + classes + `"`
}

// thick is the attribute of how thick a line is.
func thick(width float64) string { return ` stroke-width="` + number(width) + `"` }

// stroke is the steps of a straight line.
func stroke(x, y, toX, toY float64) []step {
	return []step{{'M', []float64{x, y}}, {'L', []float64{toX, toY}}}
}

// goesOn tells whether the next run can be written with this one.
func (r run) goesOn(next run) bool {
	return r.attributes == next.attributes && (r.steps == nil) == (next.steps == nil)
}

// written is the run as an element; nothing of none.
func (r run) written() string {
	switch all := strings.Join(r.words, ""); {
	case len(r.steps) > 0:
		return "<path" + r.attributes + ` d="` + relative(r.steps) + `"/>`
	case len(r.words) < 2 || r.attributes == "":
		return strings.Replace(all, "<text", "<text"+r.attributes, 1)
	default:
		return "<g" + r.attributes + ">" + all + "</g>"
	}
}

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
