package chart

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// drive is two cams driven from the crank, the second joint slipped.
func drive() Tree {
	return Tree{Title: "Drive", Root: Node{Name: "crank", Children: []Node{
		{Name: "flywheel", Children: []Node{{Name: "crank wheel"}}},
		{Name: "crank sprocket", Word: "points to a slip", Children: []Node{{Name: "inlet cam"}, {Name: "exhaust cam"}}},
		{Name: "pulley"},
	}}}
}

// Boxes stand apart, each under and to the right of what carries it; the slipped
// joint alone is thick and dashed, ends at its box, and has its word beside it.
func TestTree(t *testing.T) {
	svg, err := drive().SVG()
	all := parsed(t, svg, err)
	at := map[string]spot{}
	var bottoms []float64
	for _, e := range named(all, "text", "text") {
		at[e.text] = e.at(t)
	}
	boxes := named(all, "rect", "member")
	require.Len(t, boxes, 7)
	for _, e := range boxes {
		top := e.at(t).y
		for _, other := range bottoms {
			require.GreaterOrEqual(t, absolute(top-other), boxHeight+5)
		}
		bottoms = append(bottoms, top)
	}
	for child, parent := range map[string]string{"flywheel": "crank", "crank wheel": "flywheel", "exhaust cam": "crank sprocket", "pulley": "crank"} {
		require.Greater(t, at[child].x, at[parent].x)
		require.Greater(t, at[child].y, at[parent].y)
	}
	require.Len(t, named(all, "path", "joint"), 5)
	slipped := named(all, "path", "slipped")
	require.Len(t, slipped, 1)
	require.Contains(t, Style(), ".ed .slipped{stroke-width:4;stroke-dasharray:9 5}")
	spots := slipped[0].spots(t)
	end := spots[len(spots)-1]
	require.InDelta(t, at["crank sprocket"].y-textSize*0.35, end.y, 0.02) // coordinates are rounded to 0.01
	require.InDelta(t, at["crank sprocket"].x-9, end.x, 0.02)             // the text begins 9 in
	word := named(all, "text", "warn")[0]
	require.Equal(t, "points to a slip", word.text)
	require.InDelta(t, end.y, word.at(t).y, 6) // on the same row
}

// A sound joint is not drawn over a slipped one, nor along it.
func TestSoundJointsBesideSlipped(t *testing.T) {
	svg, err := Tree{Root: Node{Name: "crank", Children: []Node{{Name: "a", Word: "slip"}, {Name: "b"}}}}.SVG()
	all := parsed(t, svg, err)
	sound, slipped := named(all, "path", "joint")[0].spots(t), named(all, "path", "slipped")[0].spots(t)
	require.Equal(t, sound[0].x, slipped[0].x, "one stem")
	order := ""
	for _, e := range all {
		if e.name == "path" {
			order += e.class + " "
		}
	}
	require.Equal(t, "joint slipped ", order, "the slipped one on top")
}

func TestTreeRefuses(t *testing.T) {
	_, err := Tree{}.SVG()
	require.ErrorContains(t, err, "needs a name")
}

func absolute(x float64) float64 { return max(x, -x) }
