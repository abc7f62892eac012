package evidence

import (
	"fmt"

	"evendrop/geometry"
)

// Engine is what is known of the engine's dimensions; nought is unknown.
type Engine struct {
	Name         string
	Bore         geometry.Length
	Stroke       geometry.Length // twice the throw
	Rod          geometry.Length // between centres
	PinOffset    geometry.Length // toward the major thrust side positive
	BoreOffset   geometry.Length // toward the other side positive
	KnownTo      KnownTo
	ThrowLimit   geometry.Angle  // how far a throw may be out of its place; nought: not said
	CrownLimit   geometry.Length // how much lower or higher a crown may stand than the others; nought: not said
	OffsetStated bool            // false: PinOffset and BoreOffset are nought for want of a word
}

// KnownTo holds half-widths: the true dimension lies no farther from the stated
// one than this.
type KnownTo struct {
	Stroke, Rod, Offset geometry.Length
}

// Half-widths for dimensions stated without any. Bores stand off the crank
// by 8 to 14 mm on some engines, so that an offset nobody stated may be as much (common
// practice, no source).
const (
	defaultStrokeKnownTo  = 0.1 * geometry.Millimetre
	defaultRodKnownTo     = 0.5 * geometry.Millimetre
	defaultOffsetKnownTo  = 0.5 * geometry.Millimetre
	defaultOffsetUnstated = 14 * geometry.Millimetre
)

// DefaultKnownTo is how well dimensions are known when the user does not say.
func DefaultKnownTo(offsetStated bool) KnownTo {
	k := KnownTo{Stroke: defaultStrokeKnownTo, Rod: defaultRodKnownTo, Offset: defaultOffsetUnstated}
	if offsetStated {
		k.Offset = defaultOffsetKnownTo
	}
	return k
}

// Offset is e: the bore offset less the pin offset.
func (e Engine) Offset() geometry.Length { return e.BoreOffset - e.PinOffset }

// Known tells whether stroke and rod are both known.
func (e Engine) Known() bool { return e.Stroke > 0 && e.Rod > 0 }

// SliderCrank is the engine's kinematics; an error when its geometry is
// impossible or stroke or rod is unknown.
func (e Engine) SliderCrank() (geometry.SliderCrank, error) {
	crank, err := geometry.NewSliderCrank(e.Stroke, e.Rod, e.Offset())
	if hint := e.unlikeUnits(); err != nil && hint != "" {
		return crank, fmt.Errorf("%w; %s", err, hint)
	}
	return crank, err
}

// unlikeUnits says which of stroke and rod seems to be in another unit than the other;
// nothing when no unit makes an engine of them.
func (e Engine) unlikeUnits() string {
	for _, unit := range []struct {
		factor geometry.Length
		of     string
	}{{25.4, "in"}, {1000, "m"}, {10, "cm"}} {
		switch of := fmt.Sprintf("%s %s", ShortNumber(float64(e.Rod)), unit.of); {
		case e.Stroke <= LongStroke && RodLike(unit.factor*e.Rod, e.Stroke) && unit.of == "in":
			return fmt.Sprintf("if the rod is %s, write rod = %q", of, of)
		case e.Stroke <= LongStroke && RodLike(unit.factor*e.Rod, e.Stroke):
			return fmt.Sprintf("if the rod is %s, write rod = %s, in mm", of, ShortNumber(float64(unit.factor*e.Rod)))
		case e.Stroke > LongStroke && RodLike(e.Rod, e.Stroke/25.4):
			return fmt.Sprintf("if the stroke is in mm, write stroke = \"%s mm\"", ShortNumber(e.Stroke.Inches()))
		}
	}
	return ""
}

// A stroke of a bench's engine is seldom shorter or longer than these (common
// practice, no source).
const (
	ShortStroke = 20 * geometry.Millimetre
	LongStroke  = 800 * geometry.Millimetre
)

// RodLike tells whether a rod is as long, for the stroke, as engines' are (common
// practice, no source).
func RodLike(rod, stroke geometry.Length) bool { return rod > 1.2*stroke && rod < 3.5*stroke }
