package find

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find/budget"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/joint/seen"
)

// rich is an answer with something in every place: four cylinders with crowns, one
// throw and one crown outside, a dwell, a suspect reading, lash in the midpoints, a
// zero at the deck, marks of every verdict, and what they point to.
func rich(t *testing.T) Answer {
	t.Helper()
	f := answer(t, "pin")
	f.EveryReading = false
	f.Job.Setup.Gauge.ZeroAtDeck, f.Job.Setup.Gauge.SameZero = true, true
	f.Job.Setup.Engine.ThrowLimit, f.Job.Setup.Engine.CrownLimit = geometry.Degree, 0.5
	f.Job.Setup.Engine.OffsetStated = true
	f.Job.Cylinders = []evidence.Cylinder{{Number: 1}, {Number: 2}, {Number: 3}, {Number: 4}}
	r := f.Results[0]
	r.Trend = halve.Trend{Pattern: halve.LikeLash, Lash: gum.Measured{Value: 0.3, Uncertainty: 0.04}}
	lag := 0.4 * geometry.Degree
	r.Dwell = &adjust.Dwell{Resolved: 0.12, Lag: &lag}
	r.Readings[3].Suspect = true
	f.Results = nil
	var throws []tdc.Throw
	for n := range 4 {
		r.Number = n + 1
		f.Results = append(f.Results, r)
		off := geometry.Angle(n%2) * 3 * geometry.Degree
		throws = append(throws, tdc.Throw{
			Cylinder: n + 1, Estimate: gum.Estimate{Angle: off, Expanded: 0.2 * geometry.Degree},
			Crown: &tdc.Estimated{Value: -1.2 * float64(n/3), Uncertainty: 0.05, Expanded: 0.1},
		})
	}
	f.Results[1].Trend = halve.Trend{Pattern: halve.LikeOffset, Growth: gum.Measured{Value: 0.02, Uncertainty: 0.002}}
	f.Throws = mark.JudgeThrows(f.Job.Setup.Engine, f.Results, throws)
	f.Index = tdc.Index{Told: true, Amplitude: 2 * geometry.Degree, Expanded: 0.3 * geometry.Degree}
	close := f.Marks[0]
	close.Name, close.Verdict, close.Angle, close.Settles, close.ToSettle = "notch", mark.TooClose, 0.9*geometry.Degree, 0.1*geometry.Degree, finding.MoreReadings{Mark: finding.Mark{Name: "notch"}, OfMark: 2}
	close.Notes = []finding.Finding{finding.ReadingsApart{Mark: finding.Mark{Name: "notch"}, Apart: 2 * geometry.Degree}}
	f.Marks = append(f.Marks, close)
	measured := f.Marks[1]
	measured.Name, measured.Unknown, measured.Verdict = "cam edge", true, mark.NothingToHoldAgainst
	f.Measured = []mark.Judged{measured}
	f.Lobes = lobesOf(f, "inlet lobe")
	f.Diagnosis = joint.Diagnosis{
		Tried: 1, Explanations: []joint.Explanation{
			{Slips: []joint.Slip{{Joints: []string{"flywheel on crank"}, Estimate: f.Marks[0].Estimate, Notes: []finding.Finding{finding.NoWholeSteps{Joint: finding.Joint{Name: "flywheel on crank", Off: 3 * geometry.Degree}, Steps: finding.Steps{Step: finding.BoltHole, InTurn: 8}}}}}, ChiSquare: 0.2, DegreesOfFreedom: 2, P: 0.9},
			{Slips: []joint.Slip{{Joints: []string{seen.TDC}, Estimate: f.Marks[0].Estimate}}, ChiSquare: 5, DegreesOfFreedom: 2, P: 0.08},
		},
		TellApart:  []inspect.Look{{How: inspect.ReadAgain, Part: "pin", Apart: []string{"flywheel on crank", seen.TDC}, Separation: 3}},
		Unmeasured: []string{"cam wheel on cam"},
	}
	return f
}

// one is rich of its first cylinder alone.
func one(t *testing.T) Answer {
	t.Helper()
	f := rich(t)
	f.Results, f.Throws = f.Results[:1], nil
	return f
}

