package tdc_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// scipyJob is a job of testdata/scipy/jobs.json: degrees and millimetres.
type scipyJob struct {
	Name          string
	Stroke, Rod   geometry.Length
	Offset        geometry.Length
	StrokeKnownTo geometry.Length `json:"stroke_known_to"`
	RodKnownTo    geometry.Length `json:"rod_known_to"`
	OffsetKnownTo geometry.Length `json:"offset_known_to"`
	AngleStep     float64         `json:"angle_step"`
	AngleError    float64         `json:"angle_error"`
	OffCentre     geometry.Length `json:"off_centre"`
	Radius        geometry.Length
	Kind          evidence.GaugeKind
	DepthStep     geometry.Length `json:"depth_step"`
	DepthError    geometry.Length `json:"depth_error"`
	ScaleKnownTo  float64         `json:"scale_known_to"`
	Lash          geometry.Length
	LashKnownTo   geometry.Length   `json:"lash_known_to"`
	Angle         []float64         `json:"angle_deg"`
	Depth         []geometry.Length `json:"depth_mm"`
	Turn          []evidence.TurnDirection
	Found         struct {
		TDC         float64 `json:"tdc_deg"`
		Uncertainty float64 `json:"tdc_uncertainty_deg"`
		Parameters  map[string]float64
	}
}

func (j scipyJob) setup() evidence.Setup {
	return evidence.Setup{
		Engine: evidence.Engine{
			Stroke: j.Stroke, Rod: j.Rod, BoreOffset: j.Offset, OffsetStated: true,
			KnownTo: evidence.KnownTo{Stroke: j.StrokeKnownTo, Rod: j.RodKnownTo, Offset: j.OffsetKnownTo},
		},
		Protractor: evidence.Protractor{
			Scale: evidence.Full, Step: degrees(j.AngleStep), Error: degrees(j.AngleError), OffCentre: j.OffCentre, Radius: j.Radius,
		},
		Gauge: evidence.Gauge{
			Kind: j.Kind, Step: j.DepthStep, Error: j.DepthError, ScaleKnownTo: j.ScaleKnownTo, Lash: j.Lash, LashKnownTo: j.LashKnownTo,
		},
	}
}

func (j scipyJob) readings() []evidence.Reading {
	var read []evidence.Reading
	for i := range j.Angle {
		read = append(read, evidence.Reading{Angle: degrees(j.Angle[i]), Depth: j.Depth[i], Turn: j.Turn[i], Line: i + 2})
	}
	return read
}

func scipyJobs(t testing.TB) []scipyJob {
	text, err := os.ReadFile("../testdata/scipy/jobs.json")
	require.NoError(t, err)
	var file struct{ Jobs []scipyJob }
	require.NoError(t, json.Unmarshal(text, &file))
	require.GreaterOrEqual(t, len(file.Jobs), 8)
	return file.Jobs
}

// ODRPACK, by scipy.odr with every prior entered as an observation, finds the
// same TDC, the same parameters and the same standard uncertainty.
func TestAgainstScipyODR(t *testing.T) {
	for _, j := range scipyJobs(t) {
		t.Run(j.Name, func(t *testing.T) {
			r, err := tdc.Find(j.setup(), evidence.Cylinder{Number: 1, Readings: j.readings()})
			require.NoError(t, err)
			for _, judged := range r.Readings {
				require.False(t, judged.Suspect)
			}
			// ODRPACK's derivatives are differences: ten digits are more than it has
			require.InDelta(t, 0, (r.AgreeTo.Angle - degrees(j.Found.TDC)).Signed().Degrees(), 1e-6)
			require.InEpsilon(t, j.Found.Uncertainty, r.AgreeTo.Uncertainty.Degrees(), 1e-4)
			require.InDelta(t, j.Found.Parameters["scale"], r.Scale.Value, 1e-6)
			require.InDelta(t, j.Found.Parameters["lash"], r.Lash.Value, 1e-6)
		})
	}
}
