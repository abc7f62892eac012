package knowngood

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
)

// lobe reads a [[lobe]] of a known-good file: the curve of one healthy engine's, or the mean
// of several. Lengths are millimetres.
func (k *File) lobe(t *toml.Table) error {
	l := healthy.Kept{Curve: healthy.Curve{Engines: 1, Freedom: math.Inf(1)}}
	var top, zero float64
	err := t.Read(
		toml.Key("name", toml.NewName(&l.Name, k.taken)),
		toml.Key("on", toml.Name(&l.On)),
		toml.Key("valve", toml.OneOf(&l.Valve, lobe.Inlet, lobe.Exhaust)),
		toml.Key("top_mm", toml.Size(&top, measure.AboveZero)),
		toml.Key("scale_standard_uncertainty", toml.Fraction(&l.Scale)),
		toml.Key("zero_standard_uncertainty_mm", toml.Size(&zero, measure.FromZero)),
		toml.Key("of_tdc", toml.Width(&l.Shared)),
		toml.Key("engines", toml.Whole(&l.Engines, 1, math.MaxInt32)),
		toml.Key("scatter", toml.Width(&l.Scatter)),
		toml.Key("degrees_of_freedom", freedom(&l.Freedom)),
		toml.Key("limit", toml.Width(&l.Limit)),
		toml.Key("opening", flankPoints(&l.Curve, true)),
		toml.Key("closing", flankPoints(&l.Curve, false)),
	)
	if err == nil {
		err = t.Needs(`name = "inlet lobe, cylinder 1"`, `on = "inlet cam"`, `valve = "inlet"`, "top_mm = 9.2", "opening = [[-12.0, 1.0, 0.2]]", "closing = [[228.0, 1.0, 0.2]]")
	}
	if err != nil {
		return err
	}
	l.Top, l.Zero, l.HasLimit = geometry.Length(top), geometry.Length(zero), t.Has("limit")
	if len(k.Lobes) == job.MostLobes {
		return t.Wrong("more than %d lobes: expected what somebody reads on one engine", job.MostLobes)
	}
	k.Lobes = append(k.Lobes, l)
	return nil
}

// mostOfTurns is farther than any lobe's flank is from its TDC, degrees.
const mostOfTurns = 1080

// flankPoints takes one flank's points, the opening one's first: degrees after TDC, lift
// in millimetres, and the standard uncertainty of the angle.
func flankPoints(into *healthy.Curve, opens bool) func(toml.Value) error {
	const expected = "expected points such as [[-12.0, 1.0, 0.2]]: degrees after TDC, lift in mm, and the standard uncertainty of the angle, above 0"
	return func(v toml.Value) error {
		return v.Each(expected, func(item toml.Value) error {
			var of [3]float64
			if item.Kind != toml.ListKind || len(item.Items) != len(of) {
				return item.Wrong("%s", expected)
			}
			for i, number := range item.Items {
				x, ok := number.Number()
				if !ok || x < -mostOfTurns || x > mostOfTurns {
					return number.Wrong("%s", expected)
				}
				of[i] = x
			}
			doubt := geometry.Angle(of[2]) * geometry.Degree
			if doubt < job.SurestAngle {
				return item.Wrong("%s", expected)
			}
			into.Points = append(into.Points, lobe.Point{Angle: geometry.Angle(of[0]) * geometry.Degree, Lift: geometry.Length(of[1]), Opens: opens})
			into.Doubts = append(into.Doubts, doubt)
			return nil
		})
	}
}

func writeLobe(w *toml.Writer, l healthy.Kept) {
	w.Key("name", toml.Quote(l.Name), "")
	w.Key("on", toml.Quote(l.On), "")
	w.Key("valve", toml.Quote(string(l.Valve)), "")
	w.Key("top_mm", plain(l.Top.Millimetres()), "")
	w.Key("scale_standard_uncertainty", plain(l.Scale), "of the gauge")
	w.Key("zero_standard_uncertainty_mm", plain(l.Zero.Millimetres()), "of the gauge on the heel")
	w.Key("of_tdc", degrees(l.Shared), "standard uncertainty that the lobes share")
	w.Key("opening", writtenPoints(l.Curve, true), "degrees after TDC, lift in mm, standard uncertainty of the angle")
	w.Key("closing", writtenPoints(l.Curve, false), "")
	if l.Engines > 1 {
		w.Key("engines", toml.Number(float64(l.Engines)), "")
	}
	if l.Scatter > 0 {
		w.Key("scatter", degrees(l.Scatter), "among engines, beyond what measuring them explains")
	}
	if l.Freedom < 1e6 && l.Scatter > 0 {
		w.Key("degrees_of_freedom", plain(l.Freedom), "")
	}
	if l.HasLimit {
		w.Key("limit", degrees(l.Limit), "")
	}
}

// writtenPoints is one flank's points.
func writtenPoints(c healthy.Curve, opens bool) toml.Literal {
	var list []toml.Literal
	for i, p := range c.Points {
		if p.Opens == opens {
			list = append(list, toml.List(degrees(p.Angle), plain(p.Lift.Millimetres()), degrees(c.Doubts[i])))
		}
	}
	return toml.List(list...)
}
