package picture

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"evendrop/cmd/internal/chart/bars"
	"evendrop/cmd/internal/chart/tree"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

// OffPlace is the scale of how far things are from where they should be.
var OffPlace = bars.Counted{Unit: "crank degrees", Low: "early", High: "late", Zero: "where it should be"}

// States are the verdicts as states.
var States = map[mark.Verdict]doc.State{mark.Within: doc.Within, mark.Outside: doc.Outside, mark.TooClose: doc.TooClose}

// MarkBar is how far a mark is off, in crank degrees, late positive.
func MarkBar(m mark.Judged) bars.Bar {
	b := bars.Bar{Name: m.Name, Says: words.Off(m.Angle, m.Expanded) + ", " + string(m.Verdict), Measured: MarkMeasured(m), State: States[m.Verdict]}
	if m.HasLimit {
		b.LimitFrom, b.LimitTo = -m.Limit.Degrees(), m.Limit.Degrees()
		b.Allowed = allowed(words.Plain(m.Limit.Degrees()))
	}
	return b
}

// MarkMeasured is the same without its name and what is allowed, for a bar of what was before.
func MarkMeasured(m mark.Judged) bars.Measured { return measured(m.Angle, m.Expanded) }

func measured(off, half geometry.Angle) bars.Measured {
	return bars.Measured{At: off.Degrees(), From: (off - half).Degrees(), To: (off + half).Degrees()}
}

// allowed is said beside a verdict that rests on a limit.
func allowed(limit string) string { return "allowed ± " + limit }

// marksBars is how far each mark is off.
func (b Book) marksBars() (bars.Picture, error) {
	if len(b.Marks) == 0 {
		return bars.Picture{}, errNoMarks
	}
	p := bars.Picture{
		Title:       "How far each mark is off",
		Description: "A bar a mark on one scale of crank degrees; zero is where each mark should be, later is to the right.",
		Counted:     OffPlace,
	}
	for _, m := range b.Marks {
		p.Bars = append(p.Bars, MarkBar(m))
	}
	return p, nil
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
	drive, err := mark.TreeFor(b.Drive, marks)
	if err != nil {
		return nil, err
	}
	joints := b.joints()
	t := tree.Tree{
		Title:       "The drive",
		Description: "What carries what, from the crank down to the marks. " + b.Headline + said(joints),
		Root:        tree.Node{Name: "crank", Children: grown("crank", drive.Joints, marks, joints)},
	}
	if len(joints) > 0 {
		t.Title = "The drive, and what may have moved"
	}
	for _, zero := range []string{seen.Protractor, seen.TDC} {
		if top := joints[zero]; top.word != "" {
			t.Root.Word, t.Root.Standing = zero+": "+top.word, top.standing
		}
	}
	return t.SVG()
}

// moved is what the explanations say of a joint.
type moved struct {
	word     string
	standing tree.Standing
}

// grown is what a member carries: other members, and marks.
func grown(member string, drive []mark.Joint, marks []mark.Mark, joints map[string]moved) (children []tree.Node) {
	for _, m := range marks {
		if m.On == member {
			says := cmp.Or(joints[legible.Undirected(m.Itself())], joints[seen.EdgesOf(m.On)])
			children = append(children, tree.Node{Name: "mark: " + m.Name, Word: says.word, Standing: says.standing})
		}
	}
	for _, j := range drive {
		if j.Carrier == member {
			says := joints[legible.Undirected(j.Name())]
			children = append(children, tree.Node{Name: j.Carried, Word: says.word, Standing: says.standing, Children: grown(j.Carried, drive, marks, joints)})
		}
	}
	return children
}

// joints is what the explanations say of each joint, the best of them first. Only where one
// explanation is left, with one joint to each of its slips, is that the answer.
func (b Book) joints() map[string]moved {
	likely, less, more := b.Diagnosis.Ranked()
	standing := tree.Possible
	if OneAnswer(b.Diagnosis) {
		standing = tree.Answer
	}
	joints := map[string]moved{}
	for _, part := range []struct {
		list     []joint.Explanation
		standing tree.Standing
		says     string
	}{{likely, standing, "moved? "}, {more, tree.Possible, "moved? "}, {less, tree.Dismissed, "much less likely: "}} {
		for _, e := range part.list {
			for _, s := range e.Slips {
				take(joints, s, part.standing, part.says)
			}
		}
	}
	return joints
}

// take says of a slip's joints what nothing better was said of.
func take(joints map[string]moved, s joint.Slip, standing tree.Standing, says string) {
	for _, name := range s.Joints {
		angle := s.Angle
		if slices.Contains(s.Opposite, name) {
			angle = -angle
		}
		if name = legible.Undirected(name); joints[name].word == "" {
			joints[name] = moved{says + words.Off(angle, s.Expanded), standing}
		}
	}
}

// OneAnswer tells whether the marks point to one set of joints and no other: those may look
// like the answer.
func OneAnswer(d joint.Diagnosis) bool {
	likely, _, more := d.Ranked()
	if len(likely) != 1 || d.Tried == 0 || len(more) > 0 && (likely[0].ByLimits() || d.OnBench) {
		return false
	}
	return !slices.ContainsFunc(likely[0].Slips, func(s joint.Slip) bool { return len(s.Joints) > 1 })
}

// said is what the picture says of each joint, in the order of their names.
func said(joints map[string]moved) (text string) {
	for _, name := range slices.Sorted(maps.Keys(joints)) {
		text += fmt.Sprintf(" %s: %s.", name, joints[name].word)
	}
	return text
}
