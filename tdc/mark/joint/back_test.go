package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/finding"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/marktest"
)

// What the marks pointed to before is back, still there, or cannot be told.
func TestBack(t *testing.T) {
	fault := func(p, n, ci, ce, wi, we float64) joint.Diagnosis {
		return explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(p, n, ci, ce, wi, we)))
	}
	back := func(before, after joint.Diagnosis, slips int) []finding.SlipBack {
		list := joint.Back(before, after)
		require.Len(t, list, slips)
		var out []finding.SlipBack
		for _, f := range list {
			out = append(out, f.(finding.SlipBack))
		}
		return out
	}
	tooth, wheel, both, fine := fault(.1, .3, 17.9, 18.1, 18.2, 17.8), fault(0, .2, -.2, .1, -11.9, -12.1), fault(0, .1, 18.1, 17.8, 6.1, 5.9), fault(0, .1, 0, 0, .1, 0)
	moved := back(tooth, fine, 1)[0]
	require.Equal(t, []string{"drive on crank sprocket", "crank sprocket on crank"}, moved.Before.Joints)
	require.InDelta(t, 18, moved.Before.Off.Degrees(), 0.05)
	require.InDelta(t, 0.6, moved.Before.Expanded.Degrees(), 0.05)
	require.Equal(t, finding.NothingMoved, moved.Now)
	require.InDelta(t, 0.7, moved.Within.Degrees(), 0.1)
	still := back(tooth, tooth, 1)[0]
	require.Equal(t, finding.NotBack, still.Now)
	require.Equal(t, still.Before, *still.After)
	require.Equal(t, finding.Elsewhere, back(tooth, wheel, 1)[0].Now)
	two := back(both, tooth, 2)
	require.Contains(t, two[0].Before.Joints, "crank wheel on flywheel")
	require.Equal(t, finding.Elsewhere, two[0].Now)
	require.Equal(t, finding.NotBack, two[1].Now)
	back(fine, tooth, 0)
	none := back(tooth, fault(13, -44, 7, 90, 33, -20), 1)[0]
	require.Equal(t, finding.Unexplained, none.Now)
	require.Equal(t, 3, none.Tried)
	unsure := joint.Diagnosis{Tried: 1, Explanations: append(wheel.Explanations[:1:1], tooth.Explanations...)}
	require.Equal(t, finding.MaybeBack, back(tooth, unsure, 1)[0].Now)

	unseen := back(tooth, explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"P": 0})), 1)[0]
	require.Equal(t, finding.NothingMoved, unseen.Now)
	require.Nil(t, unseen.Within)
}
