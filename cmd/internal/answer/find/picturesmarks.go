package find

import (
	"errors"
	"fmt"
	"slices"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

var errNoMarks = errors.New("the job has no marks to draw: add a [[mark]]")

// marksDial is how far each mark is off, on a dial whose nought is where each
// should be.
func (p Page) marksDial() (chart.Dial, error) {
	if len(p.Marks) == 0 {
		return chart.Dial{}, errNoMarks
	}
	d := chart.Dial{
		Title:       "How far each mark is from where it should be",
		Description: "A dial in crank degrees, opened out; nought is where each mark should be, later is to the right.",
		Zero:        "right",
	}
	for _, m := range p.Marks {
		d.Description += " " + p.bench().Mark(m)
		off, half := m.Angle.Degrees(), m.Expanded.Degrees()
		one := chart.DialMark{
			Name: m.Name, Detail: offText(m) + ": " + string(m.Verdict), At: off, From: off - half, To: off + half,
			Alarm: m.Verdict == mark.Outside,
		}
		if m.HasLimit {
			one.LimitFrom, one.LimitTo = -m.Limit.Degrees(), m.Limit.Degrees()
		}
		d.Marks = append(d.Marks, one)
	}
	return d, nil
}

// offText is how far a mark is off and which way.
func offText(m mark.Judged) string { return lateText(m.Angle, m.Expanded) }

func lateText(angle, expanded geometry.Angle) string {
	places := words.Decimals(expanded.Degrees())
	way := "late"
	if angle < 0 {
		way, angle = "early", -angle
	}
	return fmt.Sprintf("%s ± %s deg %s", words.Fixed(angle.Degrees(), places), words.Fixed(expanded.Degrees(), places), way)
}

// drivePicture is what carries what, down to the marks, and the joints that may
// have moved.
func (p Page) drivePicture() ([]byte, error) {
	if len(p.Marks) == 0 {
		return nil, errNoMarks
	}
	var marks []mark.Mark
	for _, m := range p.Marks {
		marks = append(marks, m.Mark)
	}
	links, err := joint.Links(p.Job.Drive, marks)
	if err != nil {
		return nil, err
	}
	spoken := p.jointWords()
	t := chart.Tree{
		Title:       "The drive",
		Description: "What carries what, from the crank down to the marks. " + p.Headline(),
		Root:        chart.Node{Name: "crank", Children: grown("crank", links, marks, spoken)},
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
func grown(member string, links []joint.Link, marks []mark.Mark, spoken map[string]string) (children []chart.Node) {
	for _, m := range marks {
		if m.On == member {
			children = append(children, chart.Node{Name: "mark: " + m.Name, Word: spoken[undirected(m.Itself())]})
		}
	}
	for _, l := range links {
		if l.Carrier == member {
			children = append(children, chart.Node{Name: l.Carried, Word: spoken[undirected(l.Joint)], Children: grown(l.Carried, links, marks, spoken)})
		}
	}
	return children
}

// jointWords is what the explanations say of each joint, the best of them first.
func (p Page) jointWords() map[string]string {
	spoken := map[string]string{}
	for _, e := range p.Diagnosis.Explanations {
		for _, s := range e.Slips {
			for _, joint := range s.Joints {
				name := undirected(joint)
				if spoken[name] != "" {
					continue
				}
				angle := s.Angle
				if slices.Contains(s.Opposite, joint) {
					angle = -angle
				}
				spoken[name] = "moved? " + lateText(angle, s.Expanded)
			}
		}
	}
	return spoken
}
