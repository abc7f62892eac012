package chart

import (
	"testing"

	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// Every picture: well-formed XML, the title and the description first, no
// element but shapes and words, nothing that runs or is fetched, and a hostile
// name as the text it is.
func TestPicturesAreTextAndShapes(t *testing.T) {
	for _, name := range drawtest.Hostile {
		line := Series{Name: name, Line: true, Points: []Point{{X: 0, Y: 1, Label: name}, {X: 5, Y: 2}}}
		chart := Chart{Title: name, Description: name + name, X: Axis{Label: name}, Y: Axis{Label: name}, Series: []Series{line},
			Upright: []Band{{1, 2, name}}, Level: []Band{{1, 2, name}}}
		svg, err := chart.SVG()
		drawtest.TextAndShapes(t, drawtest.Parsed(t, svg, err), name)
		require.NotContains(t, string(svg), "url(")
	}
}
