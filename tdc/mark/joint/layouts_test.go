package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

// The joints between a member and the crank, in each layout.
func TestLayouts(t *testing.T) {
	for _, c := range []struct {
		drive mark.Drive
		mark  mark.Mark
		want  []string
	}{
		{mark.Drive{Layout: "one cam"}, marktest.One("cam wheel", ""),
			[]string{"crank sprocket on crank", "drive to cam sprocket", "cam on cam sprocket", "cam wheel on cam", "cam sensor", "TDC of cylinder 1"}},
		{mark.Drive{Layout: "cam in block", CamWheelOn: "sprocket"}, marktest.One("cam wheel", "cam sprocket"), []string{"cam wheel on cam sprocket"}},
		{mark.Drive{Layout: "two cams"}, marktest.One("exhaust cam", "inlet cam"), // the belt on the crank sprocket moves both
			[]string{"drive to inlet sprocket", "inlet cam on inlet sprocket", "drive to exhaust sprocket", "exhaust cam on exhaust sprocket"}},
		{mark.Drive{Layout: "two cams"}, marktest.One("exhaust cam", ""), []string{"crank sprocket on crank", "drive on crank sprocket",
			"drive to exhaust sprocket", "exhaust cam on exhaust sprocket", "TDC of cylinder 1"}},
		{mark.Drive{Layout: "two cams, inlet first"}, marktest.One("exhaust cam", "inlet cam"),
			[]string{"inlet cam on inlet sprocket", "drive to exhaust sprocket", "exhaust cam on exhaust sprocket"}},
		{mark.Drive{Layout: "two cams, exhaust first"}, marktest.One("inlet cam", ""), []string{"crank sprocket on crank", "drive to exhaust sprocket",
			"drive to inlet sprocket", "inlet cam on inlet sprocket", "TDC of cylinder 1"}},
		{mark.Drive{Layout: "two cams", CamWheelOn: "sprocket"}, marktest.One("inlet wheel", "inlet sprocket"), []string{"inlet wheel on inlet sprocket"}},
		{mark.Drive{Layout: "one cam"}, marktest.One("crank wheel", ""),
			[]string{"flywheel on crank", "crank wheel on flywheel", "crank sensor", "TDC of cylinder 1"}},
		{mark.Drive{Layout: "one cam", CrankWheelOn: "crank"}, marktest.One("crank wheel", ""), []string{"crank wheel on crank", "crank sensor", "TDC of cylinder 1"}},
		{mark.Drive{Layout: "one cam", CrankWheelOn: "pulley"}, marktest.One("crank wheel", ""),
			[]string{"pulley on crank", "crank wheel on pulley", "crank sensor", "TDC of cylinder 1"}},
		{mark.Drive{Joints: []mark.Joint{{Carried: "idler", Carrier: "crank", Drive: true}, {Carried: "cam gear", Carrier: "idler", Drive: true}}},
			marktest.One("cam gear", ""), []string{"drive to idler", "drive to cam gear", "TDC of cylinder 1"}},
		{mark.Drive{}, marktest.One("exhaust cam", "inlet cam"), // no layout said: the simplest that has them
			[]string{"drive to inlet sprocket", "inlet cam on inlet sprocket", "drive to exhaust sprocket", "exhaust cam on exhaust sprocket"}},
		{mark.Drive{}, marktest.One("crank", ""), []string{"TDC of cylinder 1"}},
	} {
		d := explain(t, marktest.PetrolFour, c.drive, []mark.Mark{c.mark})
		require.Len(t, d.Explanations, 1)
		require.Equal(t, c.want, d.Explanations[0].Slips[0].Joints)
	}
}
