package tdc

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

// Half-widths for dimensions stated without any. An offset that nobody stated is
// most often below 2 mm (common practice, no source).
const (
	defaultStrokeKnownTo  = 0.1 * geometry.Millimetre
	defaultRodKnownTo     = 0.5 * geometry.Millimetre
	defaultOffsetKnownTo  = 0.5 * geometry.Millimetre
	defaultOffsetUnstated = 2.0 * geometry.Millimetre
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
