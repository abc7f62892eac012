package job

import (
	"reflect"
	"slices"

	"evendrop/tdc/evidence"
)

// Same tells whether two jobs say the same of the same engine under whatever names:
// every reading, mark and dimension, title and date.
func Same(a, b Job) bool { return reflect.DeepEqual(a.content(), b.content()) }

// SameReadings tells whether all that two jobs have on their TDC was read alike, to
// the last digit.
func SameReadings(a, b Job) bool {
	return reflect.DeepEqual(a.content().Cylinders, b.content().Cylinders)
}

// content is what a job says, without where it says it.
func (j Job) content() Job {
	j.File, j.ReadingsFiles, j.markLines, j.jointLines = "", nil, nil, nil
	j.Cylinders = slices.Clone(j.Cylinders)
	for i, c := range j.Cylinders {
		j.Cylinders[i].Readings = slices.Clone(c.Readings)
		for k := range c.Readings {
			r := &j.Cylinders[i].Readings[k]
			*r = evidence.Reading{Angle: r.Angle, Depth: r.Depth, Turn: r.Turn}
		}
	}
	return j
}
