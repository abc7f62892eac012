// Package tree draws what carries what: boxes with names, joined by lines.
package tree

import (
	"errors"

	"evendrop/cmd/internal/chart/draw"
)

// Tree is things that carry one another: boxes with names, joined by lines.
type Tree struct {
	Title       string
	Description string
	Root        Node
}

// Node is a box and what it carries.
type Node struct {
	Name     string
	Word     string // of the joint to what carries the node
	Standing Standing
	Children []Node
}

// Standing is what is thought of the joint to what carries a node.
type Standing int

// The standings. Only Answer has the ink of an alarm, so that what is not picked out of
// several does not look like the answer, and what is dismissed not like either.
const (
	Sound     Standing = iota
	Dismissed          // thin, dotted and grey
	Possible           // thick and dashed
	Answer             // the same in the ink of an alarm, and the box too
)

// How the standings are drawn: joint, box and word.
var (
	jointClasses = []string{"joint", "dismissed", "slipped", "slipped alarmed"}
	boxClasses   = []string{"member", "member", "member", "member alarmed heavy"}
	wordClasses  = []string{"text small", "quiet small", "text small strong", "warn small strong"}
)

// Sizes of a tree.
const (
	rowHeight  = 40.0
	boxHeight  = 26.0
	indentStep = 34.0
)

// SVG is the tree as a picture, a row a box, each under what carries it. An error is of a
// first box without a name.
func (t Tree) SVG() ([]byte, error) {
	if t.Root.Name == "" {
		return nil, errors.New("a tree's first box needs a name")
	}
	b := &branches{Canvas: &draw.Canvas{}}
	b.next = b.Heading(t.Title, draw.Width) + 10
	b.node(t.Root, 0)
	return b.Whole(draw.Width, b.next+draw.Margin, t.Title, t.Description), nil
}

// branches is a tree under way; next is the top of the next row.
type branches struct {
	*draw.Canvas
	next float64
}

// node draws a box, what is said of its joint beside it, or under it where there is no room,
// and below it what it carries, and returns where the box is.
func (b *branches) node(n Node, depth int) draw.Box {
	left := draw.Margin + float64(depth)*indentStep
	width := min(draw.TextWidth(n.Name, draw.TextSize)+18, draw.Width-draw.Margin-left)
	at := draw.Box{Left: left, Top: b.next, Right: left + width, Bottom: b.next + boxHeight}
	b.next += rowHeight
	beside := at.Right + 8
	under := n.Word != "" && beside+draw.TextWidth(n.Word, draw.SmallSize*draw.Bold) > draw.Width-draw.Margin && at.Left+indentStep < beside
	var lines []string
	if under {
		lines = draw.Wrapped(n.Word, draw.Width-draw.Margin-at.Left-indentStep, draw.SmallSize*draw.Bold, 3)
		b.next += draw.SmallSize * (1 + draw.LineHeight*float64(len(lines)-1))
	}

	var below []draw.Box
	for _, child := range n.Children {
		below = append(below, b.node(child, depth+1))
	}
	b.joints(n, at, below)

	b.Rect(boxClasses[n.Standing], at)
	b.Words("text", "start", draw.At(at.Left+9, at.Top+boxHeight/2+draw.TextSize*0.35), draw.Shortened(n.Name, width-16, draw.TextSize))
	switch {
	case under:
		b.Lines(wordClasses[n.Standing], "start", draw.At(at.Left+indentStep, at.Bottom+draw.SmallSize+2), draw.SmallSize, lines)
	case n.Word != "":
		word := draw.Shortened(n.Word, draw.Width-draw.Margin-beside, draw.SmallSize*draw.Bold)
		b.Words(wordClasses[n.Standing], "start", draw.At(beside, at.Top+boxHeight/2+draw.SmallSize*0.35), word)
	}
	return at
}

// joints draws the lines from a box to those it carries: the sound ones first, so that a
// slipped one lies on top and is seen whole, and what is likeliest above all.
func (b *branches) joints(n Node, from draw.Box, below []draw.Box) {
	stem := from.Left + indentStep/2
	for standing, class := range jointClasses {
		start := from.Bottom
		for i, to := range below {
			if n.Children[i].Standing == Standing(standing) {
				b.joint(class, stem, start, to)
			}
			if standing > 0 || n.Children[i].Standing == Sound {
				start = to.Top + boxHeight/2
			}
		}
	}
}

// joint draws a line down a stem and across to a box.
func (b *branches) joint(class string, stem, start float64, to draw.Box) {
	middle := to.Top + boxHeight/2
	b.Path(class, []draw.Spot{draw.At(stem, start), draw.At(stem, middle), draw.At(to.Left, middle)}, false)
}
