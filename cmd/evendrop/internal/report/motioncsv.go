package report

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
	return csvOf(rows)
}

func (m Motion) engineCSV(letter string, e MotionEngine) ([][]string, error) {
	j, err := m.engineJSON(e)
	if err != nil {
		return nil, err
	}
	begin := func(kind string) []string {
		return []string{kind, letter, digits(j.Engine.Stroke), digits(j.Engine.Rod), digits(e.Offset().Millimetres())}
	}
	var out [][]string
	for _, r := range j.Rows {
		out = append(out, append(begin("row"), digits(r.Angle), digits(r.Drop), digits(r.Slope), maybe(r.Speed), maybe(r.Volume),
			maybe(r.Swept), digits(r.Cosine), digits(r.AtBDC), "", "", "", "", "", "", "", ""))
	}
	for _, d := range j.Dwell {
		out = append(out, append(begin("dwell"), "", "", "", "", "", "", "", "", digits(d.Within), digits(d.Before), digits(d.After),
			digits(d.Total), digits(d.Cosine), digits(d.AtBDC), "", ""))
	}
	if l := j.Liquid; l != nil {
		out = append(out, append(begin("liquid"), "", "", "", "", "", "", "", "", "", "", "", "", "", "", digits(l.Volume), maybe(l.FullAt)))
	}
	return out, nil
}

// maybe is a number, or nothing when it is unknown.
func maybe(x *float64) string {
	if x == nil {
		return ""
	}
	return digits(*x)
}
