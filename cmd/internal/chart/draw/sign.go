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
	outline, inside := signPath(state, at, size)
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
	const size = 24
	outline, inside := signPath(state, At(size/2, size/2), 18)
	return fmt.Appendf(nil, `<svg class="sign" viewBox="0 0 %d %[1]d" aria-hidden="true">`+
		`<path fill="currentColor" fill-rule="evenodd" d="%s"/></svg>`, size, outline+inside)
}

// signPath is a sign's outline and what is inside it; what lies within an odd number of
// lines is filled.
func signPath(state doc.State, at Spot, size float64) (outline, inside string) {
	switch state {
	case doc.Within:
		return round(at, size*0.54), round(at, size*0.4) + round(at, size*0.19)
	case doc.Outside:
		half := size / 2
		square := corners(At(at.X-half, at.Y-half), At(at.X+half, at.Y-half), At(at.X+half, at.Y+half), At(at.X-half, at.Y+half))
		return square, corners(slanted(at, size*0.27, size*0.1)...)
	case doc.TooClose:
		out, in := size*0.66, size*0.46
		diamond := corners(At(at.X, at.Y-out), At(at.X+out, at.Y), At(at.X, at.Y+out), At(at.X-out, at.Y))
		return diamond, corners(At(at.X, at.Y-in), At(at.X, at.Y+in), At(at.X-in, at.Y))
	}
	return round(at, size*0.36), round(at, size*0.22)
}

// round is a circle as a part of a path.
func round(at Spot, radius float64) string {
	x, y, r := number(at.X-radius), number(at.Y), number(radius)
	half := "A" + r + " " + r + " 0 1 1 "
	return "M" + x + " " + y + half + number(at.X+radius) + " " + y + half + x + " " + y + "Z"
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
func slanted(at Spot, reach, half float64) (out []Spot) {
	notch, tip := half*1.4142, half*0.7071
	for _, s := range []Spot{
		{0, -notch}, {reach - tip, -reach - tip}, {reach + tip, -reach + tip},
		{notch, 0}, {reach + tip, reach - tip}, {reach - tip, reach + tip},
		{0, notch}, {-reach + tip, reach + tip}, {-reach - tip, reach - tip},
		{-notch, 0}, {-reach - tip, -reach + tip}, {-reach + tip, -reach - tip},
	} {
		out = append(out, At(at.X+s.X, at.Y+s.Y))
	}
	return out
}
