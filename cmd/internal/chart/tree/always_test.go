package tree

import (
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Every box of a tree is under what carries it, a step further in, and a line of its own
// comes to its middle; what slipped has the heavy line, and nothing else.
func TestTreeAlways(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		root := drawnNode(r, 3)
		root.Word, root.Standing = "", Sound
		svg, err := Tree{Root: root}.SVG()
		all := drawtest.Parsed(t, svg, err)
		boxes := drawtest.Named(all, "rect", "member")
		ends := map[draw.Spot]string{}
		for _, class := range []string{"joint", "slipped", "dismissed"} {
			for _, path := range drawtest.Named(all, "path", class) {
				spots := path.Spots(t)
				ends[spots[len(spots)-1]] = class
			}
		}
		// boxes are drawn after those that they carry
		n := 0
		var walk func(Node, int)
		walk = func(node Node, depth int) {
			for _, child := range node.Children {
				walk(child, depth+1)
			}
			at := boxes[n]
			n++
			require.InDelta(t, draw.Margin+float64(depth)*indentStep, at.At(t).X, 0.01)
			if depth == 0 {
				return
			}
			want := map[Standing]string{Sound: "joint", Dismissed: "dismissed", Possible: "slipped", Answer: "slipped"}[node.Standing]
			require.Equal(t, want, ends[draw.At(at.At(t).X, at.At(t).Y+boxHeight/2)])
		}
		walk(root, 0)
		require.Len(t, boxes, n)
		require.Len(t, ends, n-1)
	})
}

// drawnNode is a tree of so many levels at most.
func drawnNode(t *rapid.T, levels int) Node {
	n := Node{Name: drawtest.Names.Draw(t, "name") + "x", Word: drawtest.Names.Draw(t, "word"), Standing: Standing(rapid.IntRange(0, 3).Draw(t, "standing"))}
	if levels > 1 {
		for range rapid.IntRange(0, 3).Draw(t, "children") {
			n.Children = append(n.Children, drawnNode(t, levels-1))
		}
	}
	return n
}

// Control characters, and those that turn the writing round, would break the XML
// or shuffle the words after them.
func TestControlCharactersAreDropped(t *testing.T) {
	svg, err := Tree{Title: "a\x00b\x1b[31m\u202ec\nd\u2066", Root: Node{Name: "x"}}.SVG()
	all := drawtest.Parsed(t, svg, err)
	require.Equal(t, "ab[31mc d", all[1].Text)
}
