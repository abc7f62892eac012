package protractor

import (
	"math"
	"strconv"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

// readOff is what a protractor's picture shows to who looks at it: the number under which the
// longest line stands that is nearest to the needle's tip, and the half degrees counted from
// that line to the tip, a part of one by eye.
func readOff(t *testing.T, all []drawtest.Element) float64 {
	t.Helper()
	tip := drawtest.Named(all, "path", "text")[0].Spots(t)[0]
	type foot struct {
		at   draw.Spot
		long float64
	}
	var feet []foot
	for _, line := range drawtest.Named(all, "line", "axis") {
		at := draw.At(line.Number(t, "x1"), line.Number(t, "y1"))
		feet = append(feet, foot{at, drawtest.Apart(at, draw.At(line.Number(t, "x2"), line.Number(t, "y2")))})
	}
	require.Len(t, feet, 53, "a line each half degree over 26 deg")
	numbered, value := -1, 0.0
	for i, f := range feet {
		if f.long < 17 || numbered >= 0 && drawtest.Apart(f.at, tip) > drawtest.Apart(feet[numbered].at, tip) {
			continue
		}
		for _, e := range drawtest.Named(all, "text", "strong") {
			if drawtest.Apart(e.At(t), f.at) < 26 { // the number stands 23 beyond its line's foot
				number, err := strconv.ParseFloat(e.Text, 64)
				require.NoError(t, err)
				numbered, value = i, number
			}
		}
	}
	before := 0
	for feet[before+1].at.X < tip.X {
		before++
	}
	part := (tip.X - feet[before].at.X) / (feet[before+1].at.X - feet[before].at.X)
	return math.Mod(value+(float64(before-numbered)+part)/2+360, 360)
}

// wheelNumbers are those that stand on a wheel.
var wheelNumbers = func() (list []string) {
	for n := 0; n < 360; n += 5 {
		list = append(list, strconv.Itoa(n))
	}
	return list
}()

// What the needle points to is what it was drawn for, round the wheel's zero too.
func TestProtractorShowsWhatItIs(t *testing.T) {
	for _, at := range []float64{0, 0.12, 4.99, 5, 7.5, 14.9, 180.26, 345.39, 354.5, 355.03, 359.88} {
		svg, err := Picture{Title: "one", Description: "to be read", At: at}.SVG()
		all := drawtest.Parsed(t, svg, err)
		for _, number := range drawtest.Named(all, "text", "strong") {
			require.Contains(t, wheelNumbers, number.Text)
		}
		off := math.Remainder(readOff(t, all)-at, 360)
		require.InDelta(t, 0, off, 0.02, "drawn for %g", at) // the tip stands a unit off the rim, slanted up to 5 deg: 0.008
	}
}

// Printed 88 mm wide, lines half a degree apart stand 1.5 mm apart or more, and numbers are as
// large as text; nothing lies off the picture.
func TestProtractorCanBeRead(t *testing.T) {
	svg, err := Picture{At: 356}.SVG()
	all := drawtest.Parsed(t, svg, err)
	const mm = 88 / width
	lines := drawtest.Named(all, "line", "axis")
	for i := range lines[1:] {
		a, b := lines[i], lines[i+1]
		require.Greater(t, mm*math.Hypot(a.Number(t, "x1")-b.Number(t, "x1"), a.Number(t, "y1")-b.Number(t, "y1")), 1.5)
	}
	require.Greater(t, mm*draw.TextSize, 3.0)
	for _, e := range lines {
		for _, name := range []string{"x1", "x2"} {
			require.True(t, e.Number(t, name) > 0 && e.Number(t, name) < width)
		}
		require.True(t, e.Number(t, "y2") > 0 && e.Number(t, "y1") < high)
	}
	for _, number := range drawtest.Named(all, "text", "strong") {
		require.Greater(t, number.At(t).Y, draw.TextSize)
	}
	for _, corner := range drawtest.Named(all, "path", "text")[0].Spots(t) {
		require.Less(t, corner.Y, high)
	}
}

// Who has the picture read out is not told the answer.
func TestProtractorKeepsItsFigure(t *testing.T) {
	svg, err := Picture{Title: "Engine 1, protractor 1", Description: "to be read", At: 123.45}.SVG()
	require.NoError(t, err)
	require.NotContains(t, string(svg), "123")
	_, err = Picture{At: math.NaN()}.SVG()
	require.ErrorContains(t, err, "a pointer at NaN")
}
