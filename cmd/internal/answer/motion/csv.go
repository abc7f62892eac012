package motion

import "evendrop/cmd/internal/form"

// CSV is the answer as one table: rows and dwells of every engine, and liquid.
func (m Motion) CSV() ([]byte, error) {
	rows := [][]string{{
		"kind", "engine", "stroke_mm", "rod_mm", "offset_mm", "angle_deg", "drop_mm", "slope_mm_per_deg", "speed_m_per_s", "volume_cm3",
		"swept_since_tdc_cm3", "pure_cosine_drop_mm", "rise_from_bdc_mm",
		"within_mm", "before_deg", "after_deg", "total_deg", "pure_cosine_total_deg", "bdc_total_deg", "liquid_ml", "full_at_deg",
	}}
	for n, e := range m.Engines {
		more, err := m.engineCSV(m.letter(n), e)
		if err != nil {
			return nil, err
		}
		rows = append(rows, more...)
	}
	return form.CSV(rows)
}

func (m Motion) engineCSV(letter string, e MotionEngine) ([][]string, error) {
	j, err := m.engineJSON(e)
	if err != nil {
		return nil, err
	}
	begin := func(kind string) []string {
		return []string{kind, letter, form.Digits(j.Engine.Stroke), form.Digits(j.Engine.Rod), form.Digits(e.Offset().Millimetres())}
	}
	var out [][]string
	for _, r := range j.Rows {
		out = append(out, append(begin("row"), form.Digits(r.Angle), form.Digits(r.Drop), form.Digits(r.Slope), form.Known(r.Speed), form.Known(r.Volume),
			form.Known(r.Swept), form.Digits(r.Cosine), form.Digits(r.AtBDC), "", "", "", "", "", "", "", ""))
	}
	for _, d := range j.Dwell {
		out = append(out, append(begin("dwell"), "", "", "", "", "", "", "", "", form.Digits(d.Within), form.Digits(d.Before), form.Digits(d.After),
			form.Digits(d.Total), form.Digits(d.Cosine), form.Digits(d.AtBDC), "", ""))
	}
	if l := j.Liquid; l != nil {
		out = append(out, append(begin("liquid"), "", "", "", "", "", "", "", "", "", "", "", "", "", "", form.Digits(l.Volume), form.Known(l.FullAt)))
	}
	return out, nil
}
