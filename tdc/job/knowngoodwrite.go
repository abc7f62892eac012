package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/mark"
)

// knownGoodHead explains a known-good file to whoever opens it.
const knownGoodHead = `# Known-good marks, as measured on healthy engines and written by evendrop keep.
# Hold an engine in doubt against them: evendrop find JOB --against THIS-FILE
# Crank degrees; should_be counts from the piston's TDC; late is positive.
`

// ConditionOf is how a job was measured, the standard uncertainty of its TDC
// among it.
func ConditionOf(j Job, result tdc.Result) Condition {
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
func (c Condition) Of(j Job, result tdc.Result) bool {
	now := ConditionOf(j, result)
	const kept = 1e-6 * geometry.Degree
	alike := math.Abs(float64(c.TDC-now.TDC)) <= float64(kept)
	c.TDC, now.TDC = 0, 0
	return alike && c == now
}

// Text is the file as it is written.
func (k KnownGood) Text() []byte {
	var b strings.Builder
	b.WriteString(knownGoodHead)
	for _, c := range k.From {
		b.WriteString("\n[[from]]\n")
		c.write(&b)
	}
	for _, h := range k.Marks {
		b.WriteString("\n[[mark]]\n")
		writeHealthy(&b, h)
	}
	return []byte(b.String())
}

func (c Condition) write(b *strings.Builder) {
	for _, pair := range [][2]string{
		{"title", c.Title}, {"date", c.Date}, {"engine", c.Engine}, {"protractor", c.Protractor}, {"gauge", c.Gauge},
	} {
		if pair[1] != "" {
			fmt.Fprintf(b, "%s = %s\n", pair[0], strconv.Quote(pair[1]))
		}
	}
	fmt.Fprintf(b, "readings = %d\ntdc_standard_uncertainty = %s\n", c.Readings, degrees(c.TDC))
}

func writeHealthy(b *strings.Builder, h mark.Healthy) {
	fmt.Fprintf(b, "name = %s\non = %s\n", strconv.Quote(h.Name), strconv.Quote(h.On))
	if h.Against != "crank" {
		fmt.Fprintf(b, "against = %s\n", strconv.Quote(h.Against))
	}
	if h.Measured {
		fmt.Fprintf(b, "off = %s\nin = \"%s\"\n", degrees(h.Angle), mark.CrankDegrees)
	} else {
		fmt.Fprintf(b, "should_be = %s\n", degrees(h.Angle))
	}
	if h.TwoTurns {
		b.WriteString("counts_two_turns = true\n")
	}
	fmt.Fprintf(b, "standard_uncertainty = %s\n", degrees(h.Uncertainty))
	if h.OfTDC > 0 {
		fmt.Fprintf(b, "of_tdc = %s # the part of it that the marks share\n", degrees(h.OfTDC))
	}
	if h.Scatter > 0 {
		fmt.Fprintf(b, "scatter = %s # among engines, beyond what measuring them explains\n", degrees(h.Scatter))
	}
	if h.DegreesOfFreedom < 1e6 {
		fmt.Fprintf(b, "degrees_of_freedom = %s\n", plain(h.DegreesOfFreedom))
	}
	fmt.Fprintf(b, "engines = %d\n", h.Engines)
	if h.HasLimit {
		fmt.Fprintf(b, "limit = %s\n", degrees(h.Limit))
	}
}

// degrees writes an angle as the file has it, to a millionth of a degree.
func degrees(a geometry.Angle) string { return plain(a.Degrees()) }

func plain(x float64) string { return strconv.FormatFloat(math.Round(x*1e6)/1e6, 'f', -1, 64) }
