package crank

import "evendrop/cmd/internal/chart/draw"

// Sizes of piston, rod and crank, as parts of how far the crown stands from the centre.
const (
	throw    = 0.34 // of the crank pin
	wrist    = 0.71 // height of the piston pin
	skirt    = 0.59 // height of the piston's lower end
	pistonIs = 0.27 // half of the piston's width
	wall     = 0.315
	boss     = 0.145
	weight   = 0.44 // radius of the counterweight
)

// mechanism draws piston, rod and crank at top dead centre, and which way the crank turns.
func (f *fan) mechanism() {
	f.web()
	f.rod()
	f.piston()
	for _, side := range []float64{-1, 1} {
		f.Line("axis heavy", f.part(side*wall, 0.97), f.part(side*wall, 0.5))
	}
	f.Circle("member", f.centre, 0.15*f.crown())
	f.Circle("text", f.centre, 2)
	f.turning()
}

// part is a place of the mechanism, as parts of the crown's height right of and above the
// centre.
func (f *fan) part(right, up float64) draw.Spot {
	return draw.At(f.centre.X+right*f.crown(), f.centre.Y-up*f.crown())
}

// web draws the crank's web: from round its pin down to the counterweight.
func (f *fan) web() {
	size := f.crown()
	pin := draw.Arc{Centre: f.part(0, throw), Radius: boss * size, From: -78, To: 78}
	var o draw.Outline
	o.Arc(pin).Bend(f.part(0.17, 0.13), f.at(100, weight*size))
	o.Arc(draw.Arc{Centre: f.centre, Radius: weight * size, From: 100, To: 260})
	o.Bend(f.part(-0.17, 0.13), draw.Polar(pin.Centre, pin.From, pin.Radius))
	f.Trace("metal", &o, true)
}

// rod draws the connecting rod between its two pins.
func (f *fan) rod() {
	size := f.crown()
	f.Path("member", []draw.Spot{f.part(-0.075, throw), f.part(-0.045, wrist), f.part(0.045, wrist), f.part(0.075, throw)}, true)
	f.Circle("member", f.part(0, throw), 0.115*size)
	f.Circle("member", f.part(0, throw), 0.06*size)
}

// piston draws the piston with its rings, the rod's small end under its pin.
func (f *fan) piston() {
	var o draw.Outline
	o.Line(f.part(-pistonIs, 1)).Line(f.part(pistonIs, 1)).Line(f.part(pistonIs, skirt)).Line(f.part(0.17, skirt))
	o.Bend(f.part(0, skirt+0.07), f.part(-0.17, skirt)).Line(f.part(-pistonIs, skirt))
	f.Trace("metal", &o, true)
	for _, up := range []float64{0.94, 0.89, 0.84} {
		f.Line("axis fine", f.part(-pistonIs, up), f.part(pistonIs, up))
	}
	f.Circle("member", f.part(0, wrist), 0.06*f.crown())
}

// turning says which way the crank turns.
func (f *fan) turning() {
	const from, to, far = 72.0, 118.0, 0.64
	radius := far * f.crown()
	f.Curve("axis mark", f.arc(radius, from, to-5))
	f.head("text", f.at(to, radius), to+90)
	f.Words("text small", "start", draw.At(f.centre.X+radius+8, f.centre.Y+draw.SmallSize*0.35), "turns this way")
}
