package job

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// engine reads [engine]; what is not given is unknown.
func (d *decoder) engine(t *table) error {
	e := &d.job.Setup.Engine
	e.OffsetStated = t.has("pin_offset", "bore_offset")
	e.KnownTo = evidence.DefaultKnownTo(e.OffsetStated)
	err := t.read(
		field{"name", text(&e.Name)},
		field{"bore", d.length(&e.Bore, aboveNought)},
		field{"stroke", d.length(&e.Stroke, aboveNought)},
		field{"rod", d.length(&e.Rod, aboveNought)},
		field{"pin_offset", d.length(&e.PinOffset, anySize)},
		field{"bore_offset", d.length(&e.BoreOffset, anySize)},
		field{"known_to", d.knownTo},
		field{"throw_limit", width(&e.ThrowLimit)},
		field{"crown_limit", d.length(&e.CrownLimit, noughtUp)},
	)
	if stroke, ok := t.get("stroke"); err == nil && ok && e.Stroke < shortestStroke && 1000*e.Stroke > shortestStroke {
		return stroke.wrong("no engine's stroke is %v: if it is in metres, write %.10g, in mm; if not, write its unit, such as \"3.39 in\"", e.Stroke, 1000*e.Stroke.Millimetres())
	}
	if err != nil || !e.Known() {
		return err
	}
	return d.turns(t)
}

// shortestStroke is shorter than any engine's, a model's too (common practice, no source).
const shortestStroke = 1 * geometry.Millimetre

// knownTo reads the half-widths of the engine's dimensions.
func (d *decoder) knownTo(v value) error {
	if v.kind != tableKind {
		return v.wrong("expected half-widths such as { stroke = 0.1, rod = 0.5, offset = 0.5 }")
	}
	k := &d.job.Setup.Engine.KnownTo
	return v.table.read(
		field{"stroke", d.length(&k.Stroke, noughtUp)},
		field{"rod", d.length(&k.Rod, noughtUp)},
		field{"offset", d.length(&k.Offset, noughtUp)},
	)
}

// turns refuses an engine that cannot turn a whole revolution: of the rod, when
// it could not with the bore in line either, and else of the offset.
func (d *decoder) turns(t *table) error {
	e := d.job.Setup.Engine
	_, err := e.SliderCrank()
	if err == nil {
		return nil
	}
	culprit, _ := t.get("rod")
	if _, inLine := geometry.NewSliderCrank(e.Stroke, e.Rod, 0); inLine == nil {
		culprit, _ = t.get("pin_offset")
		if e.BoreOffset != 0 {
			culprit, _ = t.get("bore_offset")
		}
	}
	return culprit.wrong("%v", err)
}
