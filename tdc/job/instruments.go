package job

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// No instrument is surer than these; what claims to be has nought typed for a
// step and an error alike.
const (
	surestAngle  = 1e-6 * geometry.Degree
	surestLength = 1e-6 * geometry.Millimetre
)

// protractorTable reads [protractor].
func (d *decoder) protractorTable(t *table) error {
	p := &d.job.Setup.Protractor
	err := t.read(
		field{"counts", either(&p.Sense, "with", evidence.With, "against", evidence.Against)},
		field{"wraps", wraps(&p.Scale)},
		field{"step", width(&p.Step)},
		field{"error", width(&p.Error)},
		field{"off_centre", d.length(&p.OffCentre, noughtUp)},
		field{"radius", d.length(&p.Radius, aboveNought)},
	)
	switch {
	case err != nil:
		return err
	case p.Uncertainty() < surestAngle:
		return faultf(t.at, "%s: step and error are both 0, which no protractor is: say at least a step, such as step = 0.5", t.name)
	case p.OffCentre >= p.Radius:
		return faultf(t.at, "%s: off_centre is %v, which is not smaller than the radius, %v: correct one of them", t.name, p.OffCentre, p.Radius)
	}
	return nil
}

// wraps takes the number at which a protractor's scale comes round.
func wraps(into *evidence.Scale) func(value) error {
	return func(v value) error {
		x, ok := v.number()
		scale := evidence.Scale(x)
		if !ok || float64(scale) != x || !scale.Known() {
			return v.wrong("expected 720, 360, 180 or 90")
		}
		*into = scale
		return nil
	}
}

// gauge reads [gauge]: its kind first, which sets what is not given.
func (d *decoder) gauge(t *table) error {
	kind := evidence.Dial
	takeKind := oneOf(&kind, evidence.Dial, evidence.DepthRod, evidence.Borescope)
	if v, ok := t.get("kind"); ok {
		if err := takeKind(v); err != nil {
			return err
		}
	}
	d.job.Setup.Gauge = evidence.DefaultGauge(kind)
	g := &d.job.Setup.Gauge
	err := t.read(
		field{"kind", takeKind},
		field{"counts", either(&g.Counts, "down", evidence.Down, "up", evidence.Up)},
		field{"step", d.length(&g.Step, noughtUp)},
		field{"error", d.length(&g.Error, noughtUp)},
		field{"scale_known_to", fraction(&g.ScaleKnownTo)},
		field{"lash", d.length(&g.Lash, noughtUp)},
		field{"lash_known_to", d.length(&g.LashKnownTo, noughtUp)},
		field{"same_zero", truth(&g.SameZero)},
		field{"zero_at_deck", truth(&g.ZeroAtDeck)},
	)
	if err == nil && g.Uncertainty() < surestLength {
		err = faultf(t.at, "%s: step and error are both 0, which no gauge is: say at least a step, such as step = 0.01", t.name)
	}
	return err
}
