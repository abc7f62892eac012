package interview

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// size is a length of an engine, and between which lengths it commonly lies (common
// practice, no source).
type size struct {
	name        string
	least, most geometry.Length
	of          func(*evidence.Engine) *geometry.Length
}

var (
	stroke = size{"stroke", evidence.ShortStroke, evidence.LongStroke, func(e *evidence.Engine) *geometry.Length { return &e.Stroke }}
	bore   = size{"bore", evidence.ShortStroke, evidence.LongStroke, func(e *evidence.Engine) *geometry.Length { return &e.Bore }}
	rod    = size{"rod", 1.5 * evidence.ShortStroke, 2.5 * evidence.LongStroke, func(e *evidence.Engine) *geometry.Length { return &e.Rod }}
)

// take reads one of an engine's lengths. A bare number that makes no usual engine is
// asked for again with its unit, and is taken then.
func (s size) take(f Facts, answer string) (Facts, string, error) {
	if answer == "" || word(answer) == "none" {
		*s.of(&f.Engine) = 0
		return f, "", nil
	}
	typed, err := parseLength(answer, f.Unit)
	switch {
	case err != nil:
		return f, "", err
	case typed.Length <= 0:
		return f, "", fmt.Errorf("a %s is longer than zero: type it as in 81.4, or press Enter if it is unknown", s.name)
	case typed.unit == "" && !s.usual(typed.Length):
		return f, "", fmt.Errorf("%s is not a usual %s: type %sit with its unit to keep it, as in %s",
			f.length(typed.Length), s.name, s.otherwise(typed, f.Unit), f.length(typed.Length))
	}
	*s.of(&f.Engine) = typed.Length
	f.inches = f.inches || typed.unit == "in"
	return f, "", s.turns(f, typed)
}

func (s size) usual(l geometry.Length) bool { return l >= s.least && l <= s.most }

// otherwise is what to type where the number is of the unit that nobody typed, and makes a
// usual length of it.
func (s size) otherwise(t typedLength, unit string) string {
	other, says := t.Length*25.4, t.number+" in if it is in inches, or type "
	if unit == "in" {
		other, says = t.Length/25.4, t.number+" mm if it is in mm, or type "
	}
	if !s.usual(other) {
		return ""
	}
	return says
}

// turns refuses what makes no engine that turns, and a bare rod unlike its stroke.
func (s size) turns(f Facts, typed typedLength) error {
	e := f.Engine
	switch {
	case !e.Known():
		return nil
	case !f.canTurn():
		return fmt.Errorf("a stroke of %s and a rod of %s cannot turn: the rod is too short. Type it again, or back to correct the one before",
			f.length(e.Stroke), f.length(e.Rod))
	case s.name == "rod" && typed.unit == "" && !evidence.RodLike(e.Rod, e.Stroke):
		return fmt.Errorf("a rod of %s is unusual for a stroke of %s: type %sit with its unit to keep it, as in %s",
			f.length(e.Rod), f.length(e.Stroke), s.otherwise(typed, f.Unit), f.length(e.Rod))
	}
	return nil
}

// canTurn tells whether an engine of these dimensions turns; one of unknown ones may.
func (f Facts) canTurn() bool {
	e := f.Engine
	if !e.Known() {
		return true
	}
	_, err := geometry.NewSliderCrank(e.Stroke, e.Rod, e.Offset())
	return err == nil
}

// typedLength is a length, and the unit that was typed with it; "" of none.
type typedLength struct {
	geometry.Length
	number, unit string
}

var (
	fraction = regexp.MustCompile(`^(?:(\d+)[ -])?(\d+)/(\d+)`)
	metric   = regexp.MustCompile(`^([\d.,]+) ?(cm|m)$`)
	bare     = regexp.MustCompile(`^[+-]? ?[\d.,]+`)
	number   = regexp.MustCompile(`[\d.,]+`)
)

