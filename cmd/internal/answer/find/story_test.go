package find

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
)

// printedOf is a find with what its marks point to, by itself and against a healthy
// engine.
func printedOf(t *testing.T, name string) []answertest.Printed {
	t.Helper()
	f := answer(t, name)
	var err error
	f.Diagnosis, err = joint.Explain(f.Job.Setup, mark.Drive{}, f.Marks, nil)
	require.NoError(t, err)
	f.Marks[0].Notes = []finding.Finding{finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: name, Off: 3 * geometry.Degree}}, Offset: 8}, finding.OnItsLimit{Mark: finding.Mark{Name: name}}}
	kept, err := mark.Combine(mark.Keep(f.Marks))
	require.NoError(t, err)
	known := knowngood.File{File: "good.toml", Marks: kept, From: []knowngood.Condition{{Title: name}}}
	against := f
	against.Against = &known
	return []answertest.Printed{f, against}
}

// Whatever a mark is called, text fits a terminal and has no control characters,
// Markdown holds no tag, every row of CSV has its cells and no formula, and JSON is
// JSON that keeps the name.
func TestNamesHarmNothing(t *testing.T) {
	for _, name := range answertest.Hostile {
		for _, p := range printedOf(t, name) {
			answertest.Holds(t, name, p)
		}
	}
}

// A look names up to four joints, and counts more; one with a number says it.
func TestLooks(t *testing.T) {
	said := looks([]inspect.Look{
		{How: inspect.ReadAgain, Part: "pin", Apart: []string{"a", "b"}}, {How: inspect.ReadAgain, Part: "pin", Apart: []string{"a", "b", "c"}, Separation: 4.2},
		{How: inspect.ReadAgain, Part: "pin", Apart: []string{"a", "b", "c", "d", "e"}},
	})
	require.Equal(t, "Read the pin again, with a fresh set-up: tells a and b apart.", said[0])
	require.Regexp(t, `tells a, b and c apart \(1 chance in \d+ of taking one for another\)\.$`, said[1]) // half of 4.2, one-sided: 0.018
	require.Equal(t, "Read the pin again, with a fresh set-up: bears on 5 of them.", said[2])
}

// An explanation that only limits allow, or that is much less likely than another,
// is told apart, unless there is none such; then one of more slips follows.
func TestLikely(t *testing.T) {
	slip := func(name string) []joint.Slip { return []joint.Slip{{Joints: []string{name}}} }
	fits := joint.Explanation{Slips: slip("belt"), ChiSquare: 11, DegreesOfFreedom: 5}        // 5 % of 5 is at 11.07
	forgiven := joint.Explanation{Slips: slip("wheel"), ChiSquare: 11.2, DegreesOfFreedom: 5} // (tables of chi-square)
	f := Answer{All: found.All{Marks: []mark.Judged{{Mark: mark.Mark{Name: "pin", HasLimit: true, Limit: geometry.Degree}, Verdict: mark.Outside}}}}
	f.Diagnosis = joint.Diagnosis{Tried: 1, Explanations: []joint.Explanation{fits, forgiven}}
	require.Contains(t, f.Headline(), "The only mark (pin) is outside its limit, which points to belt, ")
	var d doc.Document
	f.pointsTo(&d, f.plotted(form.Widest))
	text, err := form.Terminal(d, form.Widest)
	require.NoError(t, err)
	require.Regexp(t, `(?s)All marks agree with one slip, and no other explanation is as likely:\n\n- belt.*Much less likely.*- wheel`, string(text))
	worse := joint.Explanation{Slips: slip("wheel"), ChiSquare: 4, DegreesOfFreedom: 5} // 5 % of 1 is at 3.84
	best := joint.Explanation{Slips: slip("belt"), ChiSquare: 0.1, DegreesOfFreedom: 5}
	f.Diagnosis.Explanations = []joint.Explanation{best, worse}
	require.Contains(t, f.Headline(), "which points to belt, ")
	f.Diagnosis.Explanations[1].ChiSquare = 3.9
	require.Contains(t, f.Headline(), "cannot tell 2 explanations apart; ")
	f.Diagnosis.Explanations = []joint.Explanation{forgiven, forgiven}
	require.Contains(t, f.Headline(), "and the marks cannot tell 2 explanations apart; the likeliest is wheel")
	two := joint.Explanation{Slips: append(slip("hub"), slip("belt")...), ChiSquare: 3, DegreesOfFreedom: 4}
	f.Diagnosis.Explanations = []joint.Explanation{forgiven, two}
	require.Contains(t, f.Headline(), "which points to wheel, 0.0 ± 0.0 deg late; 2 slips would fit better.")
	d = doc.Document{}
	f.pointsTo(&d, f.plotted(form.Widest))
	text, err = form.Terminal(d, form.Widest)
	require.NoError(t, err)
	require.Regexp(t, `(?s)All marks agree with one slip.*- wheel.*than\s+chance\s+explains\.\s+So\s+it\s+may\s+be\s+2\s+slips:\n\n- hub.*belt`, string(text))
	f.Diagnosis.Explanations = nil
	require.Contains(t, f.Headline(), "and no single slip explains what")
}
