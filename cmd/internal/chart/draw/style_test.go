package draw

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// A page that sets its own quiet words smaller leaves those of a picture at their size,
// and small ones small.
func TestPicturesKeepTheirLetters(t *testing.T) {
	require.Regexp(t, `\.ed \.quiet\{font-size:14px\}.*\.ed \.small\{font-size:12\.5px\}`, Style())
}

// Contrast as WCAG22 defines it (relative luminance of sRGB): 4.5 to 1 for words
// (1.4.3), 3 to 1 for what must be seen to understand a picture (1.4.11). The
// names of series are words in the series' ink.
func TestContrast(t *testing.T) {
	require.InDelta(t, 21, contrast("#000000", "#ffffff"), 1e-9) // by definition
	for _, side := range []func(ink) string{func(i ink) string { return i.light }, func(i ink) string { return i.dark }} {
		for _, i := range append([]ink{text, quiet, alarm}, seriesInks...) {
			require.GreaterOrEqual(t, contrast(side(i), side(paper)), 4.5, "%v", i)
		}
		for _, ground := range []ink{paper, zone} {
			for _, i := range []ink{edge, alarm, quiet} {
				require.GreaterOrEqual(t, contrast(side(i), side(ground)), 3.0, "%v on %v", i, ground)
			}
			for _, i := range append([]ink{text}, seriesInks...) {
				require.GreaterOrEqual(t, contrast(side(i), side(ground)), 4.5, "%v on %v", i, ground)
			}
		}
		require.GreaterOrEqual(t, contrast(side(text), side(band)), 4.5)
		require.GreaterOrEqual(t, contrast(side(quiet), side(band)), 3.0) // a bar on what is shaded
		for _, i := range []ink{text, alarm} {                            // words on a part of an engine
			require.GreaterOrEqual(t, contrast(side(i), side(body)), 4.5)
		}
	}
	require.Len(t, seriesInks, SeriesStyles)
	require.Len(t, dashes, SeriesStyles)
	require.Len(t, slices.Compact(slices.Sorted(slices.Values(dashes))), SeriesStyles, "each its own")
}

// On paper without colours, what is to blame is not paler than anything else.
func TestPrintedAlarmIsNotPaler(t *testing.T) {
	printed := regexp.MustCompile(`@media print\{\.ed \.suspect\{stroke:(#\w+)\}\.ed \.accused\{fill:(#\w+)\}\}`).FindStringSubmatch(Style())
	require.Len(t, printed, 3)
	for _, colour := range printed[1:] {
		require.LessOrEqual(t, luminance(colour), luminance(text.light))
	}
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func luminance(colour string) (sum float64) {
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		c, _ := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		v := float64(c) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}