// parseLength reads a length with a unit of its own or without, and inches in fractions.
func parseLength(answer, unit string) (typedLength, error) {
	text := decimals(strings.ToLower(answer))
	if m := metric.FindStringSubmatch(text); m != nil {
		return typedLength{}, fmt.Errorf("type it in mm or in inches, not in %s: %s", m[2], inMillimetres(m[1], m[2]))
	}
	length, err := measure.Length(text, unit)
	if err != nil && len(number.FindAllString(text, -1)) > 1 {
		return typedLength{}, errors.New("that is more than one number: type one length, as in 81.4 or 3.2 in")
	}
	if err != nil {
		return typedLength{}, fmt.Errorf("%s is not a length: type it as in 81.4, 81.4 mm or 3.2 in, or press Enter if it is unknown", quoted(answer))
	}
	t := typedLength{Length: length, number: bare.FindString(text)}
	if rest := strings.TrimSpace(text[len(t.number):]); rest != "" {
		t.unit = "in"
		if rest == "mm" {
			t.unit = "mm"
		}
	}
	return t, nil
}

// decimals is a text whose fraction at its beginning, as in 3 1/8 in, is in decimals.
func decimals(text string) string {
	m := fraction.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	whole, _ := strconv.Atoi(m[1]) // none is zero
	above, _ := strconv.Atoi(m[2])
	below, _ := strconv.Atoi(m[3])
	if below == 0 {
		return text
	}
	return strconv.FormatFloat(float64(whole)+float64(above)/float64(below), 'f', -1, 64) + text[len(m[0]):]
}

// inMillimetres is what to type for a number of centimetres or metres.
func inMillimetres(text, unit string) string {
	x, err := measure.Decimal(text)
	if err != nil {
		return "as in 81.4"
	}
	return evidence.ShortNumber(x*map[string]float64{"cm": 10, "m": 1000}[unit]) + " mm"
}

// takeUnit settles the unit of the lengths to come.
func takeUnit(f Facts, answer string) (Facts, string, error) {
	switch word(answer) {
	case "mm", "millimetres", "millimeters", "metric":
		answer = "n"
	case "in", "inch", "inches", `"`:
		answer = "y"
	}
	inches, err := yesOrNo(answer, true)
	if err != nil {
		return f, "", errors.New("type y for inches or n for mm")
	}
	if inches {
		f.Unit = "in"
		return f, "A number without a unit is in inches from here on.", nil
	}
	f.Unit = "mm"
	return f, "", nil
}

// exampleOffset is how an offset is typed.
func (f Facts) exampleOffset() string {
	if f.Unit == "in" {
		return "pin 0.03 or bore 0.3"
	}
	return "pin 0.8 or bore 8"
}

// notOffset says what to type instead of what is not an offset.
func (f Facts) notOffset() error {
	return fmt.Errorf("type no where both stand over the crank, or which one and how far, as in %s; minus is the other side. Press Enter where it is unknown", f.exampleOffset())
}

// takeOffset reads whether pin or bore stands off the crank, and how far.
func takeOffset(f Facts, answer string) (Facts, string, error) {
	e := &f.Engine
	e.PinOffset, e.BoreOffset, e.OffsetStated = 0, 0, answer != ""
	switch low := strings.ToLower(answer); {
	case low == "", low == "n", low == "no", low == "none", low == "0":
		return f, "", nil
	case strings.Contains(low, "pin"):
		return takeOff(f, func(e *evidence.Engine, off geometry.Length) { e.PinOffset = off }, strings.Replace(low, "pin", "", 1))
	case strings.Contains(low, "bore"):
		return takeOff(f, func(e *evidence.Engine, off geometry.Length) { e.BoreOffset = off }, strings.Replace(low, "bore", "", 1))
	}
	return f, "", f.notOffset()
}

// takeOff reads how far one of the two is off.
func takeOff(f Facts, state func(*evidence.Engine, geometry.Length), text string) (Facts, string, error) {
	typed, err := parseLength(strings.TrimSpace(text), f.Unit)
	if err != nil {
		return f, "", f.notOffset()
	}
	state(&f.Engine, typed.Length)
	throw := f.Engine.Stroke / 2
	if !f.canTurn() || throw > 0 && (typed.Length > throw || typed.Length < -throw) {
		return f, "", fmt.Errorf("%s is too far off for this engine: type it again, as in %s", f.length(typed.Length), f.exampleOffset())
	}
	return f, "", nil
}
