package chart

import (
	"math"

	"evendrop/cmd/internal/chart/draw"
)

// shape is the outline of a marker.
type shape int

const (
	disc shape = iota
	square
	triangle
	diamond
	downward
	plus
)

// shapes tell the markers of series apart without colour.
var shapes = []shape{disc, square, triangle, diamond, downward, plus}

const markerRadius = 4.2

// marker draws a point of series n. A doubtful one is hollow and crossed out.
func marker(d *draw.Canvas, n int, at draw.Spot, doubtful bool) {
	class := draw.SeriesClass("fill", n)
	if doubtful {
		class = "mark " + draw.SeriesClass("hollow", n)
	}
	outline(d, class, shapes[n%len(shapes)], at)
	if doubtful {
		const r = markerRadius + 2.5
		d.Line("mark alarmed", draw.At(at.X-r, at.Y-r), draw.At(at.X+r, at.Y+r))
		d.Line("mark alarmed", draw.At(at.X-r, at.Y+r), draw.At(at.X+r, at.Y-r))
	}
}

func outline(d *draw.Canvas, class string, s shape, at draw.Spot) {
	const r = markerRadius
	switch s {
	case square:
		d.Rect(class, draw.Box{Left: at.X, Top: at.Y, Right: at.X, Bottom: at.Y}.Grown(r*0.9))
	case triangle:
		d.Path(class, polygon(at, r*1.25, -90, 3), true)
	case diamond:
		d.Path(class, polygon(at, r*1.25, -90, 4), true)
	case downward:
		d.Path(class, polygon(at, r*1.25, 90, 3), true)
	case plus:
		d.Path(class, cross(at, r*1.2, r*0.4), true)
	default:
		d.Circle(class, at, r)
	}
}

// polygon is the corners of a regular polygon, the first at a direction in degrees.
func polygon(at draw.Spot, radius, direction float64, corners int) []draw.Spot {
	var out []draw.Spot
	for i := range corners {
		sin, cos := math.Sincos((direction + 360*float64(i)/float64(corners)) * math.Pi / 180)
		out = append(out, draw.At(at.X+radius*cos, at.Y+radius*sin))
	}
	return out
}

// cross is the outline of an upright cross with arms of length r and half-width w.
func cross(at draw.Spot, r, w float64) []draw.Spot {
	var out []draw.Spot
	for _, s := range []draw.Spot{draw.At(-w, -r), draw.At(w, -r), draw.At(w, -w), draw.At(r, -w), draw.At(r, w), draw.At(w, w), draw.At(w, r), draw.At(-w, r), draw.At(-w, w), draw.At(-r, w), draw.At(-r, -w), draw.At(-w, -w)} {
		out = append(out, draw.At(at.X+s.X, at.Y+s.Y))
	}
	return out
}
