package draw_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"
	"evendrop/cmd/internal/doc"

	"github.com/stretchr/testify/require"
)

// By hand: lines of one ink are one path, and so are discs of one size; a box is a line as
// thick as it is high; what has another ink or words between stays apart, in its order; a path
// is counted from where it was, and every place is the tenth that is nearest.
func TestLean(t *testing.T) {
	d := &draw.Canvas{}
	d.Line("grid", draw.At(1.04, 2), draw.At(11.06, 2))
	d.Line("grid", draw.At(5, 0), draw.At(5, 9))
	d.Words("text", "start", draw.At(3.14, 4), "a > b\nc")
	d.Line("axis", draw.At(0, 0), draw.At(3, 4))
	d.Circle("fill0", draw.At(10, 10), 2.6)
	d.Circle("fill0", draw.At(12.04, 9), 2.6)
	d.Rect("fill0", draw.Box{Left: 1, Top: 1, Right: 3, Bottom: 4})
	d.Circle("mark hollow0", draw.At(7, 7), 2)
	d.Path("text", []draw.Spot{{X: 5, Y: 5}, {X: 4, Y: 3}, {X: 4, Y: 9}}, true)
	svg := d.Whole(100, 100, "T", "D")
	all := drawtest.Parsed(t, draw.Lean(svg), nil)
	paths := drawtest.Named(all, "path", "")
	require.Len(t, paths, 5)
	require.Equal(t, "m1 2h10.1m-6.1-2v9", paths[0].Attr["d"])
	require.Equal(t, "m0 0l3 4", paths[1].Attr["d"])
	require.Equal(t, map[string]string{"class": "dot stroke0", "stroke-width": "5.2", "d": "m10 10h0m2-1h0"}, paths[2].Attr)
	require.Equal(t, map[string]string{"class": "stroke0", "stroke-width": "3", "d": "m1 2.5h2"}, paths[3].Attr)
	require.Equal(t, "m5 5l-1-2v6z", paths[4].Attr["d"])
	require.Regexp(t, `\.ed line,\.ed path\{[^}]*stroke-linecap:butt\}\.ed \.dot\{stroke-linecap:round\}`, draw.Style(), "boxes end where they end, discs are round")
	require.Empty(t, drawtest.Named(all, "rect", ""), "the page is the paper")
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
	require.Len(t, drawtest.Named(lean, "g", ""), len(drawtest.Named(full, "g", ""))-2, "two had titles alone")
	for _, e := range drawtest.Named(lean, "text", "") {
		require.Equal(t, "e", e.Class, "ends where it ended, small and in the ink of text")
	}
	for _, class := range []string{"ground", "ghost"} {
		require.Len(t, drawtest.Named(lean, "", class), len(drawtest.Named(full, "", class)))
	}
	require.Len(t, drawtest.Named(lean, "path", "text"), len(verdicts))
	var titles []string
	for _, e := range drawtest.Named(lean, "title", "") {
		titles = append(titles, e.Text)
	}
	require.Equal(t, []string{"T", "group <c>", "group <d>"}, titles, "the description has the others")
	require.Regexp(t, `\.ed \.e\{text-anchor:end\}`, draw.Style())
	require.Less(t, len(draw.Lean(svg)), len(svg))
}

// Words of one kind next to one another are a group of that kind, and small ones in the ink of
// text need not say so.
func TestLeanGroupsWords(t *testing.T) {
	d := &draw.Canvas{}
	for _, number := range []string{"1", "2", "3"} {
		d.Words("quiet small", "middle", draw.At(1, 2), number)
	}
	d.Words("text small", "start", draw.At(1, 2), "4")
	d.Words("text small", "start", draw.At(1, 3), "5")
	d.Words("text small strong", "end", draw.At(1, 2), "6")
	lean := string(draw.Lean(d.Whole(100, 100, "T", "D")))
	require.Contains(t, lean, `<g class="quiet small m"><text x="1" y="2">1</text><text x="1" y="2">2</text><text x="1" y="2">3</text></g>`+
		`<text x="1" y="2">4</text><text x="1" y="3">5</text><text class="strong e" x="1" y="2">6</text></svg>`)
	require.Regexp(t, `^svg\.ed\{[^}]*font-size:13\.5px\}`, draw.Style())
	require.Regexp(t, `svg\.ed,\.ed \.text\{fill:#1c2127\}`, draw.Style())
	require.NotContains(t, string(draw.Lean(d.Whole(100, 100, "T", "D"))), "<rect")
}

