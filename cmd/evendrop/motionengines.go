package main

import (
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/motion"
	"evendrop/geometry"
)

// engineLists are the dimensions of several engines, a list each.
type engineLists struct {
	stroke, rod, bore, pinOffset, boreOffset []geometry.Length
	compression                              []float64
}

// engines makes the engines that the lists describe: the first of each list with
// the first of the others, a list of one with all.
func (m motionFlags) engines(into *motion.Motion) error {
	lists, err := m.dimensions()
	if err != nil {
		return err
	}
	count, err := m.count()
	if err != nil {
		return err
	}
	if len(lists.compression) > 0 && len(lists.bore) == 0 {
		return misuse("--compression needs --bore: type for example %s --bore 86 --compression 10.5", motionExample)
	}
	for n := range count {
		engine, err := lists.engine(n)
		if err != nil {
			return misuse("%v: look at --stroke, --rod, --bore, --compression and the offsets", err)
		}
		into.Engines = append(into.Engines, engine)
	}
	return nil
}

// dimensions reads the lists.
func (m motionFlags) dimensions() (l engineLists, err error) {
	for _, size := range []struct {
		name string
		into *[]geometry.Length
		read func(string) ([]geometry.Length, error)
	}{
		{"stroke", &l.stroke, m.sizes}, {"rod", &l.rod, m.sizes}, {"bore", &l.bore, m.sizes},
		{"pin-offset", &l.pinOffset, m.lengths}, {"bore-offset", &l.boreOffset, m.lengths},
	} {
		if *size.into, err = size.read(size.name); err != nil {
			return l, err
		}
	}
	if err := m.doubtful("compression"); err != nil {
		return l, err
	}
	for _, text := range m.items("compression") {
		ratio, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil || !(ratio > 1 && ratio <= 1000) {
			return l, misuse("--compression %s: expected a ratio above 1 such as 10.5", text)
		}
		l.compression = append(l.compression, ratio)
	}
	return l, nil
}

// count is how many engines the lists describe. Lists of unlike lengths do not
// go together.
func (m motionFlags) count() (int, error) {
	count, whose := 1, ""
	for _, name := range []string{"stroke", "rod", "pin-offset", "bore-offset", "bore", "compression"} {
		n := len(m.items(name))
		if n <= 1 {
			continue
		}
		if count > 1 && n != count {
			return 0, misuse("--%s lists %d and --%s lists %d: expected as many, one with one, or a single value for all", whose, count, name, n)
		}
		count, whose = n, name
	}
	if count > motion.MostEngines {
		return 0, misuse("--%s lists %d engines: expected at most %d side by side", whose, count, motion.MostEngines)
	}
	return count, nil
}

// engine is the nth engine. Geometry that cannot turn is an error.
func (l engineLists) engine(n int) (motion.MotionEngine, error) {
	e := motion.MotionEngine{
		PinOffset: pick(l.pinOffset, n), BoreOffset: pick(l.boreOffset, n), Bore: pick(l.bore, n), Compression: pick(l.compression, n),
		OffsetStated: len(l.pinOffset)+len(l.boreOffset) > 0,
	}
	var err error
	e.SliderCrank, err = geometry.NewSliderCrank(pick(l.stroke, n), pick(l.rod, n), e.BoreOffset-e.PinOffset)
	if err != nil || len(l.compression) == 0 {
		return e, err
	}
	cylinder, err := geometry.NewCylinder(e.SliderCrank, e.Bore, e.Compression)
	e.Cylinder = &cylinder
	return e, err
}

// pick is the nth of a list, the only one of a list of one, nought of none.
func pick[T any](list []T, n int) (value T) {
	switch {
	case len(list) == 1:
		return list[0]
	case n < len(list):
		return list[n]
	}
	return value
}
