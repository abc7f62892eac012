package newjob

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// InInches is a set-up with what is usual in round inches, near the millimetres of
// evidence.DefaultGauge and its like, in place of every length that nobody stated: a dial
// divided in half-thousandths, a calliper read to two thousandths, a crown judged to
// twenty (common practice, no source). Flag names are those of evendrop begin.
func InInches(s evidence.Setup, stated func(flag string) bool) evidence.Setup {
	g, p, k := &s.Gauge, &s.Protractor, &s.Engine.KnownTo
	step, bound := 0.0005, 0.001
	switch g.Kind {
	case evidence.DepthRod:
		step, bound = 0.002, 0.004
	case evidence.Borescope:
		step, bound = 0.02, 0.02
	}
	offset := 0.55
	if s.Engine.OffsetStated {
		offset = 0.02
	}
	for _, usual := range []struct {
		flag   string // "" of what has none
		into   *geometry.Length
		inches float64
	}{
		{"gauge-step", &g.Step, step}, {"gauge-error", &g.Error, bound}, {"lash", &g.Lash, 0.0025}, {"lash-known-to", &g.LashKnownTo, 0.0025},
		{"", &p.OffCentre, 0.02}, {"", &p.Radius, 4}, {"", &k.Stroke, 0.004}, {"", &k.Rod, 0.02}, {"", &k.Offset, offset},
	} {
		if usual.flag == "" || !stated(usual.flag) {
			*usual.into = geometry.Length(usual.inches) * geometry.Inch
		}
	}
	return s
}

// example is a length of the engine that is commented out, in the job's unit.
func (b Begun) example(millimetres, inches float64) geometry.Length {
	if b.Unit == "in" {
		return geometry.Length(inches) * geometry.Inch
	}
	return geometry.Length(millimetres) * geometry.Millimetre
}
