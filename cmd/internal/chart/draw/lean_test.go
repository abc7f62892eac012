package draw_test

import (
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// By hand: lines of one ink are one path, and so are shapes without a border; what has
// another ink or words between stays apart, in its order; a path is counted from where it
// was, and every place is the tenth that is nearest.
func TestLean(t *testing.T) {
	d := &draw.Canvas{}
	d.Line("grid", draw.At(1.04, 2), draw.At(11.06, 2))
	d.Line("grid", draw.At(5, 0), draw.At(5, 9))
	d.Words("text", "start", draw.At(3.14, 4), "a > b\nc")
	d.Line("axis", draw.At(0, 0), draw.At(3, 4))
	d.Circle("fill0", draw.At(10, 10), 2.6)
	d.Rect("fill0", draw.Box{Left: 1, Top: 1, Right: 3, Bottom: 4})
	d.Circle("mark hollow0", draw.At(7, 7), 2)
	d.Path("text", []draw.Spot{{X: 5, Y: 5}, {X: 4, Y: 3}, {X: 4, Y: 9}}, true)
	svg := d.Whole(100, 100, "T", "D")
	all := drawtest.Parsed(t, draw.Lean(svg), nil)
	paths := drawtest.Named(all, "path", "")
	require.Len(t, paths, 4)
	require.Equal(t, "m1 2h10.1m-6.1-2v9", paths[0].Attr["d"])
	require.Equal(t, "m0 0l3 4", paths[1].Attr["d"])
	require.Equal(t, "m7.4 10a2.6 2.6 0 1 1 5.2 0a2.6 2.6 0 1 1-5.2 0zm-6.4-9h2v3h-2z", paths[2].Attr["d"])
	require.Equal(t, "m5 5l-1-2v6z", paths[3].Attr["d"])
	words := drawtest.Named(all, "text", "")[0]
	require.Equal(t, map[string]string{"class": "text", "x": "3.1", "y": "4"}, words.Attr)
	require.Len(t, drawtest.Named(all, "circle", ""), 1, "a border is seen, and so is which is on top")
	require.Equal(t, []string{"T", "D"}, []string{all[1].Text, all[2].Text}, "what is read out")
}

// The words of a picture are the same, in their order, and every sign is there.
func TestLeanKeepsWordsAndSigns(t *testing.T) {
	d := &draw.Canvas{}
	for i, state := range verdicts {
		d.Group("group <" + string(rune('a'+i)) + ">")
		d.Sign("text", state, draw.At(50, 50), 20)
		d.Ghost(state, draw.At(20, 20), 20)
		d.Words("text small", "end", draw.At(9, 9), drawtest.Hostile[i])
		d.EndGroup()
	}
	svg := d.Whole(100, 100, "T", "Only group <a> and group <b>.")
	full, lean := drawtest.Parsed(t, svg, nil), drawtest.Parsed(t, draw.Lean(svg), nil)
	require.Equal(t, drawtest.Texts(full), drawtest.Texts(lean))
	require.Len(t, drawtest.Named(lean, "g", ""), len(verdicts))
	for _, e := range drawtest.Named(lean, "text", "") {
		require.Equal(t, "text small e", e.Class, "ends where it ended")
	}
	for _, class := range []string{"ground", "ghost", "text"} {
		require.Len(t, drawtest.Named(lean, "", class), len(drawtest.Named(full, "", class)))
	}
	var titles []string
	for _, e := range drawtest.Named(lean, "title", "") {
		titles = append(titles, e.Text)
	}
	require.Equal(t, []string{"T", "group <c>", "group <d>"}, titles, "the description has the others")
	require.Regexp(t, `\.ed \.e\{text-anchor:end\}`, draw.Style())
	require.Less(t, len(draw.Lean(svg)), len(svg))
}
