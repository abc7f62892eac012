package keep

import (
	"fmt"
	"strconv"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/answer/recheck"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
)

// Kept is a known-good file that was made, and of which jobs.
type Kept struct {
	knownGood knowngood.File
	jobs      []found.All
	unlike    []healthy.Unlike // lobes that are in no mean, their engines by job
}

// File is the known-good file as it is written.
func (k Kept) File() []byte { return k.knownGood.Text(head) }

// head explains a known-good file to whoever opens it.
const head = `Known-good marks, as measured on healthy engines and written by evendrop keep.
Compare an engine in doubt with them: evendrop find JOB --against THIS-FILE
Crank degrees; should_be counts from the piston's TDC; late is positive.`

// Document is the answer in words.
func (k Kept) Document() doc.Document {
	var d doc.Document
	d.Say(fmt.Sprintf("%s of %s kept in %s. Compare another engine with it: evendrop find JOB --against %s",
		words.Capital(words.Count(len(k.knownGood.Marks)+len(k.knownGood.Lobes), "mark")), words.Count(len(k.jobs), "engine"), k.knownGood.File, words.ShellWord(k.knownGood.File)))
	t := doc.Table{Header: []string{"Mark, crank deg", "should be", "± (95 %)", "scatter", "engines"}}
	for _, h := range k.knownGood.Marks {
		e := h.Estimate()
		places := words.Decimals(e.Expanded.Degrees())
		scatter := ""
		if h.Scatter > 0 {
			scatter = words.Fixed(h.Scatter.Degrees(), places)
		}
		t.Rows = append(t.Rows, []string{
			h.Name, words.Fixed(h.Angle.Degrees(), places), words.Fixed(e.Expanded.Degrees(), places), scatter, strconv.Itoa(h.Engines),
		})
	}
	d.Table(t)
	for _, l := range k.knownGood.Lobes {
		d.Say(lobeText(l))
	}
	if len(k.jobs) > 1 {
		d.Say("± is what to expect of another healthy engine: how well the mean is known, and how much engines differ beyond what measuring them explains.")
	}
	d.List(k.doubts())
	d.Say(caution.Line)
	return d
}

// lobeText is what was kept of a lobe.
func lobeText(l healthy.Kept) string {
	text := fmt.Sprintf("%s: its curve, by %s on its flanks", l.Name, words.Count(len(l.Points), "reading"))
	switch {
	case l.Engines < 2:
		return text + " of one engine."
	case l.Scatter == 0:
		return text + fmt.Sprintf(", the mean of %s, which differ by no more than measuring them explains.", words.Count(l.Engines, "engine"))
	}
	return text + fmt.Sprintf(", the mean of %s, which scatter by some %s deg more than measuring them explains.",
		words.Count(l.Engines, "engine"), words.Fixed(l.Scatter.Degrees(), 2))
}

// leftOut is of a lobe that is in no mean.
func (k Kept) leftOut(u healthy.Unlike) string {
	file := k.jobs[u.Engine].Job.File
	if u.Shape {
		return fmt.Sprintf("%s: the %s has another shape than the first engine's, and was left out of the mean. Check that it is the same cam, its gauge and rocker, and that the lobe is not worn.", file, u.Name)
	}
	return fmt.Sprintf("%s: the %s was left out of the mean. Too few of its readings lie at the lifts of the first engine's, or it has another shape.", file, u.Name)
}

