package knowngood

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
)

// ConditionOf is how a job was measured, the standard uncertainty of its TDC
// among it.
func ConditionOf(j job.Job, result tdc.Result) Condition {
	p, g := j.Setup.Protractor, j.Setup.Gauge
	return Condition{
		Title: j.Title, Date: j.Date, Engine: j.Setup.Engine.Name,
		Protractor: fmt.Sprintf("read to %s deg, error to %s deg", plain(p.Step.Degrees()), plain(p.Error.Degrees())),
		Gauge:      fmt.Sprintf("%s, read to %s mm, error to %s mm", g.Kind, plain(g.Step.Millimetres()), plain(g.Error.Millimetres())),
		Readings:   len(result.Readings), TDC: result.TDC.Uncertainty,
	}
}

// Of tells whether this is how a job was measured, to the last digit kept: whether
// the known-good file was made of it.
func (c Condition) Of(j job.Job, result tdc.Result) bool {
	now := ConditionOf(j, result)
	const kept = 1e-6 * geometry.Degree
	alike := math.Abs(float64(c.TDC-now.TDC)) <= float64(kept)
	c.TDC, now.TDC = 0, 0
	return alike && c == now
}

// Text is the file as it is written, with comments that explain it to whoever opens it.
func (k File) Text(head string) []byte {
	var w toml.Writer
	w.Say("%s", head)
	for _, c := range k.From {
		w.Next("from")
		c.write(&w)
	}
	for _, h := range k.Marks {
		w.Next("mark")
		writeHealthy(&w, h)
	}
	for _, l := range k.Lobes {
		w.Next("lobe")
		writeLobe(&w, l)
	}
	return w.Bytes()
}

func (c Condition) write(w *toml.Writer) {
	for _, pair := range [][2]string{
		{"title", c.Title}, {"date", c.Date}, {"engine", c.Engine}, {"protractor", c.Protractor}, {"gauge", c.Gauge},
	} {
		if pair[1] != "" {
			w.Key(pair[0], toml.Quote(pair[1]), "")
		}
	}
	w.Key("readings", toml.Number(float64(c.Readings)), "")
	w.Key("tdc_standard_uncertainty", degrees(c.TDC), "")
}

func writeHealthy(w *toml.Writer, h mark.Healthy) {
	w.Key("name", toml.Quote(h.Name), "")
	w.Key("on", toml.Quote(h.On), "")
	if h.Against != "crank" {
		w.Key("against", toml.Quote(h.Against), "")
	}
	if h.Measured {
		w.Key("off", degrees(h.Angle), "")
		w.Key("in", toml.Quote(string(mark.CrankDegrees)), "")
	} else {
		w.Key("should_be", degrees(h.Angle), "")
	}
	if h.TwoTurns {
		w.Key("counts_two_turns", "true", "")
	}
	w.Key("standard_uncertainty", degrees(h.Uncertainty), "")
	if h.OfTDC > 0 {
		w.Key("of_tdc", degrees(h.OfTDC), "the part of it that the marks share")
	}
	if h.Scatter > 0 {
		w.Key("scatter", degrees(h.Scatter), "among engines, beyond what measuring them explains")
	}
	if h.DegreesOfFreedom < 1e6 {
		w.Key("degrees_of_freedom", plain(h.DegreesOfFreedom), "")
	}
	w.Key("engines", toml.Number(float64(h.Engines)), "")
	if h.HasLimit {
		w.Key("limit", degrees(h.Limit), "")
	}
}

// degrees writes an angle as the file has it, to a millionth of a degree.
func degrees(a geometry.Angle) toml.Literal { return plain(a.Degrees()) }

func plain(x float64) toml.Literal { return toml.Number(math.Round(x*1e6) / 1e6) }
