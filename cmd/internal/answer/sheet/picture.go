package sheet

import (
	"slices"

	"evendrop/cmd/internal/answer/find/picture"

	"evendrop/cmd/internal/chart/crank"
	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/tdc/mark"
)

// mostDrawn is how many marks the crank is drawn with.
const mostDrawn = 5

// picture is the crank from the front, at top dead centre, and where the marks line up; or
// what was read, where there is no mark to draw.
func (s Sheet) picture() (doc.Document, error) {
	if len(s.Marks) == 0 || s.untold() {
		return s.Evidence, nil
	}
	p := crank.Picture{Title: "The crank from the front", Description: "Top dead centre is straight up; later is clockwise."}
	for _, m := range s.drawn() {
		p.Marks = append(p.Marks, s.drawnMark(m))
		if w, is := s.jumped(m); is {
			p.Tooth = w.Each().Degrees()
		}
	}
	svg, err := p.SVG()
	if err != nil {
		return nil, err
	}
	return doc.Document{doc.Figure{SVG: draw.Lean(draw.Unstyled(svg)), Caption: p.Caption()}}, nil
}

// drawn is the marks that are drawn, those of one part next to one another.
func (s Sheet) drawn() []mark.Judged {
	list := s.sorted()
	list = list[:min(mostDrawn, len(list))]
	var first []string
	for _, m := range list {
		if b := s.body(m); !slices.Contains(first, b) {
			first = append(first, b)
		}
	}
	slices.SortStableFunc(list, func(a, b mark.Judged) int {
		return slices.Index(first, s.body(a)) - slices.Index(first, s.body(b))
	})
	return list
}

// drawnMark is a mark as the crank's picture takes it.
func (s Sheet) drawnMark(m mark.Judged) crank.Mark {
	c := crank.Mark{
		Name: m.Name, Body: s.body(m), Off: m.Angle.Degrees(), Half: m.Expanded.Degrees(), Limit: m.Limit.Degrees(),
		State: picture.States[m.Verdict], Suspect: s.suspect(m) != "", Says: amount(m.Estimate),
	}
	if m.Lobe == nil && m.Off == nil && m.Nominal != 0 {
		c.HasPlace, c.Nominal = true, m.Nominal.Degrees()
	}
	if was := s.before(m); was.Name != "" {
		c.Was = &crank.Was{Off: was.Angle.Degrees(), Half: was.Expanded.Degrees(), State: picture.States[was.Verdict], Says: "was " + amount(was.Estimate)}
	}
	return c
}

// body is the part that a mark is on, as the picture draws it: the one that is likely to
// have moved, with all that it carries.
func (s Sheet) body(m mark.Judged) string {
	if name := s.suspect(m); name != "" {
		if l := s.link(name); l.Carried != "" {
			return l.Carried
		}
	}
	return m.On
}

// suspect is the joint by which a mark hangs on the crank and that is likely to have moved;
// "" where there is none, or several might.
func (s Sheet) suspect(m mark.Judged) string {
	a := s.answer()
	if a == nil {
		return ""
	}
	for _, slip := range a.Slips {
		if s.hangs(m, slip.Joints[0]) {
			return slip.Joints[0]
		}
	}
	return ""
}

// hangs tells whether a mark hangs on the crank by a joint, or is itself what moved.
func (s Sheet) hangs(m mark.Judged, name string) bool {
	name = legible.Undirected(name)
	return name == legible.Undirected(m.Itself()) ||
		slices.ContainsFunc(s.above(m.On), func(j mark.Joint) bool { return legible.Undirected(j.Name()) == name })
}

// above is the joints between a member and the crank, the member's own first.
func (s Sheet) above(member string) (list []mark.Joint) {
	for range s.joints {
		i := slices.IndexFunc(s.joints, func(j mark.Joint) bool { return j.Carried == member })
		if i < 0 {
			break
		}
		list = append(list, s.joints[i])
		member = s.joints[i].Carrier
	}
	return list
}
