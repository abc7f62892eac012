package find

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// movedJob is a job of 24 readings during which something slips, with a pin read before
// and one read after, both at TDC of the end.
func movedJob(slip benchtest.Slip) job.Job {
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: benchtest.Protractor(0.5, 0.25), Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	rng := rand.New(rand.NewPCG(4, 5))
	b := benchtest.Drawn(rng, setup)
	s := benchtest.Session{Setup: setup, Layout: benchtest.Balanced(2, 24), Slips: []benchtest.Slip{slip}}
	read := b.ReadIn(rng, s)
	at := geometry.Angle(b.TrueAtEnd(s))
	early, late := 3, 24
	pin := func(name string, after *int) mark.Mark {
		return mark.Mark{Name: name, On: "flywheel", Read: []geometry.Angle{at}, After: after, Limit: geometry.Degree, HasLimit: true}
	}
	return job.Job{
		Setup: setup, Unit: "mm", Cylinders: []evidence.Cylinder{{Number: 1, Readings: read}},
		Marks: []mark.Mark{pin("early pin", &early), pin("late pin", &late)},
	}
}

// sessionJSON is the part of a cylinder's JSON that tells of its session.
type sessionJSON struct {
	Cylinders []struct {
		Moved float64 `json:"moved_probability"`
		Slip  *struct {
			Kind   string   `json:"kind"`
			After  int      `json:"after_reading"`
			Degree *float64 `json:"size_deg"`
			Sure   *float64 `json:"standard_uncertainty_deg"`
			Length *float64 `json:"size_mm"`
			Before struct {
				At       float64    `json:"protractor_deg"`
				Interval [2]float64 `json:"interval95_deg"`
			} `json:"tdc_before"`
		} `json:"session_slip"`
	} `json:"cylinders"`
	Marks []struct {
		Name string `json:"name"`
	} `json:"marks"`
	Findings []struct {
		Kind string `json:"kind"`
		Mark string `json:"mark"`
	} `json:"findings"`
}

func jsonOf(t *testing.T, f Answer) (out sessionJSON) {
	t.Helper()
	data, err := f.JSON()
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &out))
	return out
}

// A pointer that moved is told as the protractor shows it, in words and as data; the
// mark read since is judged, and the other has to be read again.
func TestMovedIsToldAsShown(t *testing.T) {
	for _, sense := range []evidence.Sense{evidence.With, evidence.Against} {
		j := movedJob(benchtest.Slip{After: 12, Angle: 1.5})
		j.Setup.Protractor.Sense = sense
		f, err := Of(j)
		require.NoError(t, err)
		require.True(t, f.Strict(), "a mark is left to be read")
		said := told(t, f)
		require.Contains(t, said, "After reading 12 the protractor reads 1.")
		way, size := "more", 1.5
		if sense == evidence.Against {
			way, size = "less", -1.5
		}
		require.Regexp(t, `reads 1\.\d+ ± 0\.\d+ deg `+way+`: is the pointer loose, or was it moved\?`, said)
		require.Contains(t, said, "early pin: It is not judged: the protractor moved after reading 12, and it was read before.")
		require.Contains(t, said, "on the protractor as it stands since it moved, after reading 12 (95 %)")
		require.Contains(t, said, "Every mark that can be judged is within its limit")
		require.Contains(t, said, "One is not judged: the protractor moved, and it may have been read before.")
		require.Contains(t, said, "late pin")
		require.NotContains(t, said, "late pin: It is not judged")
		require.Contains(t, said, "Equal drop is left out")

		out := jsonOf(t, f)
		slip := out.Cylinders[0].Slip
		require.Equal(t, "protractor", slip.Kind)
		require.Equal(t, 12, slip.After)
		require.InDelta(t, size, *slip.Degree, 3**slip.Sure)
		require.Nil(t, slip.Length)
		require.Greater(t, out.Cylinders[0].Moved, 0.9)
		require.Less(t, slip.Before.Interval[0], slip.Before.At)
		require.Len(t, out.Marks, 1)
		require.Equal(t, "late pin", out.Marks[0].Name)
		require.Contains(t, out.Findings, struct {
			Kind string `json:"kind"`
			Mark string `json:"mark"`
		}{"mark read before the move", "early pin"})
	}
}

// Where all marks point to the TDC that they are compared with, nobody at the bench is told so
// without what to make sure of, and before any part is suspected the piston is read again: that
// tells a protractor that moved from parts that did. Other things outside are read again too.
func TestTDCInDoubtAtTheBench(t *testing.T) {
	j := movedJob(benchtest.Slip{})
	at, flywheel := j.Marks[0].Read[0]+3*geometry.Degree, j.Marks[0]
	of := func(marks ...mark.Mark) Answer {
		j.Marks = marks
		f, err := Of(j)
		require.NoError(t, err)
		return f
	}
	late := func(name, on string) mark.Mark {
		return mark.Mark{Name: name, On: on, Read: []geometry.Angle{at, at}, Limit: geometry.Degree, HasLimit: true}
	}
	f := of(late("damper mark", "pulley"), late("pin hole", "flywheel"), late("lock flats", "cam"))
	require.Contains(t, f.Headline(), "points to TDC of cylinder 1")
	const sure, first = "Before you suspect a part, make sure of TDC", "First: read two of the first places of the piston again"
	require.Contains(t, f.AtBench(), sure)
	require.Contains(t, f.Judgement()[0], sure)
	require.Contains(t, f.Judgement()[1], first)
	require.Contains(t, told(t, f), first)
	require.Len(t, f.ToLookAt(), 2)
	require.Contains(t, f.ToLookAt()[1], "Read what is outside again")

	f = of(flywheel, late("notch", "pulley"), late("other notch", "pulley"))
	require.NotContains(t, f.AtBench(), sure)
	require.NotContains(t, told(t, f), first)
	require.Empty(t, of(flywheel).ToLookAt())
}

// A gauge that moved leaves the marks alone; a session in which nothing did says null.
func TestGaugeMovedIsTold(t *testing.T) {
	f, err := Of(movedJob(benchtest.Slip{After: 12, Depth: 0.2}))
	require.NoError(t, err)
	require.Contains(t, told(t, f), "After reading 12 the gauge shows 0.2")
	out := jsonOf(t, f)
	require.Equal(t, "gauge zero", out.Cylinders[0].Slip.Kind)
	require.InDelta(t, 0.2, *out.Cylinders[0].Slip.Length, 0.05)
	require.Nil(t, out.Cylinders[0].Slip.Degree)
	require.Len(t, out.Marks, 2)

	f, err = Of(movedJob(benchtest.Slip{}))
	require.NoError(t, err)
	out = jsonOf(t, f)
	require.Nil(t, out.Cylinders[0].Slip)
	require.Positive(t, out.Cylinders[0].Moved)
	require.Empty(t, f.Again)
}

// What makes TDC less sure than the readings agree is named: the protractor's own error,
// what may have moved where that is more, or where there is no error.
func TestTheRestIsNamed(t *testing.T) {
	f, err := Of(movedJob(benchtest.Slip{}))
	require.NoError(t, err)
	require.Equal(t, "the protractor's own error of 0.25", f.rest(f.Results[0]))
	f.Job.Setup.Protractor.Error = 0
	require.Equal(t, "what may have moved while they were taken", f.rest(f.Results[0]))
	require.Equal(t, tdc.CurveFit, f.Results[0].Methods[1].Name)
}
