package main

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/answer/motion"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// motionFlags is motion's flags as they were typed.
type motionFlags struct {
	flags *pflag.FlagSet
	text  map[string]*string
	lists map[string]*[]string
}

func newMotionFlags(flags *pflag.FlagSet) motionFlags {
	m := motionFlags{flags: flags, text: map[string]*string{}, lists: map[string]*[]string{}}
	for name, usual := range map[string]string{"unit": "mm", "from": "-30", "to": "30", "by": "5", "rpm": "", "liquid": ""} {
		m.text[name] = flags.String(name, usual, "")
	}
	for _, name := range []string{"stroke", "rod", "pin-offset", "bore-offset", "bore", "compression", "within"} {
		m.lists[name] = flags.StringArray(name, nil, "")
	}
	return m
}

// motion is the question that was asked.
func (m motionFlags) motion() (motion.Motion, error) {
	var answer motion.Motion
	if !m.flags.Changed("stroke") || !m.flags.Changed("rod") {
		return answer, misuse("motion needs --stroke and --rod: type for example %s", motionExample)
	}
	if unit := *m.text["unit"]; unit != "mm" && unit != "in" {
		return answer, misuse("--unit %s: expected mm or in", unit)
	}
	answer.Inches = *m.text["unit"] == "in"
	for _, step := range []func(*motion.Motion) error{m.engines, m.angles, m.within, m.speed, m.liquid} {
		if err := step(&answer); err != nil {
			return answer, err
		}
	}
	return answer, nil
}

// items are a list flag's values, as they were typed: parted by commas, or by
// semicolons where there is one, since then a comma is a decimal's.
func (m motionFlags) items(name string) []string {
	var out []string
	for _, text := range *m.lists[name] {
		mark := ","
		if strings.Contains(text, ";") {
			mark = ";"
		}
		out = append(out, strings.Split(text, mark)...)
	}
	return out
}

// doubtful refuses a list that may be one number with a decimal comma: whole numbers
// on both sides of it, which nothing tells from 10.5.
func (m motionFlags) doubtful(name string) error {
	for _, text := range *m.lists[name] {
		if strings.Contains(text, ",") && !strings.ContainsAny(text, ";.") {
			return misuse("--%s %s: a comma parts engines: write %s with a point, or %q for several",
				name, text, strings.Replace(text, ",", ".", 1), strings.ReplaceAll(text, ",", ";"))
		}
	}
	return nil
}

// lengths are a list flag's values.
func (m motionFlags) lengths(name string) ([]geometry.Length, error) {
	var out []geometry.Length
	if !slices.Contains([]string{"stroke", "rod", "bore"}, name) { // of those sizes tells
		if err := m.doubtful(name); err != nil {
			return nil, err
		}
	}
	for _, text := range m.items(name) {
		length, err := measure.ParseLength(text, *m.text["unit"])
		if err != nil {
			return nil, misuse("--%s %s: expected a length such as 81.4, and commas between several", name, strings.TrimSpace(text))
		}
		out = append(out, length)
	}
	return out, nil
}

// sizes are lengths above zero. Where a comma parts two so unlike as 81 and 4,
// a decimal comma was meant.
func (m motionFlags) sizes(name string) ([]geometry.Length, error) {
	lengths, err := m.lengths(name)
	if err != nil {
		return nil, err
	}
	least, most := math.Inf(1), 0.0
	for _, l := range lengths {
		if !(l > 0) {
			return nil, misuse("--%s %v: expected a length above zero", name, l)
		}
		least, most = math.Min(least, float64(l)), math.Max(most, float64(l))
	}
	text := strings.Join(*m.lists[name], ",")
	if most > 2*least && !strings.Contains(text, ";") {
		return nil, misuse("--%s %s: a comma parts engines, and these differ too much: write 81.4 with a point, or %q for two",
			name, text, strings.ReplaceAll(text, ",", ";"))
	}
	return lengths, nil
}

// angles are the rows of the table.
func (m motionFlags) angles(into *motion.Motion) error {
	var ends [3]float64
	for i, name := range []string{"from", "to", "by"} {
		text := *m.text[name]
		written, err := measure.ParseAngle(text)
		if err != nil || written.Side != evidence.NoSide && (written.Angle < 0 || name == "by") {
			return misuse("--%s %s: expected crank degrees such as -30 or 30 BTDC", name, text)
		}
		ends[i] = tidy(written.Angle.Degrees())
		if written.Side == evidence.BTDC {
			ends[i] = -ends[i]
		}
	}
	from, to, by := ends[0], ends[1], ends[2]
	decimal := func(x float64) string { return geometry.Decimal(x, 9) }
	switch {
	case math.Max(math.Abs(from), math.Abs(to)) > mostAngle:
		return misuse("--from %s --to %s: expected at most %g deg either way", decimal(from), decimal(to), mostAngle)
	case !(from < to):
		return misuse("--from %s --to %s: expected --from to be the earlier", decimal(from), decimal(to))
	case !(by > 0):
		return misuse("--by %s: expected degrees above zero", decimal(by))
	case (to-from)/by > mostRows:
		return misuse("--by %s: more than %d rows: expected a bigger step", decimal(by), mostRows)
	}
	into.From, into.To = geometry.Angle(from)*geometry.Degree, geometry.Angle(to)*geometry.Degree
	for i := 0; tidy(from+float64(i)*by) <= to; i++ {
		into.Angles = append(into.Angles, geometry.Angle(tidy(from+float64(i)*by))*geometry.Degree)
	}
	return nil
}

// tidy is degrees without the roundings of radians and of steps added up.
func tidy(degrees float64) float64 { return math.Round(degrees*1e9)/1e9 + 0 }

const (
	mostAngle = 720.0
	mostRows  = 5000
)

// within are the drops whose dwell is asked for.
func (m motionFlags) within(into *motion.Motion) error {
	least := into.Engines[0].Stroke()
	for _, e := range into.Engines {
		least = min(least, e.Stroke())
	}
	if !m.flags.Changed("within") {
		for _, usual := range usualDwells(into.Inches) {
			if usual < least {
				into.Within = append(into.Within, usual)
			}
		}
		return nil
	}
	lengths, err := m.lengths("within")
	for _, l := range lengths {
		if !(l > 0 && l <= least) {
			return misuse("--within %v: expected a drop above zero and no more than the stroke, such as 0.1", l)
		}
	}
	into.Within = lengths
	return err
}

// usualDwells are round numbers in the unit that is read.
func usualDwells(inches bool) []geometry.Length {
	if inches {
		return []geometry.Length{0.0005 * geometry.Inch, 0.005 * geometry.Inch, 0.05 * geometry.Inch}
	}
	return []geometry.Length{0.01, 0.1, 1}
}

func (m motionFlags) speed(into *motion.Motion) error {
	text := *m.text["rpm"]
	if text == "" {
		return nil
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || !(value > 0 && value <= 1e6) {
		return misuse("--rpm %s: expected turns a minute such as 3000", text)
	}
	into.RPM = value
	return nil
}

func (m motionFlags) liquid(into *motion.Motion) error {
	text := *m.text["liquid"]
	if text == "" {
		return nil
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || !(value > 0 && value <= 1e9) {
		return misuse("--liquid %s: expected millilitres such as 20", text)
	}
	if into.Engines[0].Cylinder == nil {
		return misuse("--liquid needs --bore and --compression: type for example %s --bore 86 --compression 10.5 --liquid 60", motionExample)
	}
	into.Liquid = geometry.Volume(value) * geometry.CubicCentimetre
	return nil
}