// told is an answer's text on one line.
func told(t *testing.T, f Answer) string {
	t.Helper()
	text, err := f.Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// On one screen stand TDC and its ±, what is off and what that points to, what to look
// at first, both tables, and the caution, in that order; and no statistics.
func TestShortSaysWhatMatters(t *testing.T) {
	f := one(t)
	f.Results[0].Findings = []finding.Finding{finding.MaybeBottom{}}
	said := told(t, f)
	require.Regexp(t, `^pin True TDC is at 359\.\d+ ± 0\.\d+ deg on the protractor \(95 %\); the readings agree to 0\.\d+, the rest is the protractor's own error of 0\.25\. `+
		`One of 3 marks \(pin\) is outside its limit, which points to flywheel on crank, 3\.1 ± 0\.\d deg late; all marks agree with this\. `+
		`Do not time the engine by the mark that is outside\. `+
		`- pin: 3\.1 ± 0\.\d deg late, outside the limit of 1 deg\. - notch: 0\.9 ± 0\.\d deg late, too close to the limit of 1 deg to call\. 2 more readings of the mark would settle it, if it stays where it is\. `+
		`First: read the pin again, with a fresh set-up; it tells flywheel on crank and TDC of cylinder 1 apart\. `+
		`- These readings are too coarse to tell TDC from BDC by their shape: make sure that the piston was at the top of its stroke\. Method .* equal drop .* curve fit .* `+
		`Mark, crank deg .* pin .* outside.*unjudged.*no limit given.*notch.*too close to call - notch: The readings lie 2\.0 deg apart: read again\. .*`+
		`Only measured, crank deg .* cam edge .* add --details\. Caution: turn by hand only`, said)
	for _, never := range []string{"chi-square", "p =", "standard uncertaint", "budget", "Check at the bench", "Pointer", "midpoints", "Not checked"} {
		require.NotContains(t, said, never)
	}
	text, err := f.Text(form.Widest)
	require.NoError(t, err)
	require.LessOrEqual(t, strings.Count(string(text), "\n"), 40, "this one has a warning, a note and a mark of every verdict")
}

// Where the protractor or pointer explains the marks, so do parts of the engine in its place:
// both are said, and neither looks like the answer.
func TestProtractorOrParts(t *testing.T) {
	f := one(t)
	off := f.Marks[0].Estimate
	f.Diagnosis = joint.Diagnosis{
		Tried: 1, OnBench: true, Explanations: []joint.Explanation{
			{Slips: []joint.Slip{{Joints: []string{seen.Protractor}, Estimate: off}}, ChiSquare: 0.4, DegreesOfFreedom: 2, P: 0.8},
			{Slips: []joint.Slip{{Joints: []string{"pulley on crank"}, Estimate: off}, {Joints: []string{"cam on cam sprocket"}, Estimate: off}}, ChiSquare: 0.1, DegreesOfFreedom: 1, P: 0.8},
		},
		TellApart: []inspect.Look{{How: inspect.PistonAgain, Part: seen.Protractor, Apart: []string{seen.Protractor, "pulley on crank"}}},
	}
	require.Regexp(t, `which points to protractor or pointer, 3\.1 ± 0\.\d deg late\. `+
		`Where that is ruled out, it may be pulley on crank, 3\.1 ± 0\.\d deg late, and cam on cam sprocket, 3\.1 ± 0\.\d deg late\. `+
		`Before you suspect a part, make sure that protractor and pointer have not moved since the pistons were read, .*`+
		`First: ask what the given angles count from, and read two of the first places of the piston again: .*; it tells protractor or pointer and pulley on crank apart\.`, told(t, f))
	f.Details = true
	require.Regexp(t, `- protractor or pointer, .* Where that is ruled out, it may be 2 slips: - pulley on crank, `, told(t, f))
	require.False(t, picture.OneAnswer(f.Diagnosis))
}

// A disagreement of the methods does not wait for the details; agreement does.
func TestDisagreementIsNotADetail(t *testing.T) {
	f := one(t)
	require.NotContains(t, told(t, f), "Equal drop minus curve fit")
	f.Results[0].Agreement = &tdc.Agreement{Difference: geometry.Degree, Limit: 0.1 * geometry.Degree}
	require.Contains(t, told(t, f), "Equal drop minus curve fit: +1.00 deg, and up to 0.10 could be chance. They disagree")
	f.Results[0].Agreement = nil
	require.Contains(t, told(t, f), "Equal drop has no answer")
}

// What a flag asks for is given without details.
func TestWhatIsAskedForIsGiven(t *testing.T) {
	f := one(t)
	f.EveryReading = true
	f.Trials = []adjust.Trials{{Count: 5000, Seed: 7, Uncertainty: 0.1 * geometry.Degree}}
	said := told(t, f)
	require.Contains(t, said, "5000 trials of the whole job (JCGM 101, seed 7)")
	require.Contains(t, said, "Line turn angle, deg depth, mm off curve, mm weight suspect")
}

// details is what --details adds, in the words of the answer that has it all.
func details(f Answer) (list []string) {
	d := f.Diagnosis
	list = append(looks(d.TellApart), f.explanation(d.Explanations[0]), f.explanation(d.Explanations[1]), summary(d), forgiven,
		"Not checked by any mark: cam wheel on cam. Movement there would not show.",
		"A mark is called only when its whole 95 % interval lies on one side of its limit.", "they are not judged", "notch: it could be called if known to ± 0.1 deg.")
	if f.several() {
		list = append(list, f.index())
	}
	for _, r := range f.Results {
		list = append(append(append(list, f.ofMethods(r)...), f.check(r)...), budget.InWords(r))
		for _, c := range r.Budget {
			if c.Angle.Degrees() >= 0.0005 {
				list = append(list, words.Source(c.Source))
			}
		}
	}
	return list
}

// With details there is everything that the short answer says, and all the rest.
func TestDetailsLoseNothing(t *testing.T) {
	for name, f := range map[string]Answer{"one": one(t), "four": rich(t)} {
		short := f.Document(false)
		f.Details = true
		said := told(t, f)
		list := details(f)
		require.Greater(t, len(list), 20)
		for _, says := range list {
			require.True(t, strings.Contains(said, says), "%s: the details do not say %q", name, says)
		}
		for _, fact := range f.used() {
			require.Contains(t, said, fact.What+": "+fact.Is, name)
		}
		for _, b := range f.head() {
			require.Contains(t, f.Document(true), b, name)
			require.Contains(t, short, b, name)
		}
		require.Contains(t, f.Document(true), f.markTable())
		for _, r := range f.Results {
			require.Contains(t, f.Document(true), f.methodTable(r))
		}
	}
}

// Chi-squares stand behind all else, in the text and on the page: before them a person
// reads words.
func TestStatisticsComeLast(t *testing.T) {
	f := rich(t)
	f.Details = true
	out, err := Page{Answer: f, Version: "evendrop test"}.HTML()
	require.NoError(t, err)
	for _, said := range []string{told(t, f), string(out)} {
		before, after, found := strings.Cut(said, "How well the marks agree, in statistics")
		require.True(t, found)
		for _, statistic := range []string{"chi-square 0.2 with 2 degrees of freedom, p = 0.90", "chi-square 5.0 with 2 degrees of freedom, p = 0.08"} {
			require.Contains(t, after, statistic)
		}
		for _, never := range []string{"chi-square", "Chi-square", "p = ", "degrees of freedom"} {
			require.NotContains(t, before, never)
		}
		require.Contains(t, before, "What was used")
	}
}

// The page says what the details say, and has the pictures, the readings and every
// caution besides.
func TestPageHasTheDetails(t *testing.T) {
	f := rich(t)
	out, err := Page{Answer: f, Version: "evendrop test"}.HTML()
	require.NoError(t, err)
	page := plainPage(string(out))
	f.All = f.Isolated()
	for _, says := range details(f) {
		require.True(t, strings.Contains(page, unmarked(says)), "the page does not say %q", says)
	}
	for _, fact := range f.used() {
		used := unmarked(fact.What + fact.Is)
		require.True(t, strings.Contains(page, used), "the page does not say %q", used)
	}
	for _, c := range caution.List {
		says(t, page, c.Advice)
	}
	require.Equal(t, 1+3+3+2+2, strings.Count(string(out), "<figure>"), "of the sheet, of the first cylinder, of all, of the marks, of the lobe")
	require.Equal(t, 4, strings.Count(string(out), `aria-label="Every reading"`))
	require.Equal(t, 4, strings.Count(string(out), `<tr class="doubtful">`))
	require.Equal(t, strings.Count(string(out), "<div"), strings.Count(string(out), "</div>"))
}

// plainPage is the words of a page.
func plainPage(page string) string {
	return unmarked(strings.NewReplacer("&#39;", "'", "&#34;", `"`).Replace(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, "")))
}

