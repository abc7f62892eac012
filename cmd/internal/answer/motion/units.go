package motion

import (
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// bench is how a person reads lengths: in millimetres or inches. JSON and CSV are in
// millimetres whatever it is.
func (m Motion) bench() words.Bench { return words.Bench{Inches: m.Inches} }

// length writes a drop with the decimals that suit the engine's size: a hundred
// thousandth of its stroke.
func (m Motion) length(e MotionEngine, l geometry.Length) string {
	return words.Fixed(m.bench().In(l), m.places(e))
}

// slope is written to the same place as a drop.
func (m Motion) slope(e MotionEngine, s geometry.Slope) string {
	return words.Fixed(m.bench().PerDegree(s), m.places(e))
}

func (m Motion) places(e MotionEngine) int { return words.Decimals(m.bench().In(e.Throw()) / 5e4) }

// speedUnit is that of a piston's speed: feet a minute where lengths are inches
// (common practice, no source).
func (m Motion) speedUnit() string {
	if m.Inches {
		return "ft/min"
	}
	return "m/s"
}

// speed writes a speed of so many metres a second in its unit.
func (m Motion) speed(metresPerSecond float64) string {
	if m.Inches {
		return words.Fixed(metresPerSecond*60*1000/(12*geometry.Inch).Millimetres(), 0)
	}
	return words.Fixed(metresPerSecond, 2)
}

func (m Motion) volumeUnit() string {
	if m.Inches {
		return "in3"
	}
	return "cm3"
}

// volume writes cubic centimetres in the unit of volume, to about a ten thousandth of
// what the engine sweeps.
func (m Motion) volume(e MotionEngine, cm3 float64) string {
	swept := e.area() * e.Stroke().Millimetres() / 1000
	if m.Inches {
		inch := geometry.Inch.Millimetres() / 10
		cm3, swept = cm3/(inch*inch*inch), swept/(inch*inch*inch)
	}
	return words.Fixed(cm3, words.Decimals(swept/1e4))
}
