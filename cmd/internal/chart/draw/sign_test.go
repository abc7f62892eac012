package draw_test

import (
	"math"
	"regexp"
	"strconv"
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

var places = regexp.MustCompile(`([0-9.]+) ([0-9.]+)(?:[A-Z]|$)`)

// A state is told by its shape: every outline is another's in no ink at all, with the ink
// of a warning as without. All stand about their spot, and none is wider than its
// square's half again.
func TestSignsDifferByShape(t *testing.T) {
	seen := map[string]bool{}
	for _, state := range verdicts {
		sign := signOf(t, "text", state)
		require.Equal(t, sign.Attr["d"], signOf(t, "warn", state).Attr["d"])
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
		require.Equal(t, "currentColor", all[1].Attr["fill"])
		require.Len(t, all, 2)
	}
}
