package job

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
)

// No instrument is surer than these, standard; what claims to be has zero typed for a
// step and an error alike.
const (
	SurestAngle  = 1e-6 * geometry.Degree
	surestLength = 1e-6 * geometry.Millimetre
)

func (d *decoder) protractorTable(t *toml.Table) error {
	p := &d.job.Setup.Protractor
	err := t.Read(
		toml.Key("number", toml.Text(&p.Number)),
		toml.Key("counts", toml.Either(&p.Sense, "with", evidence.With, "against", evidence.Against)),
		toml.Key("wraps", wraps(&p.Scale)),
		toml.Key("step", toml.Width(&p.Step)),
		toml.Key("error", toml.Width(&p.Error)),
		toml.Key("off_centre", d.length(&p.OffCentre, measure.FromZero)),
		toml.Key("radius", d.length(&p.Radius, measure.AboveZero)),
	)
	switch {
	case err != nil:
		return err
	case p.Uncertainty() < SurestAngle:
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
		toml.Key("number", toml.Text(&g.Number)),
		toml.Key("counts", toml.Either(&g.Counts, "down", evidence.Down, "up", evidence.Up)),
		toml.Key("step", d.length(&g.Step, measure.FromZero)),
		toml.Key("error", d.length(&g.Error, measure.FromZero)),
		toml.Key("scale_known_to", toml.Fraction(&g.ScaleKnownTo)),
		toml.Key("lash", d.length(&g.Lash, measure.FromZero)),
		toml.Key("lash_known_to", d.length(&g.LashKnownTo, measure.FromZero)),
		toml.Key("same_zero", toml.Truth(&g.SameZero)),
		toml.Key("zero_at_deck", toml.Truth(&g.ZeroAtDeck)),
	)
	if err == nil && g.Uncertainty() < surestLength {
		err = t.Wrong("step and error are both 0: state at least a step, such as step = 0.01")
	}
	return err
}

// engine reads [engine]; what is not given is unknown.
func (d *decoder) engine(t *toml.Table) error {
	e := &d.job.Setup.Engine
	e.OffsetStated = t.Has("pin_offset", "bore_offset")
	e.KnownTo = evidence.DefaultKnownTo(e.OffsetStated)
	err := t.Read(
		toml.Key("name", toml.Text(&e.Name)),
		toml.Key("bore", d.length(&e.Bore, measure.AboveZero)),
		toml.Key("stroke", d.length(&e.Stroke, measure.AboveZero)),
		toml.Key("rod", d.length(&e.Rod, measure.AboveZero)),
		toml.Key("pin_offset", d.length(&e.PinOffset, measure.AnySize)),
		toml.Key("bore_offset", d.length(&e.BoreOffset, measure.AnySize)),
		toml.Key("known_to", d.knownTo),
		toml.Key("throw_limit", toml.Width(&e.ThrowLimit)),
		toml.Key("crown_limit", d.length(&e.CrownLimit, measure.FromZero)),
	)
	if stroke, ok := t.Get("stroke"); err == nil && ok && e.Stroke < shortestStroke && 1000*e.Stroke > shortestStroke {
		return stroke.Wrong("no engine's stroke is %v: if it is in metres, write %s, in mm; if not, write its unit, such as \"3.39 in\"", e.Stroke, geometry.Decimal(1000*e.Stroke.Millimetres(), 10))
	}
	if err != nil || !e.Known() {
		return err
	}
	return d.turns(t)
}

// shortestStroke is shorter than any engine's, a model's too (common practice, no source).
const shortestStroke = 1 * geometry.Millimetre

// knownTo reads the half-widths of the engine's dimensions.
func (d *decoder) knownTo(v toml.Value) error {
	if v.Kind != toml.TableKind {
		return v.Wrong("expected half-widths such as { stroke = 0.1, rod = 0.5, offset = 0.5 }")
	}
	k := &d.job.Setup.Engine.KnownTo
	return v.Table.Read(
		toml.Key("stroke", d.length(&k.Stroke, measure.FromZero)),
		toml.Key("rod", d.length(&k.Rod, measure.FromZero)),
		toml.Key("offset", d.length(&k.Offset, measure.FromZero)),
	)
}

// turns refuses an engine that cannot turn a whole revolution: of the rod, when
// it could not with the bore in line either, and else of the offset.
func (d *decoder) turns(t *toml.Table) error {
	e := d.job.Setup.Engine
	_, err := e.SliderCrank()
	if err == nil {
		return nil
	}
	culprit, _ := t.Get("rod")
	if _, inLine := geometry.NewSliderCrank(e.Stroke, e.Rod, 0); inLine == nil {
		culprit, _ = t.Get("pin_offset")
		if e.BoreOffset != 0 {
			culprit, _ = t.Get("bore_offset")
		}
	}
	return culprit.Wrong("%v", err)
}
