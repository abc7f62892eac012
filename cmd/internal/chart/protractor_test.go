package chart

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// readOff is what a protractor's picture shows to who looks at it: the number under which the
// longest line stands that is nearest to the needle's tip, and the half degrees counted from
// that line to the tip, a part of one by eye.
func readOff(t *testing.T, all []element) float64 {
	t.Helper()
	tip := named(all, "path", "text")[0].spots(t)[0]
	type foot struct {
		at   spot
		long float64
	}
	var feet []foot
	for _, line := range named(all, "line", "axis") {
		at := spot{line.number(t, "x1"), line.number(t, "y1")}
		feet = append(feet, foot{at, apart(at, spot{line.number(t, "x2"), line.number(t, "y2")})})
	}
	require.Len(t, feet, 53, "a line each half degree over 26 deg")
	numbered, value := -1, 0.0
	for i, f := range feet {
		if f.long < 17 || numbered >= 0 && apart(f.at, tip) > apart(feet[numbered].at, tip) {
			continue
		}
		for _, e := range named(all, "text", "strong") {
			if apart(e.at(t), f.at) < 26 { // the number stands 23 beyond its line's foot
				number, err := strconv.ParseFloat(e.text, 64)
				require.NoError(t, err)
				numbered, value = i, number
			}
		}
	}
	before := 0
	for feet[before+1].at.x < tip.x {
		before++
	}
	part := (tip.x - feet[before].at.x) / (feet[before+1].at.x - feet[before].at.x)
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
		svg, err := Protractor{Title: "one", Description: "to be read", At: at}.SVG()
		all := parsed(t, svg, err)
		for _, number := range named(all, "text", "strong") {
			require.Contains(t, wheelNumbers, number.text)
		}
		off := math.Remainder(readOff(t, all)-at, 360)
		require.InDelta(t, 0, off, 0.02, "drawn for %g", at) // the tip stands a unit off the rim, slanted up to 5 deg: 0.008
	}
}

// Printed 88 mm wide, lines half a degree apart stand 1.5 mm apart or more, and numbers are as
// large as text; nothing lies off the picture.
func TestProtractorCanBeRead(t *testing.T) {
	svg, err := Protractor{At: 356}.SVG()
	all := parsed(t, svg, err)
	const mm = 88 / protractorWidth
	lines := named(all, "line", "axis")
	for i := range lines[1:] {
		a, b := lines[i], lines[i+1]
		require.Greater(t, mm*math.Hypot(a.number(t, "x1")-b.number(t, "x1"), a.number(t, "y1")-b.number(t, "y1")), 1.5)
	}
	require.Greater(t, mm*textSize, 3.0)
	for _, e := range lines {
		for _, name := range []string{"x1", "x2"} {
			require.True(t, e.number(t, name) > 0 && e.number(t, name) < protractorWidth)
		}
		require.True(t, e.number(t, "y2") > 0 && e.number(t, "y1") < protractorHigh)
	}
	for _, number := range named(all, "text", "strong") {
		require.Greater(t, number.at(t).y, textSize)
	}
	for _, corner := range named(all, "path", "text")[0].spots(t) {
		require.Less(t, corner.y, protractorHigh)
	}
}

// Who has the picture read out is not told the answer.
func TestProtractorKeepsItsFigure(t *testing.T) {
	svg, err := Protractor{Title: "Engine 1, protractor 1", Description: "to be read", At: 123.45}.SVG()
	require.NoError(t, err)
	require.NotContains(t, string(svg), "123")
	_, err = Protractor{At: math.NaN()}.SVG()
	require.ErrorContains(t, err, "a pointer at NaN")
}
