package chart

import "errors"

// Tree is things that carry one another: boxes with names, joined by lines.
type Tree struct {
	Title       string
	Description string
	Root        Node
}

// Node is a box and what it carries.
type Node struct {
	Name string
	// Word says something of the joint to what carries the node. A joint with a
	// word is drawn thick and dashed.
	Word     string
	Children []Node
}

// Sizes of a tree.
const (
	rowHeight  = 40.0
	boxHeight  = 26.0
	indentStep = 34.0
)

// SVG is the tree as a picture, a row a box, each under what carries it.
func (t Tree) SVG() ([]byte, error) {
	if t.Root.Name == "" {
		return nil, errors.New("a tree's first box needs a name")
	}
	b := &branches{drawing: &drawing{}}
	b.next = b.title(t.Title, pictureWidth) + 10
	b.node(t.Root, 0)
	return b.whole(pictureWidth, b.next+margin, t.Title, t.Description), nil
}

// branches is a tree under way; next is the top of the next row.
type branches struct {
	*drawing
	next float64
}

// node draws a box and under it what it carries, and returns where the box is.
func (b *branches) node(n Node, depth int) box {
	left := margin + float64(depth)*indentStep
	width := min(textWidth(n.Name, textSize)+18, pictureWidth-margin-left)
	at := box{left, b.next, left + width, b.next + boxHeight}
	b.next += rowHeight
	beside := at.right + 8
	under := n.Word != "" && beside+textWidth(n.Word, smallSize*bold) > pictureWidth-margin && at.left+indentStep < beside
	if under {
		b.next += smallSize
	}

	var below []box
	for _, child := range n.Children {
		below = append(below, b.node(child, depth+1))
	}
	b.joints(n, at, below)

	b.rect("member", at)
	b.words("text", "start", spot{at.left + 9, at.top + boxHeight/2 + textSize*0.35}, shortened(n.Name, width-16, textSize))
	switch {
	case under:
		b.word(n.Word, spot{at.left + indentStep, at.bottom + smallSize + 2})
	case n.Word != "":
		b.word(n.Word, spot{beside, at.top + boxHeight/2 + smallSize*0.35})
	}
	return at
}

// joints draws the lines from a box to those it carries: the sound ones first,
// so that a slipped one lies on top and is seen whole.
func (b *branches) joints(n Node, from box, below []box) {
	stem := from.left + indentStep/2
	start := from.bottom
	for i, to := range below {
		if n.Children[i].Word == "" {
			start = b.joint("joint", stem, start, to)
		}
	}
	start = from.bottom
	for i, to := range below {
		if n.Children[i].Word != "" {
			b.joint("slipped", stem, start, to)
		}
		start = to.top + boxHeight/2
	}
}

// joint draws a line down a stem and across to a box, and returns where it turned.
func (b *branches) joint(class string, stem, start float64, to box) float64 {
	middle := to.top + boxHeight/2
	b.path(class, []spot{{stem, start}, {stem, middle}, {to.left, middle}}, false)
	return middle
}

// word writes what a joint's word is from a spot on: beside the box that the joint
// carries, or under it where there is no room.
func (b *branches) word(text string, at spot) {
	b.words("warn small strong", "start", at, shortened(text, pictureWidth-margin-at.x, smallSize*bold))
}
