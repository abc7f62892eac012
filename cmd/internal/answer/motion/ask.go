package motion

import (
	"cmp"
	"math"
	"slices"

	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
)

// Question is what is asked about how pistons move.
type Question struct {
	Engines
	From, To, By float64           // of the table, crank degrees from TDC
	Within       []geometry.Length // the drops whose dwell is asked for; none: the usual ones
	RPM          float64           // 0: not asked
	Liquid       geometry.Volume   // trapped above the piston; 0: not asked
	Inches       bool              // a person reads lengths in inches
}

// Of is the answer to a question. An error is of an engine that cannot turn, of rows or
// drops that make no sense, and of liquid without bore and compression.
func Of(q Question) (Motion, error) {
	m := Motion{rpm: q.RPM, liquid: q.Liquid, inches: q.Inches}
	var err error
	if m.engines, err = q.engines(); err != nil {
		return m, err
	}
	if err := q.rows(&m); err != nil {
		return m, err
	}
	shortest := slices.MinFunc(m.engines, func(a, b engine) int { return cmp.Compare(a.Stroke(), b.Stroke()) })
	if m.within, err = q.within(shortest.Stroke()); err != nil {
		return m, err
	}
	if q.Liquid > 0 && m.engines[0].cylinder == nil {
		return m, usage.Errorf("--liquid needs --bore and --compression: type for example %s --bore 86 --compression 10.5 --liquid 60", Example)
	}
	return m, nil
}

const (
	mostAngle = 720.0
	mostRows  = 5000
)

// rows are the angles of the table.
func (q Question) rows(into *Motion) error {
	decimal := func(x float64) string { return geometry.Decimal(x, 9) }
	switch {
	case math.Max(math.Abs(q.From), math.Abs(q.To)) > mostAngle:
		return usage.Errorf("--from %s --to %s: expected at most %s deg either way", decimal(q.From), decimal(q.To), geometry.Decimal(mostAngle, 6))
	case !(q.From < q.To):
		return usage.Errorf("--from %s --to %s: expected --from to be the earlier", decimal(q.From), decimal(q.To))
	case !(q.By > 0):
		return usage.Errorf("--by %s: expected degrees above zero", decimal(q.By))
	case (q.To-q.From)/q.By > mostRows:
		return usage.Errorf("--by %s: more than %d rows: expected a bigger step", decimal(q.By), mostRows)
	}
	into.from, into.to = geometry.Angle(q.From)*geometry.Degree, geometry.Angle(q.To)*geometry.Degree
	for i := 0; Tidy(q.From+float64(i)*q.By) <= q.To; i++ {
		into.angles = append(into.angles, geometry.Angle(Tidy(q.From+float64(i)*q.By))*geometry.Degree)
	}
	return nil
}

// Tidy is degrees without the roundings of radians and of steps added up.
func Tidy(degrees float64) float64 { return math.Round(degrees*1e9)/1e9 + 0 }

// within are the drops whose dwell is asked for, none of them more than the stroke.
func (q Question) within(stroke geometry.Length) ([]geometry.Length, error) {
	if len(q.Within) == 0 {
		return slices.DeleteFunc(usualDwells(q.Inches), func(l geometry.Length) bool { return l >= stroke }), nil
	}
	for _, l := range q.Within {
		if !(l > 0 && l <= stroke) {
			return nil, usage.Errorf("--within %v: expected a drop above zero and no more than the stroke, such as 0.1", l)
		}
	}
	return q.Within, nil
}

// usualDwells are round numbers in the unit that is read.
func usualDwells(inches bool) []geometry.Length {
	if inches {
		return []geometry.Length{0.0005 * geometry.Inch, 0.005 * geometry.Inch, 0.05 * geometry.Inch}
	}
	return []geometry.Length{0.01, 0.1, 1}
}

// Example is a question to begin with.
const Example = "evendrop motion --stroke 86 --rod 146"

// Engines are the dimensions of several engines, a list each: the first of each list
// goes with the first of the others, a list of one with all.
type Engines struct {
	Stroke, Rod, Bore, PinOffset, BoreOffset []geometry.Length
	Compression                              []float64
}

// engines makes the engines that the lists describe.
func (l Engines) engines() ([]engine, error) {
	count, err := l.count()
	if err != nil {
		return nil, err
	}
	if len(l.Compression) > 0 && len(l.Bore) == 0 {
		return nil, usage.Errorf("--compression needs --bore: type for example %s --bore 86 --compression 10.5", Example)
	}
	var engines []engine
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
	if count > mostEngines {
		return 0, usage.Errorf("--%s lists %d engines: expected at most %d side by side", whose, count, mostEngines)
	}
	return count, nil
}

// engine is the nth engine. Geometry that cannot turn is an error.
func (l Engines) engine(n int) (engine, error) {
	e := engine{
		pinOffset: pick(l.PinOffset, n), boreOffset: pick(l.BoreOffset, n), bore: pick(l.Bore, n), compression: pick(l.Compression, n),
		offsetStated: len(l.PinOffset)+len(l.BoreOffset) > 0,
	}
	var err error
	e.SliderCrank, err = geometry.NewSliderCrank(pick(l.Stroke, n), pick(l.Rod, n), e.boreOffset-e.pinOffset)
	if err != nil || len(l.Compression) == 0 {
		return e, err
	}
	cylinder, err := geometry.NewCylinder(e.SliderCrank, e.bore, e.compression)
	e.cylinder = &cylinder
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
