package wheel

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// ParseTold reads what a user says of the wheel on a capture: as Parse, or a name
// such as 36-2-2 whose gaps the capture has to place, or nothing; an error of any other text.
func ParseTold(text string) (Wheel, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return Wheel{}, nil
	}
	pitches, gaps := numbers(text)
	if len(gaps) < 2 {
		return Parse(text)
	}
	teeth := pitches
	for _, g := range gaps {
		teeth -= g
	}
	if slices.Contains(gaps, 0) || pitches > MostTeeth || teeth < len(gaps) {
		return Wheel{}, fmt.Errorf("expected teeth missing at each gap, one left after each and %d pitches at most, as in 36-2-2-2", MostTeeth)
	}
	w := Wheel{Name: text}
	if list, known := listed[text]; known {
		w, _ = fromList(text, list)
	}
	w.pitches, w.gaps = pitches, slices.Sorted(slices.Values(gaps))
	return w, nil
}

// numbers are the pitches and the teeth missing at each gap of a name such as
// 36-2-2; none of any other text.
func numbers(name string) (pitches int, gaps []int) {
	if !pitchesMissing.MatchString(name) {
		return 0, nil
	}
	for i, part := range strings.Split(name, "-") {
		n, _ := strconv.Atoi(part)
		if i == 0 {
			pitches = n
		} else {
			gaps = append(gaps, n)
		}
	}
	return pitches, gaps
}

// PitchesTold is how many pitches were told; 0 of none.
func (w Wheel) PitchesTold() int {
	if w.pitches > 0 || len(w.Intervals) == 0 {
		return w.pitches
	}
	return w.Pitches()
}

// Missing are the teeth missing at each gap, ascending, of a name that tells no
// places for them; none of any other wheel.
func (w Wheel) Missing() []int { return w.gaps }
