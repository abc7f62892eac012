// Package crank draws an engine's marks on the crank seen from the front: piston, rod and
// crank at top dead centre under concentric arcs, one a mark. A sign stands where the crank
// does when its mark lines up, clockwise is late, and every angle of a picture is drawn too
// large by one whole number, which the picture says.
package crank

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
)

// Picture is marks on a crank, the outermost arc first. Marks of one body are drawn side by
// side, where the first of them stands.
type Picture struct {
	Title       string // for who listens; it is not drawn
	Description string // what is said before the marks, for who listens
	Marks       []Mark
	// Tooth is the pitch of the wheel that may be a tooth out, in crank degrees; its teeth
	// are drawn on the rim, one of them at top dead centre. 0: none are.
	Tooth float64
}

// Mark is how far a mark lies from where it belongs, in crank degrees, late positive.
type Mark struct {
	Name    string
	Body    string  // the part that carries it; "": a part of its own
	Off     float64 // degrees
	Half    float64 // degrees, half of the interval that holds Off in 95 % of cases
	Limit   float64 // degrees either way that are allowed; 0: none is stated
	State   doc.State
	Suspect bool   // its body is likely to blame
	Says    string // beside the sign, such as "2.8° late"
	// Nominal is where the mark belongs, in degrees, late positive; it counts where
	// HasPlace tells that it belongs elsewhere than at top dead centre.
	Nominal  float64
	HasPlace bool
	Was      *Was // before, where the marks were compared after a repair
}

// Was is how far the same mark lay from its place before.
type Was struct {
	Off   float64 // degrees
	Half  float64 // degrees
	State doc.State
	Says  string // beside it, such as "was 2.8°"
}

// mostMarks is how many marks a picture holds.
const mostMarks = 6

// SVG is the picture. No marks, more than MostMarks and numbers that are none are errors.
func (p Picture) SVG() ([]byte, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	f := p.fan()
	f.bodies()
	f.bodyNames()
	f.rim()
	f.teeth(p.Tooth)
	f.boxes()
	f.centreLine()
	for _, l := range f.lanes {
		f.mark(l)
	}
	f.suspects()
	f.mechanism()
	f.notes()
	return f.Whole(width, f.bottom(), p.Title, p.described(f)), nil
}

func (p Picture) check() error {
	switch {
	case len(p.Marks) == 0:
		return errors.New("a picture of the crank needs at least one mark")
	case len(p.Marks) > mostMarks:
		return fmt.Errorf("a picture of the crank holds %d marks, not %d", mostMarks, len(p.Marks))
	case !draw.Finite(p.Tooth) || p.Tooth < 0:
		return fmt.Errorf("a tooth of %g deg cannot be drawn", p.Tooth)
	}
	for _, m := range p.Marks {
		was := Was{}
		if m.Was != nil {
			was = *m.Was
		}
		if !draw.Finite(m.Off, m.Half, m.Limit, m.Nominal, was.Off, was.Half) {
			return fmt.Errorf("mark %q at %g deg cannot be drawn", m.Name, m.Off)
		}
		if m.Half < 0 || m.Limit < 0 || was.Half < 0 {
			return fmt.Errorf("mark %q: a half-width or a limit is less than 0", m.Name)
		}
	}
	return nil
}

// accused tells whether a mark is drawn in the ink of an alarm: nothing is that is within.
func (m Mark) accused() bool { return m.Suspect && m.State == doc.Outside }

// elsewhere tells whether a mark belongs elsewhere than at top dead centre.
func (m Mark) elsewhere() bool { return m.HasPlace && m.Nominal != 0 }
