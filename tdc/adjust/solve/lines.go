package solve

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
)

// Lines is the lines of the protractor at which a cylinder was read. The protractor's own
// error is one curve: the same at the same line, however often it was read, and alike at
// places near one another.
type Lines struct {
	Own   float64     // variance of the error at one line, radians squared
	step  float64     // between lines, radians; zero: no two readings share one
	index map[int]int // of a line among those that were read
	Read  []int       // that were read, in the order they first come
	Of    [][]int     // indices of the lines that each reading, then each pair, was read at
}

// newLines is the lines of readings and pairs.
func newLines(p evidence.Protractor, read []evidence.Reading, pairs []curve.Midpoint) Lines {
	s := Lines{Own: sq(float64(p.Error)) / 3, step: float64(p.Step), index: map[int]int{}}
	for _, r := range read {
		s.add(r.Angle)
	}
	for _, m := range pairs {
		s.add(m.Read...)
	}
	return s
}

// add takes up what one observation was read at.
func (s *Lines) add(angles ...geometry.Angle) {
	var at []int
	for _, angle := range angles {
		line, shared := s.Line(angle)
		if !shared {
			line = -1 - len(s.Read)
		}
		i, known := s.index[line]
		if !known {
			i = len(s.Read)
			s.index[line] = i
			s.Read = append(s.Read, line)
		}
		at = append(at, i)
	}
	s.Of = append(s.Of, at)
}

// Line is the line nearest to a crank angle, counted from the protractor's zero; none
// where the protractor is not read by lines.
func (s *Lines) Line(angle geometry.Angle) (line int, shared bool) {
	if s.step == 0 {
		return 0, false
	}
	return int(math.Round(float64(angle.Positive())/s.step)) % int(math.Round(float64(geometry.Turn)/s.step)), true
}

// Weights is how an estimate answers to the error of each line, radians per radian.
func (s *Lines) Weights(in Influence, readings int) []float64 {
	weights := make([]float64, len(s.Read))
	for i, at := range s.Of {
		whole := in.Angle[i]
		if i >= readings {
			whole = in.Depth[i]
		}
		for _, line := range at {
			weights[line] += whole / float64(len(at))
		}
	}
	return weights
}

// Together is the covariance that the lines' errors leave two estimates which answer to
// them so, the second by its own scale of the same protractor. A protractor that is not
// read by lines was read nowhere twice.
func (s *Lines) Together(weights []float64, other *Lines, others []float64) float64 {
	sum := 0.0
	for i, line := range s.Read {
		if j, both := other.index[line]; both && (line >= 0 || s == other) {
			sum += weights[i] * others[j]
		}
	}
	return s.Own * sum
}

// At is what an estimate that answers to the lines so has of those of a position.
func (s *Lines) At(lines []OnLine, weights []float64) float64 {
	sum := 0.0
	for _, l := range lines {
		if i, known := s.index[l.Line]; known {
			sum += weights[i] * l.Weight
		}
	}
	return sum
}

// alone is the variance that the lines' errors leave an estimate.
func (s *Lines) alone(weights []float64) float64 {
	sum := 0.0
	for _, w := range weights {
		sum += w * w
	}
	return s.Own * sum
}

// likeness is the angle over which the protractor's error changes: errors at places so
// far apart have a correlation of 1/e. No length is right for every protractor; this one
// held the truth for errors from independent ones to two waves a turn (simulated,
// testdata/honesty).
const likeness = 90 * geometry.Degree

// Unlike is half the mean square of how much the protractor's error differs between two
// places so far apart, radians squared.
func (s *Lines) Unlike(apart geometry.Angle) float64 {
	return -s.Own * math.Expm1(-math.Abs(float64(apart.Signed()/likeness)))
}

// common is what the parts of an influence leave out: its readings share the errors of
// their lines, which were counted as fresh at each. It is negative where what a line does
// to one reading it takes back at another.
func (a *Solved) common(in Influence) float64 {
	return a.Lines.alone(a.Lines.Weights(in, len(a.Read))) - a.fresh(in)
}

// fresh is what the protractor's error would leave an estimate, were it another at every
// reading: two halves of it at a pair.
func (a *Solved) fresh(in Influence) float64 {
	sum := 0.0
	for i := range a.Read {
		sum += sq(in.Angle[i])
	}
	for k := range a.Pairs {
		sum += sq(in.Depth[len(a.Read)+k]) / 2
	}
	return a.Lines.Own * sum
}

// OnLine is a line of the protractor and its part in a position.
type OnLine struct {
	Line   int
	Weight float64
}