// What is drawn alike at several places of a page stands there once, under a name of its own,
// and is used at the others; what is unlike stands as it was.
func TestShared(t *testing.T) {
	picture := func(at ...draw.Spot) string {
		d := &draw.Canvas{}
		for _, at := range at {
			d.Sign("text", doc.Within, at, 12)
			d.Sign("warn", doc.Outside, at, at.X)
			d.Moved(at)
			d.Words("quiet small", "middle", draw.At(1, 0), "1")
			d.Words("quiet small", "middle", draw.At(2, 0), "2")
			d.EndGroup()
		}
		return string(draw.Lean(d.Whole(100, 100, "T", "D")))
	}
	first, second := picture(draw.At(10, 20), draw.At(30, 0)), picture(draw.At(30, 40.04))
	page := draw.Shared(first + second)
	require.Equal(t, 3, strings.Count(page, `<g class="ed" id="`))
	for _, once := range []string{
		`<g transform="translate(10 20)"><g class="ed" id="p1"><path class="ground"`, `<use href="#p1" x="30"/>`, `<use href="#p1" x="30" y="40"/>`,
		`<g transform="translate(30 0)"><g class="ed" id="p3"><path class="ground"`, `<use href="#p3" x="30" y="40"/>`,
		`<g transform="translate(10 20)"><g class="ed" id="p2"><g class="quiet small m"><text x="1">1</text>`, `<use href="#p2" x="30"/>`,
	} {
		require.Equal(t, 1, strings.Count(page, once), "%s in %s", once, page)
	}
	require.Equal(t, 3, strings.Count(page, `<path class="ground"`), "that of 10 is alone")
	require.NotContains(t, draw.Shared(picture(draw.At(10, 20))), "<use")
	drawtest.Parsed(t, []byte("<body>"+page+"</body>"), nil)
	signs := draw.Shared(string(draw.SignSVG(doc.Within)) + string(draw.SignSVG(doc.Within)))
	require.Contains(t, signs, `<g id="p1"><path fill="currentColor"`, "in the ink of the letters beside it")
}

// By hand: a line leaves out a spot that it passes within a twentieth of a unit, and no other:
// none where it turns back, comes back or begins anew.
func TestLeanLinesAreEven(t *testing.T) {
	for path, want := range map[string][]draw.Spot{
		"m0 0h10":          {{X: 0, Y: 0}, {X: 5, Y: 0.04}, {X: 10, Y: 0}},
		"m0 0l5 0.1l5-0.1": {{X: 0, Y: 0}, {X: 5, Y: 0.06}, {X: 10, Y: 0}},
		"m0 0h10h-5":       {{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 5, Y: 0}},
		"m0 0h10h-10":      {{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 0, Y: 0}},
		"m0 0h-5h15":       {{X: 0, Y: 0}, {X: -5, Y: 0}, {X: 10, Y: 0}},
		"m0 0v30":          {{X: 0, Y: 0}, {X: 0, Y: 10}, {X: 0, Y: 20}, {X: 0, Y: 30}},
	} {
		d := &draw.Canvas{}
		d.Path("curve", want, false)
		require.Contains(t, string(draw.Lean(d.Whole(100, 100, "T", "D"))), ` d="`+path+`"`)
	}
	d := &draw.Canvas{}
	d.Strokes("grid", [][2]draw.Spot{{{X: 0, Y: 0}, {X: 5, Y: 0}}, {{X: 6, Y: 0}, {X: 9, Y: 0}}})
	require.Contains(t, string(draw.Lean(d.Whole(100, 100, "T", "D"))), ` d="m0 0h5m1 0h3"`)
}

// A curve of many spots passes each within what it may leave out, 0.05 of a unit, and the
// rounding of its places to tenths, at most 0.071 aslant; half a pixel would be seen.
func TestLeanCurvesStay(t *testing.T) {
	var spots []draw.Spot
	for x := 0.0; x <= 300; x += 1.7 {
		spots = append(spots, draw.At(x, 100+80*math.Sin(x/40)))
	}
	d := &draw.Canvas{}
	d.Path("curve", spots, false)
	path := drawtest.Named(drawtest.Parsed(t, draw.Lean(d.Whole(400, 200, "T", "D")), nil), "path", "curve")[0].Attr["d"]
	var kept []draw.Spot
	at := draw.Spot{}
	for _, m := range regexp.MustCompile(`([mlhv])(-?[0-9.]+)(?: ?(-?[0-9.]+))?`).FindAllStringSubmatch(path, -1) {
		by, _ := strconv.ParseFloat(m[2], 64)
		down, _ := strconv.ParseFloat(m[3], 64)
		if m[1] == "v" {
			by, down = 0, by
		}
		at = draw.At(at.X+by, at.Y+down)
		kept = append(kept, at)
	}
	require.Less(t, len(kept), len(spots)*2/3)
	for _, s := range spots {
		nearest := math.Inf(1)
		for i := range kept[1:] {
			nearest = math.Min(nearest, fromLine(s, kept[i], kept[i+1]))
		}
		require.Less(t, nearest, 0.05+0.071)
	}
}

// fromLine is how far a spot lies from the line between two others.
func fromLine(s, a, b draw.Spot) float64 {
	x, y := b.X-a.X, b.Y-a.Y
	on := math.Max(0, math.Min(1, ((s.X-a.X)*x+(s.Y-a.Y)*y)/(x*x+y*y)))
	return drawtest.Apart(s, draw.At(a.X+on*x, a.Y+on*y))
}
