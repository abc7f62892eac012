package job

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/toml"
)

// engine reads [engine]; what is not given is unknown.
func (d *decoder) engine(t *toml.Table) error {
	e := &d.job.Setup.Engine
	e.OffsetStated = t.Has("pin_offset", "bore_offset")
	e.KnownTo = evidence.DefaultKnownTo(e.OffsetStated)
	err := t.Read(
		toml.Key("name", toml.Text(&e.Name)),
		toml.Key("bore", d.length(&e.Bore, toml.AboveZero)),
		toml.Key("stroke", d.length(&e.Stroke, toml.AboveZero)),
		toml.Key("rod", d.length(&e.Rod, toml.AboveZero)),
		toml.Key("pin_offset", d.length(&e.PinOffset, toml.AnySize)),
		toml.Key("bore_offset", d.length(&e.BoreOffset, toml.AnySize)),
		toml.Key("known_to", d.knownTo),
		toml.Key("throw_limit", toml.Width(&e.ThrowLimit)),
		toml.Key("crown_limit", d.length(&e.CrownLimit, toml.FromZero)),
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
		toml.Key("stroke", d.length(&k.Stroke, toml.FromZero)),
		toml.Key("rod", d.length(&k.Rod, toml.FromZero)),
		toml.Key("offset", d.length(&k.Offset, toml.FromZero)),
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
