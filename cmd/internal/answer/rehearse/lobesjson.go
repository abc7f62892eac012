package rehearse

import (
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/practice/cams"
)

type lobeRehearsalJSON struct {
	form.Head
	Lobe    string          `json:"lobe"`
	Answers []lobeAngleJSON `json:"answers"`
	Fault   *lobeFaultJSON  `json:"fault" doc:"null: the learner said nothing of it"`
	Traps   []lobeTrapJSON  `json:"traps" doc:"those of the angles that were marked"`
}

type lobeAngleJSON struct {
	What    string  `json:"what" enum:"opens|closes|centre|late" doc:"the first three after TDC; late: of the cam, late positive"`
	Verdict string  `json:"verdict" enum:"within|outside"`
	Given   float64 `json:"given_deg"`
	Truth   float64 `json:"truth_deg"`
	Off     float64 `json:"off_deg" doc:"late positive"`
	Limit   float64 `json:"limit_deg" doc:"an answer this near is right"`
	Near    *string `json:"near" doc:"the trap that the answer seems to have come from; null: none"`
}

type lobeFaultJSON struct {
	Given string  `json:"given" enum:"nothing|moved|lift|both"`
	Truth string  `json:"truth" enum:"nothing|moved|lift|both"`
	Right bool    `json:"right"`
	Late  float64 `json:"late_deg"`
	Lost  float64 `json:"lift_lost_mm"`
}

type lobeTrapJSON struct {
	Name string  `json:"name"`
	What string  `json:"what" enum:"opens|closes|centre|late"`
	At   float64 `json:"deg" doc:"where it leads"`
	Why  string  `json:"why"`
}

// JSON is the answer as JSON.
func (r LobeRehearsal) JSON() ([]byte, error) {
	out := lobeRehearsalJSON{Head: form.Format1, Lobe: r.Name, Answers: []lobeAngleJSON{}, Traps: []lobeTrapJSON{}}
	for _, m := range r.angles {
		out.Answers = append(out.Answers, lobeAngleJSON{string(m.What), verdictOf(m), m.Given, m.Truth, m.Off, m.Limit, nearOf(m)})
	}
	if r.said != "" {
		out.Fault = &lobeFaultJSON{string(r.said), string(r.Fault), r.right(), r.Late.Truth, r.Lost}
	}
	for _, t := range r.Traps {
		if r.asked(t.What) {
			out.Traps = append(out.Traps, lobeTrapJSON{t.Name, string(t.What), t.At, t.Why})
		}
	}
	return form.JSON(out)
}

func nearOf(m cams.Marked) *string {
	if m.Near == nil {
		return nil
	}
	return &m.Near.Name
}

// CSV is the answer, a row an angle, and one for what befell the cam.
func (r LobeRehearsal) CSV() ([]byte, error) {
	rows := [][]string{{"what", "verdict", "given", "truth", "off_deg", "limit_deg", "near"}}
	for _, m := range r.angles {
		near := ""
		if m.Near != nil {
			near = m.Near.Name
		}
		rows = append(rows, []string{string(m.What), verdictOf(m), form.Digits(m.Given), form.Digits(m.Truth), form.Digits(m.Off), form.Digits(m.Limit), near})
	}
	if r.said != "" {
		verdict := "wrong"
		if r.right() {
			verdict = "right"
		}
		rows = append(rows, []string{"fault", verdict, string(r.said), string(r.Fault), "", "", ""})
	}
	return form.CSV(rows)
}
