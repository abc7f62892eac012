package draw

import (
	"fmt"
	"strings"

	"evendrop/cmd/internal/doc"
)

// Sign draws the sign of a state about a spot: a ring with a dot for within, a square with
// a cross cut out of it for outside, a diamond half of which is filled for too close to
// call, and a small ring for what is not judged. They differ by their shape; the class,
// such as text, gives the ink, and what is cut out shows paper. The square is size wide.
func (d *Canvas) Sign(class string, state doc.State, at Spot, size float64) {
	outline, inside := signPath(state, size)
	d.Moved(at)
	defer d.EndGroup()
	fmt.Fprintf(&d.body, `<path class="ground" d="%s"/>`+"\n", outline)
	fmt.Fprintf(&d.body, `<path class="%s" fill-rule="evenodd" d="%s"/>`+"\n", class, outline+inside)
}

// Ghost draws the sign of what was: the same shape, dashed and open.
func (d *Canvas) Ghost(state doc.State, at Spot, size float64) {
	half := size / 2
	switch state {
	case doc.Within:
		d.Circle("ghost", at, half)
		d.Circle("text", at, size*0.12)
	case doc.Outside:
		d.Rect("ghost", Box{at.X, at.Y, at.X, at.Y}.Grown(half))
		arm := size * 0.22
		d.Strokes("axis fine", [][2]Spot{{At(at.X-arm, at.Y-arm), At(at.X+arm, at.Y+arm)}, {At(at.X-arm, at.Y+arm), At(at.X+arm, at.Y-arm)}})
	case doc.TooClose:
		out := size * 0.62
		d.Path("ghost", []Spot{At(at.X, at.Y-out), At(at.X+out, at.Y), At(at.X, at.Y+out), At(at.X-out, at.Y)}, true)
		d.Line("axis fine", At(at.X, at.Y-out), At(at.X, at.Y+out))
	default:
		d.Circle("ghost", at, size*0.32)
	}
}

// SignSVG is the sign of a state for a line of a page: as high as the letters, in their
// ink, and not read out, since the word stands beside it.
func SignSVG(state doc.State) []byte {
	outline, inside := signPath(state, 18)
	return fmt.Appendf(nil, `<svg class="sign" viewBox="-12 -12 24 24" aria-hidden="true"><g transform="translate(0 0)">`+
		`<path fill="currentColor" fill-rule="evenodd" d="%s"/></g></svg>`, outline+inside)
}

// signPath is a sign's outline about its middle and what is inside it; what lies within an
// odd number of lines is filled.
func signPath(state doc.State, size float64) (outline, inside string) {
	switch state {
	case doc.Within:
		return round(size * 0.54), round(size*0.4) + round(size*0.19)
	case doc.Outside:
		half := size / 2
		return corners(At(-half, -half), At(half, -half), At(half, half), At(-half, half)), corners(slanted(size*0.27, size*0.1)...)
	case doc.TooClose:
		out, in := size*0.66, size*0.46
		return corners(At(0, -out), At(out, 0), At(0, out), At(-out, 0)), corners(At(0, -in), At(0, in), At(-in, 0))
	}
	return round(size * 0.36), round(size * 0.22)
}

// round is a circle as a part of a path.
func round(radius float64) string {
	r := number(radius)
	half := "A" + r + " " + r + " 0 1 1 "
	return "M-" + r + " 0" + half + r + " 0" + half + "-" + r + " 0Z"
}

// corners is a closed outline as a part of a path.
func corners(spots ...Spot) string {
	var p strings.Builder
	for i, s := range spots {
		p.WriteString("ML"[min(i, 1):][:1] + number(s.X) + " " + number(s.Y))
	}
	return p.String() + "Z"
}

// slanted is the outline of a cross on its diagonals: its arms reach so far across and
// down, and are twice half wide.
func slanted(reach, half float64) []Spot {
	notch, tip := half*1.4142, half*0.7071
	return []Spot{
		{0, -notch}, {reach - tip, -reach - tip}, {reach + tip, -reach + tip},
		{notch, 0}, {reach + tip, reach - tip}, {reach - tip, reach + tip},
		{0, notch}, {-reach + tip, reach + tip}, {-reach - tip, reach - tip},
		{-notch, 0}, {-reach - tip, -reach + tip}, {-reach + tip, -reach - tip},
	}
}
