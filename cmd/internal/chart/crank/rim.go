package crank

import (
	"math"
	"strconv"

	"evendrop/cmd/internal/chart/draw"
)

// graduations are the crank degrees from one line of the rim to the next, and from one
// number to the next, by how many times too large angles are drawn.
var graduations = map[int]struct{ line, number float64 }{
	20: {0.5, 1}, 10: {1, 2}, 5: {1, 5}, 3: {1, 5}, 2: {2, 10}, 1: {5, 20},
}

// rim draws true crank degrees round the outermost arc.
func (f *fan) rim() {
	step, lines := graduations[f.times], [][2]draw.Spot(nil)
	for n := 1; f.drawn(float64(n)*step.line) <= f.half; n++ {
		degrees := float64(n) * step.line
		every := int(step.number/step.line + 0.5)
		for _, at := range []float64{-f.drawn(degrees), f.drawn(degrees)} {
			long := 4.0
			if n%every == 0 {
				long = 7
				f.number(degrees, at)
			}
			if end := f.at(at, f.outer+4+long); end.X > 1 && end.X < width-1 {
				lines = append(lines, [2]draw.Spot{f.at(at, f.outer+4), end})
			}
		}
	}
	f.Strokes("axis fine", lines)
}

// teeth draws those of a wheel at their true pitch; none where they would touch.
func (f *fan) teeth(pitch float64) {
	const foot, tip, high = 5.0, 3.0, 9.0 // half widths, and how far they stand out
	for n := 0.0; f.toothed(pitch) && n*f.drawn(pitch)+draw.Degrees(foot, f.outer) <= f.half; n++ {
		for _, way := range []float64{-1, 1}[:min(2, 1+int(n))] {
			at, low := way*n*f.drawn(pitch), f.outer+2
			wide, narrow := draw.Degrees(foot, low), draw.Degrees(tip, low+high)
			f.Path("metal", []draw.Spot{f.at(at-wide, low), f.at(at-narrow, low+high), f.at(at+narrow, low+high), f.at(at+wide, low)}, true)
		}
	}
}

// toothed tells whether teeth of a pitch are drawn.
func (f *fan) toothed(pitch float64) bool { return f.drawn(pitch) > draw.Degrees(12, f.outer) }

// number writes a number of the rim, where the paper has room for it.
func (f *fan) number(degrees, at float64) {
	text := strconv.FormatFloat(degrees, 'f', -1, 64) + "°"
	half := draw.TextWidth(text, draw.SmallSize) / 2
	sin, cos := math.Sincos(math.Abs(at) * math.Pi / 180)
	spot := f.at(at, f.outer+13+half*sin+draw.SmallSize/2*cos)
	if spot.X-half < 1 || spot.X+half > width-1 {
		return
	}
	f.Words("quiet small", "middle", draw.At(spot.X, spot.Y+draw.SmallSize*0.35), text)
}

// centreLine is true top dead centre, down to the piston.
func (f *fan) centreLine() {
	f.Line("axis mark", draw.At(f.centre.X, 19), f.at(0, f.crown()))
}
