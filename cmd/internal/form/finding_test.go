package form_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// A finding in JSON has its kind, its words and its numbers: angles in degrees and
// lengths in millimetres, whatever they are held in.
func TestFindingInJSON(t *testing.T) {
	deg := func(d float64) geometry.Angle { return geometry.Angle(d) * geometry.Degree }
	within := deg(0.7)
	slip := finding.Slip{Joints: []string{"belt"}, Off: deg(18), Expanded: deg(0.5)}
	for want, f := range map[string]finding.Finding{
		`{"kind": "offset makes it", "words": "<w>", "marks": [{"mark": "pin", "off_deg": -2.5}], "offset_mm": 8, "offset_stated": true}`: finding.OffsetMakes{
			Marks: []finding.MarkOff{{Mark: "pin", Off: deg(-2.5)}}, Offset: 8 * geometry.Millimetre, Stated: true},
		`{"kind": "whole steps", "words": "<w>", "joint": "belt", "shift_deg": 36, "count": 2, "step": "tooth", "steps_in_turn": 20, "wheel": ""}`: finding.WholeSteps{
			Joint: finding.Joint{Name: "belt", Off: deg(36)}, Count: 2, Steps: finding.Steps{Step: finding.Tooth, InTurn: 20}},
		`{"kind": "slip back", "words": "<w>", "before": {"joints": ["belt"], "opposite_joints": [], "shift_deg": 18, "expanded_uncertainty_deg": 0.5},
			"now": "nothing moved", "after": null, "back_to_within_deg": 0.7, "slips_tried": 0}`: finding.SlipBack{Before: slip, Now: finding.NothingMoved, Within: &within},
		`{"kind": "on its limit", "words": "<w>", "mark": "pin"}`: finding.OnItsLimit{Mark: finding.Mark{Name: "pin"}},
		`{"kind": "dwell one way", "words": "<w>"}`:               finding.DwellOneWay{},
	} {
		text, err := form.JSON(form.Findings([]finding.Finding{f}, func(finding.Finding) string { return "<w>" }))
		require.NoError(t, err)
		require.JSONEq(t, "["+want+"]", string(text))
		require.Contains(t, string(text), "<w>") // as it is, not as &lt;
	}
	text, err := form.JSON(form.Findings(nil, nil))
	require.NoError(t, err)
	require.Equal(t, "[]\n", string(text))
}
