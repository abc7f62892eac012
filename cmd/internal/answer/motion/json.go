package motion

import (
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
)

type motionJSON struct {
	form.Head
	motionEngineJSON
	Engines  []motionEngineJSON `json:"engines" doc:"every one, the first too"`
	Cautions []string           `json:"cautions"`
}

type motionEngineJSON struct {
	Engine motionSizesJSON `json:"engine"`
	Rows   []motionRowJSON `json:"rows"`
	Dwell  []dwellJSON     `json:"dwell"`
	Liquid *liquidJSON     `json:"liquid" doc:"null: not asked for"`
}

type motionSizesJSON struct {
	Stroke      float64  `json:"stroke_mm" doc:"twice the throw"`
	Rod         float64  `json:"rod_mm"`
	PinOffset   *float64 `json:"pin_offset_mm" doc:"null: not stated"`
	BoreOffset  *float64 `json:"bore_offset_mm" doc:"null: not stated"`
	Bore        *float64 `json:"bore_mm" doc:"null: not stated"`
	Compression *float64 `json:"compression_ratio" doc:"null: not stated"`
	Travel      float64  `json:"travel_mm" doc:"of the piston, from BDC to TDC"`
	TDC         float64  `json:"tdc_after_throw_along_bore_deg"`
	Downstroke  float64  `json:"downstroke_deg"`
	Swept       *float64 `json:"swept_cm3" doc:"null: without a bore"`
	Clearance   *float64 `json:"clearance_cm3" doc:"null: without a bore and a ratio"`
	RPM         *float64 `json:"rpm" doc:"null: not stated"`
	MeanSpeed   *float64 `json:"mean_speed_m_per_s" doc:"null: without rpm"`
}

type motionRowJSON struct {
	Angle  float64  `json:"angle_deg" doc:"from TDC, late positive"`
	Drop   float64  `json:"drop_mm"`
	Slope  float64  `json:"slope_mm_per_deg"`
	Speed  *float64 `json:"speed_m_per_s" doc:"null: without rpm"`
	Volume *float64 `json:"volume_cm3" doc:"above the piston; null: without a bore and a ratio"`
	Swept  *float64 `json:"swept_since_tdc_cm3" doc:"null: without a bore"`
	Cosine float64  `json:"pure_cosine_drop_mm"`
	AtBDC  float64  `json:"rise_from_bdc_mm" doc:"as far from BDC"`
}

type dwellJSON struct {
	Within float64 `json:"within_mm"`
	Before float64 `json:"before_deg"`
	After  float64 `json:"after_deg"`
	Total  float64 `json:"total_deg"`
	Cosine float64 `json:"pure_cosine_total_deg"`
	AtBDC  float64 `json:"bdc_total_deg"`
}

type liquidJSON struct {
	Volume  float64  `json:"volume_ml"`
	FullAt  *float64 `json:"full_at_deg" doc:"from TDC, so negative; null: see outcome"`
	Outcome string   `json:"outcome"`
	Ratio   *float64 `json:"compression_ratio_with_it" doc:"null: see outcome"`
}

// JSON is the answer as JSON. rows, dwell and liquid are the first engine's.
func (m Motion) JSON() ([]byte, error) {
	out := motionJSON{Head: form.Format1}
	for _, e := range m.engines {
		j, err := m.engineJSON(e)
		if err != nil {
			return nil, err
		}
		out.Engines = append(out.Engines, j)
	}
	out.motionEngineJSON = out.Engines[0]
	out.Cautions = allCautions()
	return form.JSON(out)
}

func allCautions() (out []string) {
	for _, c := range caution.List {
		out = append(out, c.Hazard+": "+c.Advice)
	}
	return out
}

func (m Motion) engineJSON(e engine) (motionEngineJSON, error) {
	j := motionEngineJSON{Engine: m.sizesJSON(e)}
	for _, u := range m.angles {
		r := m.row(e, u)
		j.Rows = append(j.Rows, motionRowJSON{
			Angle: words.Stated(u), Drop: r.drop.Millimetres(), Slope: r.slope.MillimetresPerDegree(), Speed: r.speed, Volume: r.volume,
			Swept: r.swept, Cosine: r.cosine.Millimetres(), AtBDC: r.riseAtBDC.Millimetres(),
		})
	}
	for _, within := range m.within {
		d, err := e.dwell(within)
		if err != nil {
			return j, err
		}
		j.Dwell = append(j.Dwell, dwellJSON{
			within.Millimetres(), d.before.Degrees(), d.after.Degrees(), d.total().Degrees(), d.cosine.Degrees(), d.atBDC.Degrees(),
		})
	}
	if m.liquid == 0 {
		return j, nil
	}
	t, err := m.trapped(e)
	j.Liquid = &liquidJSON{Volume: m.liquid.CubicCentimetres(), Outcome: t.outcome, Ratio: t.ratio}
	if t.fullAt != nil {
		j.Liquid.FullAt = new(t.fullAt.Degrees())
	}
	return j, err
}

func (m Motion) sizesJSON(e engine) motionSizesJSON {
	s := motionSizesJSON{
		Stroke: 2 * e.Throw().Millimetres(), Rod: e.Rod().Millimetres(), Bore: known(e.bore.Millimetres()), Compression: known(e.compression),
		Travel: e.Stroke().Millimetres(), TDC: e.TDC().Degrees(), Downstroke: e.downstroke().Degrees(),
		RPM: known(m.rpm), MeanSpeed: known(2 * e.Stroke().Millimetres() * m.rpm / 60000),
		Swept: known(e.area() * e.Stroke().Millimetres() / 1000),
	}
	if e.offsetStated {
		s.PinOffset, s.BoreOffset = new(e.pinOffset.Millimetres()), new(e.boreOffset.Millimetres())
	}
	if e.cylinder != nil {
		s.Clearance = known(e.cylinder.Clearance().CubicCentimetres())
	}
	return s
}

// known is a number for JSON, null when it is zero: not stated.
func known(x float64) *float64 {
	if x == 0 {
		return nil
	}
	return &x
}

// CSV is the answer as one table: rows and dwells of every engine, and liquid.
func (m Motion) CSV() ([]byte, error) {
	rows := [][]string{{
		"kind", "engine", "stroke_mm", "rod_mm", "offset_mm", "angle_deg", "drop_mm", "slope_mm_per_deg", "speed_m_per_s", "volume_cm3",
		"swept_since_tdc_cm3", "pure_cosine_drop_mm", "rise_from_bdc_mm",
		"within_mm", "before_deg", "after_deg", "total_deg", "pure_cosine_total_deg", "bdc_total_deg", "liquid_ml", "full_at_deg",
	}}
	for n, e := range m.engines {
		more, err := m.engineCSV(m.letter(n), e)
		if err != nil {
			return nil, err
		}
		rows = append(rows, more...)
	}
	return form.CSV(rows)
}

func (m Motion) engineCSV(letter string, e engine) ([][]string, error) {
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
