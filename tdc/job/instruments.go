package job

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/toml"
)

// No instrument is surer than these; what claims to be has zero typed for a
// step and an error alike.
const (
	surestAngle  = 1e-6 * geometry.Degree
	surestLength = 1e-6 * geometry.Millimetre
)

// protractorTable reads [protractor].
func (d *decoder) protractorTable(t *toml.Table) error {
	p := &d.job.Setup.Protractor
	err := t.Read(
		toml.Key("counts", toml.Either(&p.Sense, "with", evidence.With, "against", evidence.Against)),
		toml.Key("wraps", wraps(&p.Scale)),
		toml.Key("step", toml.Width(&p.Step)),
		toml.Key("error", toml.Width(&p.Error)),
		toml.Key("off_centre", d.length(&p.OffCentre, toml.FromZero)),
		toml.Key("radius", d.length(&p.Radius, toml.AboveZero)),
	)
	switch {
	case err != nil:
		return err
	case p.Uncertainty() < surestAngle:
		return t.Wrong("step and error are both 0: state at least a step, such as step = 0.5")
	case p.OffCentre >= p.Radius:
		return t.Wrong("off_centre is %v, which is not smaller than the radius, %v: correct one of them", p.OffCentre, p.Radius)
	}
	return nil
}

// wraps takes the number at which a protractor's scale comes round.
func wraps(into *evidence.Scale) func(toml.Value) error {
	return func(v toml.Value) error {
		x, ok := v.Number()
		scale := evidence.Scale(x)
		if !ok || float64(scale) != x || !scale.Known() {
			return v.Wrong("expected 720, 360, 180 or 90")
		}
		*into = scale
		return nil
	}
}

// gauge reads [gauge]: its kind first, which sets what is not given.
func (d *decoder) gauge(t *toml.Table) error {
	kind := evidence.Dial
	takeKind := toml.OneOf(&kind, evidence.Dial, evidence.DepthRod, evidence.Borescope)
	if v, ok := t.Get("kind"); ok {
		if err := takeKind(v); err != nil {
			return err
		}
	}
	d.job.Setup.Gauge = evidence.DefaultGauge(kind)
	g := &d.job.Setup.Gauge
	err := t.Read(
		toml.Key("kind", takeKind),
		toml.Key("counts", toml.Either(&g.Counts, "down", evidence.Down, "up", evidence.Up)),
		toml.Key("step", d.length(&g.Step, toml.FromZero)),
		toml.Key("error", d.length(&g.Error, toml.FromZero)),
		toml.Key("scale_known_to", toml.Fraction(&g.ScaleKnownTo)),
		toml.Key("lash", d.length(&g.Lash, toml.FromZero)),
		toml.Key("lash_known_to", d.length(&g.LashKnownTo, toml.FromZero)),
		toml.Key("same_zero", toml.Truth(&g.SameZero)),
		toml.Key("zero_at_deck", toml.Truth(&g.ZeroAtDeck)),
	)
	if err == nil && g.Uncertainty() < surestLength {
		err = t.Wrong("step and error are both 0: state at least a step, such as step = 0.01")
	}
	return err
}
