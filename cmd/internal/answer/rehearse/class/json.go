package class

import (
	"strconv"

	"evendrop/cmd/internal/form"
)

type markedJSON struct {
	form.Head
	Summary summaryJSON  `json:"summary"`
	Answers []answerJSON `json:"answers"`
}

type summaryJSON struct {
	Answers   int          `json:"answers"`
	Learners  int          `json:"learners"`
	Right     int          `json:"right"`
	MeanOff   float64      `json:"mean_off_deg" doc:"whichever way"`
	Half      float64      `json:"half_within_deg" doc:"half of the answers are off by no more, whichever way"`
	Promised  int          `json:"promised" doc:"answers with a half-width"`
	Held      int          `json:"held"`
	Wide      int          `json:"wide" doc:"among those held: more than three times as wide as evendrop's own"`
	Pins      int          `json:"pins"`
	PinsRight int          `json:"pins_right"`
	Traps     []fallenJSON `json:"traps" doc:"that answers seem to have come from"`
}

type fallenJSON struct {
	Name    string   `json:"name"`
	Count   int      `json:"count"`
	Engines []int    `json:"engines"`
	Who     []string `json:"who" doc:"each with the engine"`
}

type answerJSON struct {
	Name     string   `json:"name"`
	Engine   int      `json:"engine"`
	Line     int      `json:"line"`
	Verdict  string   `json:"verdict" enum:"within|outside"`
	Given    float64  `json:"given_deg"`
	TDC      float64  `json:"tdc_deg" doc:"the truth"`
	Off      float64  `json:"off_deg" doc:"late positive"`
	Limit    float64  `json:"limit_deg" doc:"an answer this near is right"`
	Promised *float64 `json:"promised_deg" doc:"the half-width that the learner promised; null: none"`
	Held     *bool    `json:"held" doc:"whether the truth lies in it; null: nothing was promised"`
	Near     *string  `json:"near" doc:"the trap that the answer seems to have come from; null: none"`
	Pin      *pinJSON `json:"pin" doc:"null: nothing was said of it"`
	Own      ownJSON  `json:"evendrop" doc:"what evendrop finds from the same job"`
}

type pinJSON struct {
	Given string `json:"given" enum:"within|outside"`
	Truth string `json:"truth" enum:"within|outside"`
	Right bool   `json:"right"`
}

type ownJSON struct {
	Off    float64  `json:"off_deg" doc:"late positive"`
	Within *float64 `json:"expanded_deg" doc:"half the 95 % interval; null: not determined"`
	Pin    *string  `json:"pin" enum:"within|outside|too close to call|no limit given|only measured" doc:"null: the job has none any more, or it cannot be judged"`
	Untold *string  `json:"cannot_tell" doc:"why TDC cannot be determined; null where it can"`
}

// JSON is the marks as JSON.
func (m Marked) JSON() ([]byte, error) {
	s := m.summary()
	out := markedJSON{form.Format1, summaryJSON{s.Answers, s.Learners, s.Right, s.MeanOff, s.HalfWithin, s.Promised, s.Held, s.Wide, s.Pins, s.PinsRight, []fallenJSON{}}, []answerJSON{}}
	for _, f := range s.Traps {
		out.Summary.Traps = append(out.Summary.Traps, fallenJSON(f))
	}
	for _, r := range m.rows {
		out.Answers = append(out.Answers, r.json())
	}
	return form.JSON(out)
}

func (r row) json() answerJSON {
	a := answerJSON{
		Name: r.Name, Engine: r.Engine, Line: r.Line, Verdict: r.verdict(), Given: r.Marked.Given, TDC: r.Answer.TDC, Off: r.Off, Limit: r.Limit,
		Own: ownJSON{r.Own.Off, form.Finite(r.Own.Within), said(string(r.Own.Pin)), said(r.Own.Untold)},
	}
	if r.answered.Within != nil {
		promise := r.promise()
		a.Promised, a.Held = new(r.promised()), new(promise == heldIt || promise == tooWide)
	}
	if r.Near != nil {
		a.Near = &r.Near.Name
	}
	if r.pin() != "" {
		a.Pin = &pinJSON{r.pin(), r.pinTruth(), r.pinRight()}
	}
	return a
}

// said is a text for JSON, null where there is none.
func said(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// CSV is a row an answer, as they were in the file.
func (m Marked) CSV() ([]byte, error) {
	rows := [][]string{{"name", "engine", "verdict", "given_deg", "tdc_deg", "off_deg", "limit_deg", "promised_deg", "promise", "pin", "pin_truth", "near",
		"evendrop_off_deg", "evendrop_expanded_deg"}}
	for _, r := range m.rows {
		j := r.json()
		near := ""
		if j.Near != nil {
			near = *j.Near
		}
		rows = append(rows, []string{r.Name, strconv.Itoa(r.Engine), j.Verdict, form.Digits(j.Given), form.Digits(j.TDC), form.Digits(j.Off), form.Digits(j.Limit),
			form.Known(j.Promised), string(r.promise()), r.pin(), r.pinTruth(), near, form.Digits(r.Own.Off), form.Known(j.Own.Within)})
	}
	return form.CSV(rows)
}