// doubts is what speaks against calling the engines healthy.
func (k Kept) doubts() []string {
	var list []string
	for _, u := range k.unlike {
		list = append(list, k.leftOut(u))
	}
	for i, f := range k.jobs {
		if name, first := f.Job.Setup.Engine.Name, k.jobs[0].Job.Setup.Engine.Name; i > 0 && recheck.OtherNames(first, name) {
			list = append(list, fmt.Sprintf("%s: its engine is called %s, and that of %s %s: keep engines of one family only.", f.Job.File, name, k.jobs[0].Job.File, first))
		}
		for _, other := range k.jobs[:i] {
			if job.SameReadings(other.Job, f.Job) {
				list = append(list, fmt.Sprintf("%s and %s have the same readings, to the last digit: make sure that these are two engines, or keep one of them.", other.Job.File, f.Job.File))
			}
		}
		for _, m := range f.Marks {
			if m.Verdict == mark.Outside || m.Verdict == mark.TooClose {
				list = append(list, fmt.Sprintf("%s: the %s is %s, and its limit is %s deg (%s). Make sure that this engine is healthy before you rely on it.",
					f.Job.File, m.Name, words.Off(m.Angle, m.Expanded), words.Plain(m.Limit.Degrees()), m.Verdict))
			}
		}
	}
	return list
}

type keptJSON struct {
	form.Head
	File    string         `json:"file" doc:"the known-good file that was written"`
	Engines int            `json:"engines"`
	Marks   []keptMarkJSON `json:"marks"`
	Lobes   []keptLobeJSON `json:"lobes" doc:"each one curve, the mean of the engines that have it"`
	Doubts  []string       `json:"doubts" doc:"what speaks against calling the engines healthy"`
}

type keptMarkJSON struct {
	Name        string   `json:"name"`
	ShouldBe    float64  `json:"should_be_deg"`
	Uncertainty float64  `json:"standard_uncertainty_deg" doc:"of the mean"`
	Expanded    float64  `json:"expanded_uncertainty_deg" doc:"95 %, for another healthy engine"`
	Scatter     *float64 `json:"scatter_deg" doc:"among engines; null: none beyond what measuring explains"`
	Engines     int      `json:"engines"`
	Limit       *float64 `json:"limit_deg"`
}

type keptLobeJSON struct {
	Name     string   `json:"name"`
	Top      float64  `json:"top_mm"`
	Readings int      `json:"readings" doc:"on both flanks, of all engines"`
	Engines  int      `json:"engines"`
	Scatter  *float64 `json:"scatter_deg" doc:"among engines; null: none beyond what measuring explains"`
}

func (k Kept) lobes() []keptLobeJSON {
	list := []keptLobeJSON{}
	for _, l := range k.knownGood.Lobes {
		j := keptLobeJSON{Name: l.Name, Top: l.Top.Millimetres(), Readings: len(l.Points), Engines: max(1, l.Engines)}
		if l.Scatter > 0 {
			j.Scatter = form.Finite(l.Scatter.Degrees())
		}
		list = append(list, j)
	}
	return list
}

func (k Kept) marks() []keptMarkJSON {
	list := []keptMarkJSON{}
	for _, h := range k.knownGood.Marks {
		j := keptMarkJSON{
			Name: h.Name, ShouldBe: h.Angle.Degrees(), Uncertainty: h.Uncertainty.Degrees(), Expanded: h.Estimate().Expanded.Degrees(), Engines: h.Engines,
		}
		if h.Scatter > 0 {
			j.Scatter = form.Finite(h.Scatter.Degrees())
		}
		if h.HasLimit {
			j.Limit = form.Finite(words.Stated(h.Limit))
		}
		list = append(list, j)
	}
	return list
}

// JSON is the answer as JSON.
func (k Kept) JSON() ([]byte, error) {
	return form.JSON(keptJSON{form.Format1, k.knownGood.File, len(k.jobs), k.marks(), k.lobes(), append([]string{}, k.doubts()...)})
}

// CSV is the answer as a table of marks.
func (k Kept) CSV() ([]byte, error) {
	rows := [][]string{{"name", "should_be_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg", "scatter_deg", "engines", "limit_deg"}}
	for _, j := range k.marks() {
		rows = append(rows, []string{
			j.Name, form.Digits(j.ShouldBe), form.Digits(j.Uncertainty), form.Digits(j.Expanded), form.Known(j.Scatter), strconv.Itoa(j.Engines), form.Known(j.Limit),
		})
	}
	return form.CSV(rows)
}
