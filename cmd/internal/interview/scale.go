package interview

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// understanding is what two readings tell of a protractor: one a little before the top,
// one a little after it, in the running direction.
type understanding struct {
	sense evidence.Sense
	scale evidence.Scale // 0: they do not tell
	sides bool           // they were written with BTDC and ATDC
}

// farthest is more than a little before and after the top, degrees between the two.
const farthest = 60

// understand tells a protractor's sense and scale from the two readings.
func understand(before, after evidence.Written) (understanding, error) {
	b, a := before.Angle.Degrees(), after.Angle.Degrees()
	switch {
	case before.Side != evidence.NoSide || after.Side != evidence.NoSide:
		return bySides(before, after)
	case max(math.Abs(b), math.Abs(a)) > float64(evidence.Cycle):
		return understanding{}, errors.New("no protractor shows more than 720: type what it reads, as in 356 and 4")
	case a == b:
		return understanding{}, fmt.Errorf("both are %s. If it counts up both ways from a zero, type %[1]s BTDC and %[1]s ATDC; if not, turn a little farther",
			evidence.ShortNumber(a))
	}
	scale := scaleOf(min(a, b), max(a, b))
	round := float64(max(scale, evidence.Full))
	steps := a - b - round*math.Round((a-b)/round)
	if scale == evidence.Full && max(a, b) <= 180 {
		scale = 0 // any of them may show these
	}
	u := understanding{scale: scale}
	if steps < 0 {
		u.sense = evidence.Against
	}
	return u, tooFar(a, b, steps)
}

// scaleOf is the scale that has two numbers, the simplest.
func scaleOf(least, most float64) evidence.Scale {
	switch {
	case most > float64(evidence.Full), least < -180:
		return evidence.Cycle
	case least < 0 && most <= 180:
		return evidence.Halves
	}
	return evidence.Full
}

// tooFar refuses readings that are not a little before and after the top.
func tooFar(a, b, steps float64) error {
	switch {
	case steps == 0:
		return fmt.Errorf("%s and %s are one place: type what it reads a little before the top, and a little after it", evidence.ShortNumber(b), evidence.ShortNumber(a))
	case math.Abs(steps) <= farthest:
		return nil
	case max(a, b) <= 180 && math.Abs(steps) > 180-farthest:
		return fmt.Errorf("%s and %s lie %s deg apart: read it within some 10 deg of the top. If its numbers start again after 180, add 180 beyond that",
			evidence.ShortNumber(b), evidence.ShortNumber(a), evidence.ShortNumber(math.Abs(steps)))
	}
	return fmt.Errorf("%s and %s lie %s deg apart: read it within some 10 deg of the top, on either side",
		evidence.ShortNumber(b), evidence.ShortNumber(a), evidence.ShortNumber(math.Abs(steps)))
}

// bySides understands readings that say their side.
func bySides(before, after evidence.Written) (understanding, error) {
	b, a := before.Angle.Degrees(), after.Angle.Degrees()
	sides := []evidence.Side{before.Side, after.Side}
	switch {
	case slices.Contains(sides, evidence.BBDC) || slices.Contains(sides, evidence.ABDC):
		return understanding{}, errors.New("that is at the bottom: read it near the top, as in 4 BTDC and 4 ATDC")
	case slices.Equal(sides, []evidence.Side{evidence.ATDC, evidence.BTDC}):
		return understanding{}, fmt.Errorf("the first one is before the top: type %s BTDC and %s ATDC", evidence.ShortNumber(a), evidence.ShortNumber(b))
	case !slices.Equal(sides, []evidence.Side{evidence.BTDC, evidence.ATDC}):
		return understanding{}, errors.New("write BTDC with the first and ATDC with the second, or neither")
	case b < 0 || a < 0:
		return understanding{}, errors.New("a minus sign and BTDC are one too many: type one of them, as in 4 BTDC and 4 ATDC")
	case a+b > farthest:
		return understanding{}, tooFar(a, -b, a+b)
	}
	return understanding{sides: true}, nil
}

var (
	among = regexp.MustCompile(`(?i)\s*(?:;|/|&|\band\b|\bthen\b|\bto\b|,\s)\s*`)
	pair  = regexp.MustCompile(`^(\d+),(\d+)$`)
)

var errAround = errors.New("type two readings, the one before the top first, as in 356 and 4, or 4 BTDC and 4 ATDC")

