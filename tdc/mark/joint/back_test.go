package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/marktest"
)

// What the marks pointed to before is back, still there, or cannot be told.
func TestBack(t *testing.T) {
	fault := func(p, n, ci, ce, wi, we float64) joint.Diagnosis {
		return explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(p, n, ci, ce, wi, we)))
	}
	tooth, wheel, both, fine := fault(.1, .3, 17.9, 18.1, 18.2, 17.8), fault(0, .2, -.2, .1, -11.9, -12.1), fault(0, .1, 18.1, 17.8, 6.1, 5.9), fault(0, .1, 0, 0, .1, 0)
	const pointed = "Before, the marks pointed to drive on crank sprocket or crank sprocket on crank, 18.0 ± 0.6 deg late. Now "
	require.Equal(t, []string{pointed + "nothing need have moved: the marks have it back to within 0.7 deg (95 %)."}, joint.Back(tooth, fine))
	require.Equal(t, []string{pointed + "they still point to it: not back, 18.0 ± 0.6 deg late."}, joint.Back(tooth, tooth))
	require.Equal(t, []string{pointed + "they no longer do: the marks have it back."}, joint.Back(tooth, wheel))
	two := joint.Back(both, tooth)
	require.Len(t, two, 2)
	require.Contains(t, two[0], "crank wheel on flywheel or crank sensor")
	require.Contains(t, two[0], "no longer")
	require.Contains(t, two[1], "not back")
	require.Empty(t, joint.Back(fine, tooth))
	require.Contains(t, joint.Back(tooth, fault(13, -44, 7, 90, 33, -20))[0], "Now no 3 slips explain them: it cannot be told whether that is back.")

	unseen := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"P": 0}))
	require.Contains(t, joint.Back(tooth, unseen)[0], "back, as far as they see it.")
}
