package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
)

// scale is the lines of the protractor at which a cylinder was read. The protractor's own
// error is one curve: the same at the same line, however often it was read, and alike at
// places near one another.
type scale struct {
	own   float64     // variance of the error at one line, radians squared
	step  float64     // between lines, radians; zero: no two readings share one
	index map[int]int // of a line among those that were read
	lines []int       // that were read, in the order they first come
	of    [][]int     // indices of the lines that each reading, then each pair, was read at
}

// newScale is the scale of readings and pairs.
func newScale(p evidence.Protractor, read []evidence.Reading, pairs []curve.Midpoint) scale {
	s := scale{own: sq(float64(p.Error)) / 3, step: float64(p.Step), index: map[int]int{}}
	for _, r := range read {
		s.add(r.Angle)
	}
	for _, m := range pairs {
		s.add(m.Read...)
	}
	return s
}

// add takes up what one observation was read at.
func (s *scale) add(angles ...geometry.Angle) {
	var at []int
	for _, angle := range angles {
		line, shared := s.line(angle)
		if !shared {
			line = -1 - len(s.lines)
		}
		i, known := s.index[line]
		if !known {
			i = len(s.lines)
			s.index[line] = i
			s.lines = append(s.lines, line)
		}
		at = append(at, i)
	}
	s.of = append(s.of, at)
}

// line is the line nearest to a crank angle, counted from the protractor's zero; none
// where the protractor is not read by lines.
func (s *scale) line(angle geometry.Angle) (line int, shared bool) {
	if s.step == 0 {
		return 0, false
	}
	return int(math.Round(float64(angle.Positive())/s.step)) % int(math.Round(float64(geometry.Turn)/s.step)), true
}

// weights is how an estimate answers to the error of each line, radians per radian.
func (s *scale) weights(in influence, readings int) []float64 {
	weights := make([]float64, len(s.lines))
	for i, at := range s.of {
		whole := in.angle[i]
		if i >= readings {
			whole = in.depth[i]
		}
		for _, line := range at {
			weights[line] += whole / float64(len(at))
		}
	}
	return weights
}

// together is the covariance that the lines' errors leave two estimates which answer to
// them so, the second by its own scale of the same protractor. A protractor that is not
// read by lines was read nowhere twice.
func (s *scale) together(weights []float64, other *scale, others []float64) float64 {
	sum := 0.0
	for i, line := range s.lines {
		if j, both := other.index[line]; both && (line >= 0 || s == other) {
			sum += weights[i] * others[j]
		}
	}
	return s.own * sum
}

// at is what an estimate that answers to the lines so has of those of a position.
func (s *scale) at(lines []onLine, weights []float64) float64 {
	sum := 0.0
	for _, l := range lines {
		if i, known := s.index[l.line]; known {
			sum += weights[i] * l.weight
		}
	}
	return sum
}

// alone is the variance that the lines' errors leave an estimate.
func (s *scale) alone(weights []float64) float64 {
	sum := 0.0
	for _, w := range weights {
		sum += w * w
	}
	return s.own * sum
}

// likeness is the angle over which the protractor's error changes: errors at places so
// far apart have a correlation of 1/e. No length is right for every protractor; this one
// held the truth for errors from independent ones to two waves a turn (simulated,
// testdata/honesty).
const likeness = 90 * geometry.Degree

// unlike is half the mean square of how much the protractor's error differs between two
// places so far apart, radians squared.
func (s *scale) unlike(apart geometry.Angle) float64 {
	return -s.own * math.Expm1(-math.Abs(float64(apart.Signed()/likeness)))
}

// common is what the parts of an influence leave out: its readings share the errors of
// their lines, which were counted as fresh at each. It is negative where what a line does
// to one reading it takes back at another.
func (a *Adjustment) common(in influence) float64 {
	return a.scale.alone(a.scale.weights(in, len(a.read))) - a.fresh(in)
}

// fresh is what the protractor's error would leave an estimate, were it another at every
// reading: two halves of it at a pair.
func (a *Adjustment) fresh(in influence) float64 {
	sum := 0.0
	for i := range a.read {
		sum += sq(in.angle[i])
	}
	for k := range a.pairs {
		sum += sq(in.depth[len(a.read)+k]) / 2
	}
	return a.scale.own * sum
}

// onScale is a spread with the error of the protractor where TDC comes on it: with an
// error-free one in its place, TDC would be shown anywhere within that of where it is.
func (a *Adjustment) onScale(s gum.Spread) gum.Spread {
	if a.scale.own > 0 {
		s.Rectangular = append(s.Rectangular, math.Sqrt(a.scale.own))
	}
	return s
}