// parseAround reads two angles, however they are kept apart.
func parseAround(answer string) (before, after evidence.Written, err error) {
	parts := among.Split(answer, -1)
	if m := pair.FindStringSubmatch(answer); m != nil {
		parts = m[1:]
	}
	if len(parts) == 1 {
		parts = strings.Fields(answer)
	}
	for cut := 1; cut < len(parts); cut++ {
		before, errBefore := measure.Angle(strings.Join(parts[:cut], " "))
		after, errAfter := measure.Angle(strings.Join(parts[cut:], " "))
		if errBefore == nil && errAfter == nil {
			return before, after, nil
		}
	}
	return before, after, errAround
}

// takeAround reads the two, and holds them against the way the number went.
func takeAround(f Facts, answer string) (Facts, string, error) {
	f.understood, f.contradicted, f.Sides = false, false, false
	if answer == "" {
		return f, "", nil
	}
	before, after, err := parseAround(answer)
	if err != nil {
		return f, "", err
	}
	u, err := understand(before, after)
	switch {
	case err != nil:
		return f, "", err
	case !u.sides && f.Tried && u.sense != f.Sense:
		return f, "", fmt.Errorf("those two %s, and when you turned the crank the number %s: type the one before the top first, as the engine runs, or back",
			rises(u.sense), went(f.Sense))
	}
	f.understood, f.Sides, f.Scale = true, u.sides, u.scale
	f.Sense, f.Tried = u.sense, true // of sides the words rule
	return f, "Understood: " + u.words() + ".", nil
}

func rises(s evidence.Sense) string {
	if s == evidence.Against {
		return "fall"
	}
	return "rise"
}

func went(s evidence.Sense) string {
	if s == evidence.Against {
		return "fell"
	}
	return "rose"
}

// words is what was understood, to be contradicted.
func (u understanding) words() string {
	if u.sides {
		return "it counts up both ways from a zero near the top, and each angle is written with BTDC or ATDC"
	}
	way := "its numbers " + rises(u.sense) + " as the engine runs"
	switch u.scale {
	case evidence.Cycle:
		return way + ", and it counts both turns of a cycle, to 720"
	case evidence.Full:
		return way + ", and 0 comes after 360"
	case evidence.Halves:
		return way + ", and it counts to 180 both ways, with a minus sign on one side"
	}
	return way
}

// takeRight takes what was understood, or leaves it to be asked.
func takeRight(f Facts, answer string) (Facts, string, error) {
	right, err := yesOrNo(answer, true)
	if err != nil {
		return f, "", err
	}
	if f.contradicted = !right; f.contradicted {
		f.Scale, f.Sides, f.Tried = 0, false, false
		return f, "Then one at a time.", nil
	}
	return f, "", nil
}

// takeTurned reads which way the number went as the crank was turned.
func takeTurned(f Facts, answer string) (Facts, string, error) {
	if w := word(answer); w == "both" || w == "both ways" { // what it reads about the top tells
		answer = ""
	}
	f.Tried, f.Sense = answer != "", evidence.With
	if answer == "" {
		return f, "", nil
	}
	up, err := rose(answer)
	if err != nil {
		return f, "", err
	}
	if !up {
		f.Sense = evidence.Against
	}
	return f, "", nil
}

// takeBottom parts quadrants from halves, which both count up either way.
func takeBottom(f Facts, answer string) (Facts, string, error) {
	switch word(answer) {
	case "", "0", "zero":
		f.Scale = evidence.Quadrants
	case "180", "half":
		f.Scale = evidence.Halves
	default:
		return f, "", fmt.Errorf("%s is neither: type 0 or 180", quoted(answer))
	}
	return f, "", nil
}

// takeWraps reads where the scale comes round.
func takeWraps(f Facts, answer string) (Facts, string, error) {
	switch strings.TrimSuffix(word(answer), "°") {
	case "", "360":
		f.Scale = evidence.Full
	case "180", "-180", "+-180", "±180":
		f.Scale = evidence.Halves
	case "90", "quadrants", "quadrant":
		f.Scale = evidence.Quadrants
	case "720":
		f.Scale = evidence.Cycle
	default:
		return f, "", fmt.Errorf("%s is none of them: type 360, 180, 90 or 720", quoted(answer))
	}
	return f, "", nil
}
