package picture

import (
	"cmp"
	"slices"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/chart/tree"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// marksDial is how far each mark is off, on a dial whose zero is where each
// should be.
func (b Book) marksDial() (chart.Dial, error) {
	if len(b.Marks) == 0 {
		return chart.Dial{}, errNoMarks
	}
	d := chart.Dial{
		Title:       "How far each mark is from where it should be",
		Description: "A dial in crank degrees, opened out; zero is where each mark should be, later is to the right.",
		Zero:        "right",
	}
	for _, says := range b.OfMarks {
		d.Description += " " + says
	}
	for _, m := range b.Marks {
		off, half := m.Angle.Degrees(), m.Expanded.Degrees()
		one := chart.DialMark{
			Name: m.Name, Detail: words.Off(m.Angle, m.Expanded) + ": " + string(m.Verdict), At: off, From: off - half, To: off + half,
			Alarm: m.Verdict == mark.Outside,
		}
		if m.HasLimit {
			one.LimitFrom, one.LimitTo = -m.Limit.Degrees(), m.Limit.Degrees()
		}
		d.Marks = append(d.Marks, one)
	}
	return d, nil
}

// drivePicture is what carries what, down to the marks, and the joints that may
// have moved.
func (b Book) drivePicture() ([]byte, error) {
	if len(b.Marks) == 0 {
		return nil, errNoMarks
	}
	var marks []mark.Mark
	for _, m := range b.Marks {
		marks = append(marks, m.Mark)
	}
	links, err := joint.Links(b.Drive, marks)
	if err != nil {
		return nil, err
	}
	spoken := b.jointWords()
	t := tree.Tree{
		Title:       "The drive",
		Description: "What carries what, from the crank down to the marks. " + b.Headline,
		Root:        tree.Node{Name: "crank", Children: grown("crank", links, marks, spoken)},
	}
	if len(spoken) > 0 {
		t.Title = "The drive, and what may have moved"
	}
	if word := spoken["TDC of cylinder 1"]; word != "" {
		t.Root.Word = "TDC of cylinder 1: " + word
	}
	return t.SVG()
}

// grown is what a member carries: other members, and marks.
func grown(member string, links []joint.Link, marks []mark.Mark, spoken map[string]string) (children []tree.Node) {
	for _, m := range marks {
		if m.On == member {
			children = append(children, tree.Node{Name: "mark: " + m.Name, Word: cmp.Or(spoken[legible.Undirected(m.Itself())], spoken[joint.EdgesOf(m.On)])})
		}
	}
	for _, l := range links {
		if l.Carrier == member {
			children = append(children, tree.Node{Name: l.Carried, Word: spoken[legible.Undirected(l.Joint)], Children: grown(l.Carried, links, marks, spoken)})
		}
	}
	return children
}

// jointWords is what the explanations say of each joint, the best of them first.
func (b Book) jointWords() map[string]string {
	spoken := map[string]string{}
	for _, e := range b.Diagnosis.Explanations {
		for _, s := range e.Slips {
			for _, joint := range s.Joints {
				name := legible.Undirected(joint)
				if spoken[name] != "" {
					continue
				}
				angle := s.Angle
				if slices.Contains(s.Opposite, joint) {
					angle = -angle
				}
				spoken[name] = "moved? " + words.Off(angle, s.Expanded)
			}
		}
	}
	return spoken
}
