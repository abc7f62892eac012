package motion

import (
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
)

// Example is a question to begin with.
const Example = "evendrop motion --stroke 86 --rod 146"

// Engines are the dimensions of several engines, a list each: the first of each list
// goes with the first of the others, a list of one with all.
type Engines struct {
	Stroke, Rod, Bore, PinOffset, BoreOffset []geometry.Length
	Compression                              []float64
}

// engines makes the engines that the lists describe.
func (l Engines) engines() ([]MotionEngine, error) {
	count, err := l.count()
	if err != nil {
		return nil, err
	}
	if len(l.Compression) > 0 && len(l.Bore) == 0 {
		return nil, usage.Errorf("--compression needs --bore: type for example %s --bore 86 --compression 10.5", Example)
	}
	var engines []MotionEngine
	for n := range count {
		engine, err := l.engine(n)
		if err != nil {
			return nil, usage.Errorf("%v: look at --stroke, --rod, --bore, --compression and the offsets", err)
		}
		engines = append(engines, engine)
	}
	return engines, nil
}

// count is how many engines the lists describe. Lists of unlike lengths do not
// go together.
func (l Engines) count() (int, error) {
	count, whose := 1, ""
	for _, list := range []struct {
		name string
		n    int
	}{
		{"stroke", len(l.Stroke)}, {"rod", len(l.Rod)}, {"pin-offset", len(l.PinOffset)}, {"bore-offset", len(l.BoreOffset)},
		{"bore", len(l.Bore)}, {"compression", len(l.Compression)},
	} {
		if list.n <= 1 {
			continue
		}
		if count > 1 && list.n != count {
			return 0, usage.Errorf("--%s lists %d and --%s lists %d: expected lists of the same length, or a single value for all", whose, count, list.name, list.n)
		}
		count, whose = list.n, list.name
	}
	if count > MostEngines {
		return 0, usage.Errorf("--%s lists %d engines: expected at most %d side by side", whose, count, MostEngines)
	}
	return count, nil
}

// engine is the nth engine. Geometry that cannot turn is an error.
func (l Engines) engine(n int) (MotionEngine, error) {
	e := MotionEngine{
		PinOffset: pick(l.PinOffset, n), BoreOffset: pick(l.BoreOffset, n), Bore: pick(l.Bore, n), Compression: pick(l.Compression, n),
		OffsetStated: len(l.PinOffset)+len(l.BoreOffset) > 0,
	}
	var err error
	e.SliderCrank, err = geometry.NewSliderCrank(pick(l.Stroke, n), pick(l.Rod, n), e.BoreOffset-e.PinOffset)
	if err != nil || len(l.Compression) == 0 {
		return e, err
	}
	cylinder, err := geometry.NewCylinder(e.SliderCrank, e.Bore, e.Compression)
	e.Cylinder = &cylinder
	return e, err
}

// pick is the nth of a list, the only one of a list of one, zero of none.
func pick[T any](list []T, n int) (value T) {
	switch {
	case len(list) == 1:
		return list[0]
	case n < len(list):
		return list[n]
	}
	return value
}
