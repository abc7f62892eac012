package recheck

import (
	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/data"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
)

type recheckJSON struct {
	form.Head
	TDC        changeJSON     `json:"tdc" doc:"as the protractor shows it"`
	Marks      []changeJSON   `json:"marks"`
	OnlyBefore []string       `json:"only_before"`
	OnlyAfter  []string       `json:"only_after"`
	Back       []string       `json:"back" doc:"of each slip that the marks pointed to before"`
	Findings   []form.Finding `json:"findings" doc:"the same, with their numbers"`
	Before     pointsToJSON   `json:"before"`
	After      pointsToJSON   `json:"after"`
}

type pointsToJSON struct {
	Title        string             `json:"title"`
	Explanations []data.Explanation `json:"explanations"`
}

type changeJSON struct {
	Name        string     `json:"name"`
	Before      float64    `json:"before_deg"`
	After       float64    `json:"after_deg"`
	Change      float64    `json:"change_deg"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Expanded    float64    `json:"expanded_uncertainty_deg"`
	Interval    [2]float64 `json:"interval95_deg"`
	Limit       float64    `json:"within_deg" doc:"what a change that is none must lie within"`
	Verdict     string     `json:"verdict" enum:"changed|unchanged|too close to call"`
}

func changeOf(name string, before, after, by float64, c mark.Change) changeJSON {
	half := c.Expanded.Degrees()
	return changeJSON{
		name, before, after, by, c.Uncertainty.Degrees(), half, [2]float64{by - half, by + half}, words.Stated(c.Within), string(c.Verdict),
	}
}

func (r Recheck) changes() (tdc changeJSON, marks []changeJSON) {
	shown := func(f find.Answer) float64 { return f.Job.Setup.Protractor.Shows(f.Results[0].TDC.Angle).Degrees() }
	tdc = changeOf("true TDC", shown(r.Before), shown(r.After), r.shift().Degrees(), r.TDC)
	marks = []changeJSON{}
	for _, c := range r.Marks {
		marks = append(marks, changeOf(c.After.Name, c.Before.Angle.Degrees(), c.After.Angle.Degrees(), c.Angle.Degrees(), c))
	}
	return tdc, marks
}

// JSON is the answer as JSON.
func (r Recheck) JSON() ([]byte, error) {
	out := recheckJSON{
		Head:       form.Format1,
		OnlyBefore: append([]string{}, missing(r.Before.AllMarks(), r.After.AllMarks())...),
		OnlyAfter:  append([]string{}, missing(r.After.AllMarks(), r.Before.AllMarks())...),
		Back:       r.bench().Findings(r.back()),
		Findings:   form.Findings(r.back(), r.bench().Finding),
		Before:     pointsToJSON{r.Before.Job.Title, data.Explanations(r.Before.All)},
		After:      pointsToJSON{r.After.Job.Title, data.Explanations(r.After.All)},
	}
	out.TDC, out.Marks = r.changes()
	return form.JSON(out)
}

// CSV is the answer as a table of marks, TDC first.
func (r Recheck) CSV() ([]byte, error) {
	rows := [][]string{{"kind", "name", "before_deg", "after_deg", "change_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg", "verdict"}}
	tdc, marks := r.changes()
	row := func(kind string, c changeJSON) {
		rows = append(rows, []string{kind, c.Name, form.Digits(c.Before), form.Digits(c.After), form.Digits(c.Change), form.Digits(c.Uncertainty), form.Digits(c.Expanded), c.Verdict})
	}
	row("tdc", tdc)
	for _, c := range marks {
		row("mark", c)
	}
	return form.CSV(rows)
}
