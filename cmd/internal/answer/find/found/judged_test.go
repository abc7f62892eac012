package found

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

// What not to do is said of one mark, of several, of a drive that may have jumped, and of a TDC
// in doubt; a drive that may have jumped is never left out for the TDC.
func TestNever(t *testing.T) {
	outside := func(on string, off float64) mark.Judged {
		m := mark.Judged{Verdict: mark.Outside}
		m.On, m.Angle = on, geometry.Angle(off)*geometry.Degree
		return m
	}
	slip := func(part string, notes ...finding.Finding) joint.Explanation {
		return joint.Explanation{Slips: []joint.Slip{{Joints: []string{part}, Notes: notes}}}
	}
	tooth := finding.WholeSteps{Steps: finding.Steps{Step: finding.Tooth}}
	pin, notch := outside("flywheel", 3), outside("pulley", 3)
	for _, c := range []struct {
		name   string
		marks  []mark.Judged
		likely []joint.Explanation
		says   string
	}{
		{"nothing", nil, nil, ""},
		{"one", []mark.Judged{pin}, []joint.Explanation{slip("flywheel on crank")}, "Do not time the engine by the mark that is outside."},
		{"two", []mark.Judged{pin, notch}, []joint.Explanation{slip("flywheel on crank")}, "Do not time the engine by the marks that are outside."},
		{"a tooth", []mark.Judged{pin}, []joint.Explanation{slip("drive to sprocket", tooth)}, "Do not time the engine by what is outside, and do not start it before the drive is looked at."},
		{"TDC", []mark.Judged{pin}, []joint.Explanation{slip(seen.TDC)}, "Before you suspect a part, make sure of TDC and of what the given angles count from."},
		{"parts alike", []mark.Judged{pin, notch}, []joint.Explanation{slip(seen.TDC)}, "Before you suspect a part, make sure of TDC and of what the given angles count from. Several parts that each moved the same way would look the same."},
		{"TDC or a tooth", []mark.Judged{pin}, []joint.Explanation{slip(seen.TDC), slip("drive to sprocket", tooth)}, "Before you suspect a part, make sure of TDC and of what the given angles count from. Do not start the engine before the drive is looked at."},
	} {
		f := All{Marks: c.marks, Diagnosis: joint.Diagnosis{Explanations: c.likely, Tried: 1}}
		require.Equal(t, c.says, f.Never(), c.name)
	}
	f := All{Marks: []mark.Judged{pin, notch}, Diagnosis: joint.Diagnosis{Explanations: []joint.Explanation{slip(seen.Protractor)}, Tried: 1, OnBench: true}}
	require.Equal(t, "Before you suspect a part, make sure that protractor and pointer have not moved since the pistons were read, and of what the given angles count from.", f.Never())
	f.Diagnosis = joint.Diagnosis{Explanations: []joint.Explanation{slip("pulley on crank")}, Tried: 2, GivenAngles: true}
	require.Equal(t, "Before you suspect a part, make sure of what the given angles count from.", f.Never())
}
