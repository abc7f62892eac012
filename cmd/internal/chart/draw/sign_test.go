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

var verdicts = []doc.State{doc.Within, doc.Outside, doc.TooClose, doc.Unjudged}

// signOf is the outline of a state's sign about 50, 50, 20 wide.
func signOf(t *testing.T, class string, state doc.State) drawtest.Element {
	d := &draw.Canvas{}
	d.Sign(class, state, draw.At(50, 50), 20)
	return drawtest.Named(drawtest.Parsed(t, d.Whole(100, 100, "", ""), nil), "path", class)[0]
}

// groundOf is the outline of what hides all that is under a sign.
func groundOf(t *testing.T, state doc.State) string {
	d := &draw.Canvas{}
	d.Sign("text", state, draw.At(50, 50), 20)
	ground := drawtest.Named(drawtest.Parsed(t, d.Whole(100, 100, "", ""), nil), "path", "ground")
	require.Len(t, ground, 1)
	return ground[0].Attr["d"]
}

var places = regexp.MustCompile(`([0-9.]+) ([0-9.]+)(?:[A-Z]|$)`)

// A state is told by its shape: every outline is another's in no ink at all, with the ink
// of a warning as without. All stand about their spot, and none is wider than its
// square's half again.
func TestSignsDifferByShape(t *testing.T) {
	seen := map[string]bool{}
	for _, state := range verdicts {
		sign := signOf(t, "text", state)
		require.Equal(t, sign.Attr["d"], signOf(t, "warn", state).Attr["d"])
		require.True(t, strings.HasPrefix(sign.Attr["d"], groundOf(t, state)), "nothing under a sign is seen through it")
		require.Equal(t, "evenodd", sign.Attr["fill-rule"], "what is cut out is open")
		shape := regexp.MustCompile(`[0-9. ]+`).ReplaceAllString(sign.Attr["d"], "")
		require.False(t, seen[shape], "%d: %s", state, shape)
		seen[shape] = true
		low, high := math.Inf(1), math.Inf(-1)
		for _, at := range places.FindAllStringSubmatch(sign.Attr["d"], -1) {
			x, err := strconv.ParseFloat(at[1], 64)
			require.NoError(t, err)
			low, high = math.Min(low, x), math.Max(high, x)
		}
		require.InDelta(t, 50, (low+high)/2, 0.01)
		require.LessOrEqual(t, high-low, 30.0)
	}
}

// On a page the sign has the words' ink and is not read out.
func TestSignOnAPage(t *testing.T) {
	for _, state := range verdicts {
		all := drawtest.Parsed(t, draw.SignSVG(state), nil)
		require.Equal(t, "true", all[0].Attr["aria-hidden"])
		paths := drawtest.Named(all, "path", "")
		require.Len(t, paths, 1)
		require.Equal(t, "currentColor", paths[0].Attr["fill"])
	}
}

// The sign of what was is dashed, of no ink but the words', and its state is told by its
// shape too.
func TestGhostsDifferByShape(t *testing.T) {
	seen := map[string]bool{}
	for _, state := range verdicts {
		d := &draw.Canvas{}
		d.Ghost(state, draw.At(50, 50), 20)
		all := drawtest.Parsed(t, d.Whole(100, 100, "", ""), nil)
		require.Len(t, drawtest.Named(all, "", "ghost"), 1)
		drawtest.ClassesHaveAStyle(t, all)
		shape := ""
		for _, e := range all[5:] {
			shape += e.Name + e.Class + " "
		}
		require.False(t, seen[shape], shape)
		seen[shape] = true
	}
	require.Regexp(t, `\.ed \.ghost\{[^}]*stroke-dasharray`, draw.Style())
}

// Words along an arc stand on it, from its start on.
func TestWordsAlong(t *testing.T) {
	d := &draw.Canvas{}
	d.WordsAlong("text small", "end", draw.Arc{Centre: draw.At(50, 50), Radius: 40, From: -90, To: 90}, "a < b")
	all := drawtest.Parsed(t, d.Whole(100, 100, "", ""), nil)
	arc := drawtest.Named(all, "path", "")[0]
	require.Equal(t, "M10 50A40 40 0 0 1 90 50", arc.Attr["d"])
	words := drawtest.Named(all, "textPath", "")[0]
	require.Equal(t, "#"+arc.Attr["id"], words.Attr["href"])
	require.Equal(t, "100%", words.Attr["startOffset"])
	require.Equal(t, "a < b", words.Text)
}

// A sector goes out clockwise and comes back; the longer way round where it is one, and a
// bend starts toward its spot (SVG2 9.3.8, 9.3.7).
func TestOutlines(t *testing.T) {
	centre := draw.At(0, 0)
	path := func(o *draw.Outline) string {
		d := &draw.Canvas{}
		d.Trace("text", o, true)
		return drawtest.Named(drawtest.Parsed(t, d.Whole(100, 100, "", ""), nil), "path", "text")[0].Attr["d"]
	}
	require.Equal(t, "M0 -20A20 20 0 0 1 20 0L10 0A10 10 0 0 0 0 -10Z", path(draw.Sector(centre, 10, 20, 0, 90)))
	require.Equal(t, "M0 -20A20 20 0 1 1 -20 0Z", path(new(draw.Outline).Arc(draw.Arc{Centre: centre, Radius: 20, From: 0, To: 270})))
	require.Equal(t, "M1 2Q3 4 5 6L7 8Z", path(new(draw.Outline).Line(draw.At(1, 2)).Bend(draw.At(3, 4), draw.At(5, 6)).Line(draw.At(7, 8))))
	require.InDelta(t, 17.32, draw.Polar(centre, 60, 20).X, 0.01, "clockwise from the top")
	require.InDelta(t, 90, draw.Degrees(math.Pi*10/2, 10), 1e-9)
}
