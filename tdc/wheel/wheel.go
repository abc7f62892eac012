// Package wheel is an engine's crank sensor wheel: the angles from each leading edge
// to the next, where its gaps are, and what of it looks alike. How it is written,
// 60-2 or 57x6,18, is read and written here.
//
// The rooms about it go from a capture to what is wrong, and each uses only those
// before it: fault says what is wrong with a capture, signal when a signal crosses
// its middle, capture reads the file, pattern finds what comes again, timing turns
// times into crank angles, compare says what moved since another capture.
package wheel

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"evendrop/geometry"
)

// Wheel is a crank wheel as the angles from each leading edge to the next, that
// make up one turn. The first begins at the first leading edge after the gap, so
// the last is the gap or ends with it.
type Wheel struct {
	Name      string // as it was written
	Intervals []geometry.Angle
	gaps      []int // pitches missing at each gap, ascending, of a name that tells no places
	pitches   int   // in a turn, of such a name
}

// MostTeeth is more than any crank wheel has.
const MostTeeth = 1000

// listed are wheels of several gaps whose places are told by custom alone
// (common practice, no source).
var listed = map[string]string{"36-2-2-2": "18x10,30,9x10,2x30"}

var pitchesMissing = regexp.MustCompile(`^([0-9]{1,4})-([0-9]{1,4})((?:-[0-9]{1,4})*)$`)

// Parse reads a wheel written as pitches-missing, such as 60-2, or as its
// intervals in degrees from the first leading edge after the gap, such as
// 57x6,18. An error does not repeat the text.
func Parse(text string) (Wheel, error) {
	text = strings.TrimSpace(text)
	m := pitchesMissing.FindStringSubmatch(text)
	list, known := listed[text]
	switch {
	case known:
		return fromList(text, list)
	case m == nil && strings.ContainsAny(text, ",x."):
		return fromList(text, text)
	case m == nil:
		return Wheel{}, errors.New("expected pitches-missing such as 60-2, or degrees from edge to edge such as 57x6,18")
	case m[3] != "":
		return Wheel{}, fmt.Errorf("the name does not tell where its gaps are: type the degrees from edge to edge instead, as in %s", listed["36-2-2-2"])
	}
	pitches, missing := numbers(text)
	if missing[0] < 1 || pitches > MostTeeth || pitches-missing[0] < 2 {
		return Wheel{}, fmt.Errorf("expected at least one tooth missing, two left and %d pitches at most, as in 60-2", MostTeeth)
	}
	pitch := geometry.Turn / geometry.Angle(pitches)
	teeth := slices.Repeat([]geometry.Angle{pitch}, pitches-missing[0]-1)
	return Wheel{Name: text, Intervals: append(teeth, pitch*geometry.Angle(missing[0]+1))}, nil
}

// fromList reads intervals in degrees, a run of equal ones as 18x10.
func fromList(name, list string) (Wheel, error) {
	w := Wheel{Name: name}
	for _, item := range strings.Split(list, ",") {
		count, each, many := strings.Cut(strings.TrimSpace(item), "x")
		if !many {
			count, each = "1", count
		}
		n, err := strconv.Atoi(count)
		degrees, err2 := strconv.ParseFloat(each, 64)
		if err != nil || err2 != nil || n < 1 || len(w.Intervals)+n > MostTeeth || !(degrees > 0 && degrees < 360) {
			return w, fmt.Errorf("%q: expected degrees such as 18, or 57x6 for 57 intervals of 6", item)
		}
		w.Intervals = append(w.Intervals, slices.Repeat([]geometry.Angle{geometry.Angle(degrees) * geometry.Degree}, n)...)
	}
	return w, w.check()
}

// sumKnownTo is how far a list of intervals may sum from a turn: 1000 of them
// written to four decimals.
const sumKnownTo = 0.05 * geometry.Degree

// check refuses a wheel that is no turn, or has nothing to count from.
func (w *Wheel) check() error {
	sum := geometry.Angle(0)
	for _, a := range w.Intervals {
		sum += a
	}
	if math.Abs(float64(sum-geometry.Turn)) > float64(sumKnownTo) {
		return fmt.Errorf("the intervals sum to %s deg: expected 360", geometry.Decimal(sum.Degrees(), 6))
	}
	for i := range w.Intervals {
		w.Intervals[i] *= geometry.Turn / sum
	}
	if len(w.Intervals) < 2 || w.Contrast() < leastContrast || len(w.Intervals)%w.PartTeeth() != 0 {
		return errors.New("no gap tells one part of the turn from the others: there is no edge to count from")
	}
	return nil
}

// leastContrast is the least ratio of the longest interval to the shortest that
// can be told at cranking speed, where speed itself varies from tooth to tooth.
const leastContrast = 1.5

// Contrast is the ratio of the longest interval to the shortest.
func (w Wheel) Contrast() float64 { return float64(slices.Max(w.Intervals) / w.Pitch()) }

// List is the wheel's intervals in degrees, in the form that Parse takes.
func (w Wheel) List() string {
	var degrees []string
	for _, a := range w.Intervals {
		degrees = append(degrees, strconv.FormatFloat(math.Round(a.Degrees()*1e4)/1e4, 'f', -1, 64))
	}
	return inRuns(degrees)
}

// inRuns writes items with equal ones on end as 57x6.
func inRuns(items []string) string {
	var out []string
	for i := 0; i < len(items); {
		j := i
		for j < len(items) && items[j] == items[i] {
			j++
		}
		if j-i > 1 {
			out = append(out, fmt.Sprintf("%dx%s", j-i, items[i]))
		} else {
			out = append(out, items[i])
		}
		i = j
	}
	return strings.Join(out, ",")
}

// Alike tells whether two wheels are one.
func (w Wheel) Alike(other Wheel) bool {
	return slices.EqualFunc(w.Intervals, other.Intervals, func(a, b geometry.Angle) bool {
		return math.Abs(float64(a-b)) < float64(sumKnownTo)
	})
}

// Teeth is how many leading edges a turn has.
func (w Wheel) Teeth() int { return len(w.Intervals) }

// Pitch is the shortest interval.
func (w Wheel) Pitch() geometry.Angle { return slices.Min(w.Intervals) }

// Pitches is how many of the shortest interval would make a turn.
func (w Wheel) Pitches() int { return int(math.Round(float64(geometry.Turn / w.Pitch()))) }

// Angle is where a tooth is, in crank angle after the gap: tooth 0 is the first
// leading edge, 2.5 is half-way from the third to the fourth. Teeth past the last
// are in the next turn.
func (w Wheel) Angle(tooth float64) geometry.Angle {
	n := float64(len(w.Intervals))
	turns := math.Floor(tooth / n)
	whole, part := math.Modf(tooth - turns*n)
	angle := geometry.Angle(turns) * geometry.Turn
	for _, a := range w.Intervals[:min(int(whole), len(w.Intervals))] {
		angle += a
	}
	if int(whole) < len(w.Intervals) {
		angle += w.Intervals[int(whole)] * geometry.Angle(part)
	}
	return angle
}

// Tooth is the tooth, with its fraction, at a crank angle after the gap: the
// inverse of Angle.
func (w Wheel) Tooth(angle geometry.Angle) float64 {
	turns := math.Floor(float64(angle / geometry.Turn))
	rest := angle - geometry.Angle(turns)*geometry.Turn
	tooth := turns * float64(len(w.Intervals))
	for i, a := range w.Intervals {
		if rest < a || i == len(w.Intervals)-1 {
			return tooth + float64(rest/a)
		}
		rest -= a
		tooth++
	}
	return tooth
}