func unmarked(text string) string {
	return strings.NewReplacer("\u2068", "", "\u2069", "").Replace(text)
}

// A job in inches is answered in inches: no millimetre stands in its text, Markdown,
// page or pictures, and the numbers are those of the job in mm. JSON and CSV are in
// millimetres whatever the unit.
func TestInchesEverywhere(t *testing.T) {
	metric, inch := rich(t), rich(t)
	inch.Job.Unit = "in"
	for _, f := range []*Answer{&metric, &inch} {
		f.Details, f.EveryReading = true, true
	}
	millimetres := regexp.MustCompile(`\bmm\b|millimetre`)
	in := told(t, inch)
	markdown, err := inch.Markdown()
	require.NoError(t, err)
	page, err := Page{Answer: inch, Version: "test"}.HTML()
	require.NoError(t, err)
	drawn := regexp.MustCompile(`(?s)<style>.*?</style>|Before you turn an engine.*`).ReplaceAllString(string(page), "")
	for form, text := range map[string]string{"text": in, "markdown": string(markdown), "page": drawn} {
		require.Empty(t, millimetres.FindAllString(text, 3), form)
		require.Contains(t, text, "off curve, in", form)
	}
	for n := range 4 {
		for _, name := range picture.Names {
			svg, err := inch.Picture(name, n)
			if name == picture.Observations {
				require.ErrorContains(t, err, "no stops, dwells or equal views")
				continue
			}
			if n > 0 && (name == picture.Lobes || name == picture.Lean) { // of cylinder 1 alone
				require.ErrorContains(t, err, "[[lobe]]")
				continue
			}
			require.NoError(t, err)
			require.NotContains(t, string(svg), " mm", name)
		}
	}
	require.Regexp(t, millimetres, told(t, metric))

	// 86 mm are 3.3858 in, a crown 1.2 ± 0.1 mm higher 0.047 ± 0.004, and so on by 25.4
	for _, says := range []string{
		"stroke 3.3858 in", "Cylinder 4's crown stands 0.047 ± 0.004 in higher at TDC than the others: outside its limit of 0.0197 in",
		"as 0.0118 ± 0.0031 in of lash makes them", "by +0.51 deg with every inch of drop", "You saw 0.005 in of motion.",
		"points to a protractor 0.137 in off its centre",
	} {
		require.Contains(t, in, says)
	}
	require.Regexp(t, `the gauge should show 0\.0\d+ ± 0\.0\d+ in at`, in)
	require.Regexp(t, `At TDC the crown stands 0\.00\d+ ± 0\.00\d+ in (below|above) the deck`, in)

	for _, data := range []func(Answer) ([]byte, error){Answer.JSON, Answer.CSV} {
		a, err := data(metric)
		require.NoError(t, err)
		b, err := data(inch)
		require.NoError(t, err)
		require.Equal(t, string(a), string(b))
	}
}

