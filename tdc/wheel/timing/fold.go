package timing

import (
	"io"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel/teeth"
)

// Folded is a signal laid over itself turn by turn.
type Folded struct {
	Column   int     // from 1
	Name     string  // the column's heading; "" when it has none
	Least    float64 // of the whole capture, in the signal's own unit
	Most     float64
	Envelope []Span // in the order of angle; none where no sample fell
}

// Span is the least and the greatest sample of a small interval of crank angle.
type Span struct {
	Angle     geometry.Angle // after the gap, the interval's middle
	Low, High float64
}

// foldStep is the interval that samples are gathered in: finer than can be seen
// in a picture of two turns, and the same few whatever the capture's length.
const foldStep = geometry.Degree / 2

// Fold reads the capture that was measured once more, and lays its signals over
// one turn, or over two where the cams tell them apart: the crank's first. Turns
// that were left out are left out here too. An error is of a file that was changed since.
func (r Result) Fold(in io.Reader) ([]Folded, error) {
	bins := int(math.Round(float64(r.Period / foldStep)))
	spans := make([][]Span, len(r.survey.Channels))
	for i := range spans {
		spans[i] = emptySpans(bins)
	}
	k := 0
	err := r.survey.Again(in, r.held(func(t float64, channels []float64) {
		for k < len(r.placed) && t >= r.placed[k].end() {
			k++
		}
		if k == len(r.placed) || t < r.placed[k].Times[0] {
			return
		}
		angle := Into(r.placed[k].At(t)+r.placed[k].begins, r.Period)
		bin := min(int(angle/foldStep), bins-1)
		for i, v := range channels {
			spans[i][bin].take(r.survey.Channels[i].Within(v))
		}
	}))
	if err != nil {
		return nil, err
	}
	var out []Folded
	for i, l := range r.survey.Channels {
		filled := slices.DeleteFunc(spans[i], func(s Span) bool { return s.Low > s.High })
		out = append(out, Folded{r.survey.Column(i) + 1, r.survey.Name(i), l.Least, l.Most, filled})
	}
	return out, nil
}

// held calls take between the rows of a list of changes too, for the levels that
// hold there: twice in each small interval of crank angle.
func (r Result) held(take func(t float64, channels []float64)) func(t float64, channels []float64) {
	if !r.Changes || len(r.placed) == 0 {
		return take
	}
	step := r.survey.Step * float64(foldStep/2/r.Step)
	from, to := r.placed[0].Times[0], r.placed[len(r.placed)-1].end()
	last, levels := math.Inf(1), make([]float64, len(r.survey.Channels))
	return func(t float64, channels []float64) {
		for at := math.Max(last, from); at < math.Min(t, to); at += step {
			take(at, levels)
		}
		copy(levels, channels)
		last = t
		take(t, channels)
	}
}

// placed is the curve of a run of turns, and where in the cycle it begins.
type placed struct {
	teeth.Curve
	begins geometry.Angle
}

func (p placed) end() float64 { return p.Times[len(p.Times)-1] }

func placedOf(curves []teeth.Curve, begins map[int]geometry.Angle) []placed {
	var out []placed
	for i, c := range curves {
		if at, ok := begins[i]; ok {
			out = append(out, placed{c, at})
		}
	}
	return out
}

func emptySpans(n int) []Span {
	out := make([]Span, n)
	for i := range out {
		out[i] = Span{(geometry.Angle(i) + 0.5) * foldStep, math.Inf(1), math.Inf(-1)}
	}
	return out
}

// take widens the span to a sample; one that is none changes nothing.
func (s *Span) take(v float64) {
	if v == v {
		s.Low, s.High = math.Min(s.Low, v), math.Max(s.High, v)
	}
}
