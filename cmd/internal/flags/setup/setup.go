// Package setup is the flags that describe an engine, a protractor and a gauge.
package setup

import (
	"strconv"

	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// Flags are those that were given, and what they stand for.
type Flags struct {
	Unit       *string // of lengths without one, mm or in
	engine     func() evidence.Engine
	protractor func() (evidence.Protractor, error)
	gauge      func() (evidence.Gauge, error)
}

// New adds the flags to a command's, each kind under a heading.
func New(set *flags.Set) Flags {
	unit := set.Unit()
	set.Heading("Engine, leaving out what is unknown")
	engine := engineFlags(set, unit)
	set.Heading("Protractor, a degree wheel")
	protractor := Protractor(set)
	set.Heading("Gauge")
	return Flags{unit, engine, protractor, gaugeFlags(set, unit)}
}

// Setup is the engine and the instruments that the flags describe. An error is a usage.Error.
func (f Flags) Setup() (s evidence.Setup, err error) {
	s.Engine = f.engine()
	if s.Protractor, err = f.protractor(); err != nil {
		return s, err
	}
	if s.Gauge, err = f.gauge(); err != nil {
		return s, err
	}
	if s.Engine.Known() {
		if _, err := s.Engine.SliderCrank(); err != nil {
			return s, usage.Errorf("--stroke, --rod: %v", err)
		}
	}
	return s, nil
}

// Dimension is a size of an engine: motion has lists of them.
type Dimension struct {
	Name  string
	Least measure.Bound
	Help  string
}

// The sizes.
var (
	Stroke     = Dimension{"stroke", measure.AboveZero, "twice the crank throw"}
	Rod        = Dimension{"rod", measure.AboveZero, "the connecting rod between centres"}
	Bore       = Dimension{"bore", measure.AboveZero, ""}
	PinOffset  = Dimension{"pin-offset", measure.AnySize, "toward the major thrust side positive"}
	BoreOffset = Dimension{"bore-offset", measure.AnySize, "toward the other side positive"}
)

func (d Dimension) length(set *flags.Set, unit *string) *geometry.Length {
	return set.Length(unit, d.Name, d.Least, d.Help)
}

func engineFlags(set *flags.Set, unit *string) func() evidence.Engine {
	s, r, b := Stroke.length(set, unit), Rod.length(set, unit), Bore.length(set, unit)
	pin, off := PinOffset.length(set, unit), BoreOffset.length(set, unit)
	return func() evidence.Engine {
		e := evidence.Engine{Stroke: *s, Rod: *r, Bore: *b, PinOffset: *pin, BoreOffset: *off}
		e.OffsetStated = set.Given(PinOffset.Name) || set.Given(BoreOffset.Name)
		e.KnownTo = evidence.DefaultKnownTo(e.OffsetStated)
		return e
	}
}

// Protractor adds the flags of a protractor, and is what they describe once they are read.
func Protractor(set *flags.Set) func() (evidence.Protractor, error) {
	p := evidence.DefaultProtractor()
	counts := set.Choice("counts", "with", "protractor numbers grow with or against the running direction", "with", "against")
	wraps := set.Choice("wraps", "360", "how the protractor's scale comes round", "720", "360", "180", "90")
	set.Angle(&p.Step, "protractor-step", "smallest difference read")
	set.Angle(&p.Error, "protractor-error", "largest error of the protractor itself")
	return func() (evidence.Protractor, error) {
		if *counts == "against" {
			p.Sense = evidence.Against
		}
		turn, _ := strconv.Atoi(*wraps) // one of four
		p.Scale = evidence.Scale(turn)
		if p.Uncertainty() == 0 {
			return p, usage.Errorf("--protractor-step and --protractor-error are both zero: type at least the step, such as --protractor-step 0.5")
		}
		return p, nil
	}
}

func gaugeFlags(set *flags.Set, unit *string) func() (evidence.Gauge, error) {
	kind := set.Choice("gauge", "dial", "what reads the piston", "dial", "rod", "borescope")
	counts := set.Choice("gauge-counts", "down", "its numbers grow as the piston goes down or up", "down", "up")
	length := func(name, help string) *geometry.Length { return set.Length(unit, name, measure.FromZero, help) }
	step, bound := length("gauge-step", "smallest difference read"), length("gauge-error", "largest error of the gauge itself")
	fraction := func(x float64) bool { return x >= 0 && x <= 1 }
	scale := set.Number("scale-known-to", "FRACTION", fraction, "a fraction such as 0.07", "either way of 1: slanting gauge, sloping crown")
	lash, lashTo := length("lash", "bearing clearance expected, not valve lash: big end, small end and mains together"), length("lash-known-to", "either way")
	return func() (evidence.Gauge, error) {
		g := evidence.DefaultGauge(evidence.GaugeKind(*kind))
		if *counts == "up" {
			g.Counts = evidence.Up
		}
		for _, size := range []struct {
			name string
			from *geometry.Length
			into *geometry.Length
		}{{"gauge-step", step, &g.Step}, {"gauge-error", bound, &g.Error}, {"lash", lash, &g.Lash}, {"lash-known-to", lashTo, &g.LashKnownTo}} {
			if set.Given(size.name) {
				*size.into = *size.from
			}
		}
		if set.Given("scale-known-to") {
			g.ScaleKnownTo = *scale
		}
		if g.Uncertainty() == 0 {
			return g, usage.Errorf("--gauge-step and --gauge-error are both zero: type at least the step, such as --gauge-step 0.01")
		}
		return g, nil
	}
}
