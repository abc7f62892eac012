package chart

import "math"

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

const markerRadius = 4.2

// marker draws a point of series n. A doubtful one is hollow and crossed out.
func (d *drawing) marker(n int, at spot, doubtful bool) {
	class := seriesClass("fill", n)
	if doubtful {
		class = "mark " + seriesClass("hollow", n)
	}
	d.outline(class, shapes[n%len(shapes)], at)
	if doubtful {
		const r = markerRadius + 2.5
		d.line("mark alarmed", spot{at.x - r, at.y - r}, spot{at.x + r, at.y + r})
		d.line("mark alarmed", spot{at.x - r, at.y + r}, spot{at.x + r, at.y - r})
	}
}

func (d *drawing) outline(class string, s shape, at spot) {
	const r = markerRadius
	switch s {
	case square:
		d.rect(class, box{at.x, at.y, at.x, at.y}.grown(r*0.9))
	case triangle:
		d.path(class, polygon(at, r*1.25, -90, 3), true)
	case diamond:
		d.path(class, polygon(at, r*1.25, -90, 4), true)
	case downward:
		d.path(class, polygon(at, r*1.25, 90, 3), true)
	case plus:
		d.path(class, cross(at, r*1.2, r*0.4), true)
	default:
		d.circle(class, at, r)
	}
}

// polygon is the corners of a regular polygon, the first at a direction in degrees.
func polygon(at spot, radius, direction float64, corners int) []spot {
	var out []spot
	for i := range corners {
		sin, cos := math.Sincos((direction + 360*float64(i)/float64(corners)) * math.Pi / 180)
		out = append(out, spot{at.x + radius*cos, at.y + radius*sin})
	}
	return out
}

// cross is the outline of an upright cross with arms of length r and half-width w.
func cross(at spot, r, w float64) []spot {
	var out []spot
	for _, s := range []spot{{-w, -r}, {w, -r}, {w, -w}, {r, -w}, {r, w}, {w, w}, {w, r}, {-w, r}, {-w, w}, {-r, w}, {-r, -w}, {-w, -w}} {
		out = append(out, spot{at.x + s.x, at.y + s.y})
	}
	return out
}