// The pointer is moved so that what it reads at TDC becomes 0: toward lower numbers
// from above, toward higher ones from below, and from its side where the scale has
// sides.
func TestPointer(t *testing.T) {
	for _, c := range []struct {
		scale evidence.Scale
		sides bool
		sense evidence.Sense
		at    float64
		says  string
	}{
		{evidence.Full, false, evidence.With, 3.4, "move it 3.40 deg toward lower numbers"},
		{evidence.Full, false, evidence.With, -3.4, "move it 3.40 deg toward higher numbers"},
		{evidence.Full, false, evidence.Against, 3.4, "move it 3.40 deg toward higher numbers"},
		{evidence.Halves, false, evidence.With, -3.4, "move it 3.40 deg toward higher numbers"},
		{evidence.Quadrants, true, evidence.With, -3.4, "move it 3.40 deg to its 0 from the BTDC side"},
		{evidence.Quadrants, true, evidence.With, 3.4, "move it 3.40 deg to its 0 from the ATDC side"},
		{evidence.Full, false, evidence.With, 0.01, "leave it"},
	} {
		f := Answer{}
		f.Job.Setup.Protractor = evidence.DefaultProtractor()
		f.Job.Setup.Protractor.Scale, f.Job.Setup.Protractor.Sense, f.Job.Setup.Protractor.Sides = c.scale, c.sense, c.sides
		r := tdc.Result{TDC: gum.Estimate{Angle: geometry.Angle(c.at) * geometry.Degree, Expanded: 0.3 * geometry.Degree}}
		require.Contains(t, f.pointer(r), c.says, fmt.Sprint(c))
	}
}

