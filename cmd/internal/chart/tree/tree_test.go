package tree

import (
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// drive is two cams driven from the crank, the second joint slipped.
func drive() Tree {
	return Tree{Title: "Drive", Root: Node{Name: "crank", Children: []Node{
		{Name: "flywheel", Children: []Node{{Name: "crank wheel"}}},
		{Name: "crank sprocket", Word: "points to a slip", Standing: Answer, Children: []Node{{Name: "inlet cam"}, {Name: "exhaust cam"}}},
		{Name: "pulley"},
	}}}
}

// Boxes stand apart, each under and to the right of what carries it; the slipped
// joint alone is thick and dashed, ends at its box, and has its word beside it.
func TestTree(t *testing.T) {
	svg, err := drive().SVG()
	all := drawtest.Parsed(t, svg, err)
	at := map[string]draw.Spot{}
	var bottoms []float64
	for _, e := range drawtest.Named(all, "text", "text") {
		at[e.Text] = e.At(t)
	}
	boxes := drawtest.Named(all, "rect", "member")
	require.Len(t, boxes, 7)
	for _, e := range boxes {
		top := e.At(t).Y
		for _, other := range bottoms {
			require.GreaterOrEqual(t, absolute(top-other), boxHeight+5)
		}
		bottoms = append(bottoms, top)
	}
	for child, parent := range map[string]string{"flywheel": "crank", "crank wheel": "flywheel", "exhaust cam": "crank sprocket", "pulley": "crank"} {
		require.Greater(t, at[child].X, at[parent].X)
		require.Greater(t, at[child].Y, at[parent].Y)
	}
	require.Len(t, drawtest.Named(all, "path", "joint"), 5)
	slipped := drawtest.Named(all, "path", "slipped")
	require.Len(t, slipped, 1)
	require.Contains(t, draw.Style(), ".ed .slipped{stroke-width:4;stroke-dasharray:9 5}")
	spots := slipped[0].Spots(t)
	end := spots[len(spots)-1]
	require.InDelta(t, at["crank sprocket"].Y-draw.TextSize*0.35, end.Y, 0.02) // coordinates are rounded to 0.01
	require.InDelta(t, at["crank sprocket"].X-9, end.X, 0.02)                  // the text begins 9 in
	word := drawtest.Named(all, "text", "warn")[0]
	require.Equal(t, "points to a slip", word.Text)
	require.InDelta(t, end.Y, word.At(t).Y, 6) // on the same row
}

// A sound joint is not drawn over a slipped one, nor along it.
func TestSoundJointsBesideSlipped(t *testing.T) {
	svg, err := Tree{Root: Node{Name: "crank", Children: []Node{{Name: "a", Word: "slip", Standing: Possible}, {Name: "b"}}}}.SVG()
	all := drawtest.Parsed(t, svg, err)
	sound, slipped := drawtest.Named(all, "path", "joint")[0].Spots(t), drawtest.Named(all, "path", "slipped")[0].Spots(t)
	require.Equal(t, sound[0].X, slipped[0].X, "one stem")
	order := ""
	for _, e := range all {
		if e.Name == "path" {
			order += e.Class + " "
		}
	}
	require.Equal(t, "joint slipped ", order, "the slipped one on top")
}

// Only the answer has the ink of an alarm, at its joint, its box and its word; what is
// possible is as thick and dashed without it, and what is dismissed thin and grey.
func TestStandings(t *testing.T) {
	svg, err := Tree{Root: Node{Name: "crank", Children: []Node{
		{Name: "a", Word: "may", Standing: Possible}, {Name: "b", Word: "is", Standing: Answer}, {Name: "c", Word: "not", Standing: Dismissed}, {Name: "d"},
	}}}.SVG()
	all := drawtest.Parsed(t, svg, err)
	for class, want := range map[string]int{"slipped": 2, "dismissed": 1, "joint": 1} {
		require.Len(t, drawtest.Named(all, "path", class), want, class)
	}
	require.Len(t, drawtest.Named(all, "path", "alarmed"), 1)
	require.Len(t, drawtest.Named(all, "rect", "alarmed"), 1)
	require.Equal(t, []string{"is"}, drawtest.Texts(drawtest.Named(all, "text", "warn")))
	require.Equal(t, []string{"not"}, drawtest.Texts(drawtest.Named(all, "text", "quiet")))
	require.Equal(t, []string{"may"}, drawtest.Texts(drawtest.Named(drawtest.Named(all, "text", "text"), "", "strong")))
}

func TestTreeRefuses(t *testing.T) {
	_, err := Tree{}.SVG()
	require.ErrorContains(t, err, "needs a name")
}

func absolute(x float64) float64 { return max(x, -x) }
