package seen

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// wheel is the edges of one cam's sensor wheel that were marked, two or more. They were
// seen one by one, but cut in one piece, fitted to the cam once and seen by one sensor: one
// witness.
type wheel struct {
	name  string
	from  string    // the other cam's wheel that they were measured from; "" of the crank
	marks []int     // among all
	signs []float64 // of each: -1 where the wheel is what the mark is measured against
}

// wheels is the cams' wheels of which there are several edges, in the order of the marks.
func wheels(t *mark.Tree, marks []mark.Mark) []wheel {
	var all []wheel
	for i, m := range marks {
		of, sign, is := wheelOf(t, m)
		if !is {
			continue
		}
		at := slices.IndexFunc(all, func(w wheel) bool { return w.name == of.name && w.from == of.from })
		if at < 0 {
			at, all = len(all), append(all, of)
		}
		all[at].marks, all[at].signs = append(all[at].marks, i), append(all[at].signs, sign)
	}
	return slices.DeleteFunc(all, func(w wheel) bool { return len(w.marks) < 2 })
}

// wheelOf is the cam's wheel that a mark is an edge of, and which way its edges count in
// the mark; false of any other mark.
func wheelOf(t *mark.Tree, m mark.Mark) (w wheel, sign float64, is bool) {
	on, against := ofCam(t, m.On, m.Reference()), ofCam(t, m.Reference(), m.On)
	switch {
	case on && against:
		return wheel{name: m.On, from: m.Reference()}, 1, true
	case on:
		return wheel{name: m.On}, 1, true
	case against:
		return wheel{name: m.Reference()}, -1, true
	}
	return w, 0, false
}

// ofCam tells whether a member is a cam's sensor wheel: one that the layouts call so, or
// whatever comes round with a cam and is measured from the crank wheel, by a capture.
func ofCam(t *mark.Tree, member, from string) bool {
	return Sensed(member) && member != mark.CrankWheel || from == mark.CrankWheel && t.AtCamSpeed(member)
}

// itself is what an explanation calls the wheel's edges.
func (w wheel) itself() string {
	if w.from != "" {
		return EdgesOf(w.name) + " from the " + w.from
	}
	return EdgesOf(w.name)
}

// EdgesOf is what an explanation calls the edges of a cam's wheel, where there are several.
func EdgesOf(wheel string) string { return "edges of the " + wheel }

// rarely is how seldom chance puts the edges of a sound wheel so far apart that they are
// said to disagree.
const rarely = 0.01

// apart tells whether a wheel's edges disagree by more than chance explains, given the
// covariance of all marks: what they share cancels. The finding names the edge that lies
// farthest from the others.
func (w wheel) apart(findings []mark.Judged, v *mat.SymDense) (f finding.EdgesApart, are bool) {
	n := len(w.marks)
	part, at, one := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	for k, i := range w.marks {
		by := mark.Wrapped(geometry.Angle(w.signs[k])*findings[i].Angle-geometry.Angle(w.signs[0])*findings[w.marks[0]].Angle, findings[i].Period)
		at.SetVec(k, by.Radians())
		one.SetVec(k, 1)
		for l := range k + 1 {
			part.SetSym(k, l, w.signs[k]*w.signs[l]*v.At(i, w.marks[l]))
		}
	}
	var c mat.Cholesky
	var of, left mat.VecDense
	if !c.Factorize(part) || c.SolveVecTo(&of, one) != nil {
		return f, false
	}
	mean := mat.Dot(&of, at) / mat.Dot(&of, one)
	left.AddScaledVec(at, -mean, one)
	if c.SolveVecTo(&of, &left) != nil || (distuv.ChiSquared{K: float64(n - 1)}).Survival(mat.Dot(&left, &of)) > rarely {
		return f, false
	}
	return w.farthest(findings, at.RawVector().Data), true
}

// farthest is the edge that lies farthest from the middle one.
func (w wheel) farthest(findings []mark.Judged, at []float64) finding.EdgesApart {
	middle := gum.Median(slices.Clone(at))
	f := finding.EdgesApart{Wheel: w.name, Edges: len(at)}
	for k, i := range w.marks {
		if by := geometry.Angle(at[k] - middle); math.Abs(float64(by)) > math.Abs(float64(f.By)) {
			f.Mark, f.By = findings[i].Name, by
		}
	}
	return f
}