// The cautions are of what was used and of what is asked for: a stop, and turning back
// where lash is the worst and the details say so.
func TestCautionsFollowTheAdvice(t *testing.T) {
	f := one(t)
	f.Results[0].Findings = nil
	f.Results[0].Trend = halve.Trend{Pattern: halve.Flat}
	f.Results[0].Dwell = nil
	f.Results[0].Budget = []adjust.Contribution{{Source: adjust.LashSource, Angle: 2}, {Source: adjust.AngleReadings, Angle: 1}}
	require.NotContains(t, f.cautions(false), caution.Back, "nothing asks for it yet")
	require.Contains(t, f.cautions(true), caution.Back)
	require.NotContains(t, f.cautions(true), caution.Stop)
	f.Results[0].Budget = f.Results[0].Budget[1:]
	require.NotContains(t, f.cautions(true), caution.Back)
	f.Results[0].Trend = halve.Trend{Pattern: halve.LikeLash, Lash: gum.Measured{Value: 0.1}}
	require.Contains(t, f.trend(f.Results[0]), "turn back")
	require.Contains(t, f.cautions(true), caution.Back)
	f.Results[0].Trend = halve.Trend{}
	f.Results[0].Findings = []finding.Finding{finding.DwellOneWay{}}
	require.Contains(t, f.cautions(false), caution.Back, "its warning asks for it")
	f.Job.Cylinders[0].Stops = []evidence.Stop{{}}
	require.Contains(t, f.cautions(false), caution.Stop)
}

// Every text that asks for the crank to be turned back brings the caution.
func TestTurningBackIsNeverAskedForAlone(t *testing.T) {
	for source, says := range budget.Cures {
		f := one(t)
		f.Results[0].Trend, f.Results[0].Dwell, f.Results[0].Findings = halve.Trend{}, nil, nil
		f.Results[0].Budget = []adjust.Contribution{{Source: source, Angle: 1}}
		f.Details = true
		require.Equal(t, strings.Contains(says, "turn back") || strings.Contains(says, "turn the engine back"), strings.Contains(told(t, f), caution.Back), source)
	}
}

// Of two crowns neither is told to be the one that is out of place; of three it is.
func TestTwoCrownsAccuseNeither(t *testing.T) {
	f := answer(t, "two crowns")
	f.Job.Setup.Engine.CrownLimit = 0.1
	crown := func(cylinder int, lower float64, v mark.Verdict) mark.JudgedThrow {
		return mark.JudgedThrow{Throw: tdc.Throw{Cylinder: cylinder, Crown: &tdc.Estimated{Value: lower, Uncertainty: 0.05, Expanded: 0.1}}, CrownVerdict: v}
	}
	f.Throws = []mark.JudgedThrow{crown(1, -0.25, mark.Outside), crown(2, 0.25, mark.Outside)}
	said := f.throwSentences()
	require.Len(t, said, 1)
	require.Contains(t, said[0], "Cylinder 2's crown stands 0.25 ± 0.10 mm lower at TDC than the other one")
	require.Contains(t, said[0], "Two alone cannot tell which of them is out of place: read another cylinder.")
	f.Throws = append(f.Throws, crown(3, 0, mark.Within))
	require.Len(t, f.throwSentences(), 2)
	f.Marks, f.Diagnosis = nil, joint.Diagnosis{}
	require.Equal(t, []string{words.ReadOutside}, f.ToLookAt(), "a crown that is outside asks for another look")
	f.Throws = f.Throws[2:]
	require.Empty(t, f.ToLookAt())
}
