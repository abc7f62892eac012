package bench

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// job is what is open.
func (s *sitting) job() *Job {
	j := s.Job
	out := &Job{
		Title: cmp.Or(j.Title, j.Setup.Engine.Name, "A job without a name"), Engine: j.Setup.Engine.Name, File: s.paper.jobFile,
		Unit: j.Unit, Gauge: string(j.Setup.Gauge.Kind), Scale: scaleOf(s.Now().Job.Setup.Protractor), Cylinders: []Cylinder{}, Lobes: []string{},
		Pictures: picture.Names,
	}
	for _, c := range j.Cylinders {
		out.Cylinders = append(out.Cylinders, s.cylinder(c))
	}
	for _, l := range j.Lobes {
		if !slices.Contains(out.Lobes, l.Name) {
			out.Lobes = append(out.Lobes, l.Name)
		}
	}
	for _, fact := range find.Instruments(j) {
		out.Said = append(out.Said, fact.What+": "+fact.Is)
	}
	out.Pictures = slices.Clone(picture.Names)
	out.Driven, out.Drives = j.Drive.Layout, drives(j)
	return out
}

// drives is the lines that say how the cams are driven, of a job in which that matters.
func drives(j job.Job) []Answer {
	list := []Answer{}
	if len(j.Drive.Joints) > 0 || j.Drive.Layout == "" && len(j.Lobes)+len(j.Marks) == 0 {
		return list
	}
	for _, layout := range mark.Layouts {
		list = append(list, Answer{"drive " + layout, words.Capital(layout)})
	}
	return list
}

// cylinder is one of the job's, with what is read of it.
func (s *sitting) cylinder(c evidence.Cylinder) Cylinder {
	n := len(c.Readings)
	if c.Number == s.Number {
		n = len(s.Now().Readings)
	}
	var others []string
	for _, o := range []struct {
		n    int
		what string
	}{{len(c.Stops), "stop"}, {len(c.Dwell), "dwell"}, {len(c.Views), "view"}} {
		if o.n > 0 {
			others = append(others, words.Count(o.n, o.what))
		}
	}
	return Cylinder{Number: c.Number, Readings: n, Others: words.And(others), Line: "cylinder " + words.Plain(float64(c.Number))}
}

// scaleOf is how a protractor is written.
func scaleOf(p evidence.Protractor) Scale {
	b := words.Bench{Protractor: p}
	places := words.AsRead(nil, 1)
	out := Scale{Keys: keysOf(p), Counts: p.Sense.String(), Wraps: int(p.Scale), Step: p.Step.Degrees()}
	if p.Step > 0 && p.Step < geometry.Degree {
		places = max(1, int(math.Ceil(-math.Log10(p.Step.Degrees()))))
	}
	for _, degrees := range []float64{-25, 25} {
		out.Examples = append(out.Examples, b.Reads(geometry.Angle(degrees)*geometry.Degree, places))
	}
	return out
}

// keysOf is what stands beside the digits for a protractor.
func keysOf(p evidence.Protractor) []Key {
	if !p.BySide() {
		return []Key{{"-", "\u2212", "minus"}}
	}
	keys := []Key{{" BTDC", "BTDC", "before top dead centre"}, {" ATDC", "ATDC", "after top dead centre"}}
	if p.Scale == evidence.Quadrants {
		keys = append(keys, Key{" BBDC", "BBDC", "before bottom dead centre"}, Key{" ABDC", "ABDC", "after bottom dead centre"})
	}
	return keys
}

// seenLines is the stops, dwells and views of a cylinder, each a line.
func seenLines(b words.Bench, c evidence.Cylinder) []string {
	step := b.Protractor.Step.Degrees()
	pair := func(x, y geometry.Angle) string {
		places := words.AsRead([]float64{x.Degrees(), y.Degrees()}, step)
		return b.Reads(x, places) + " and " + b.Reads(y, places)
	}
	list := []string{}
	add := func(parts ...string) { list = append(list, strings.Join(parts, "")) }
	for _, stop := range c.Stops {
		add("Positive stop ", pair(stop.Rising, stop.Falling))
	}
	for _, d := range c.Dwell {
		add("Dwell ", pair(d.Still, d.Moves), ", turning ", d.Turn.String())
	}
	for _, v := range c.Views {
		add("Equal view ", pair(v.Before, v.After), ", turning ", v.Turn.String())
	}
	return list
}
