package joint

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/mark"
)

// Every joint that a picture shows is called what an explanation calls it, and
// hangs on the crank or on another.
func TestLinksAreTheParts(t *testing.T) {
	marks := []mark.Mark{{Name: "pin", On: "flywheel"}, {Name: "lock", On: "exhaust cam"}}
	links, err := Links(mark.Drive{CrankWheelOn: "pulley"}, marks)
	require.NoError(t, err)
	tr, err := mark.TreeFor(mark.Drive{CrankWheelOn: "pulley"}, marks)
	require.NoError(t, err)
	var names []string
	for _, p := range newSystem(tr, marks, nil, nil).parts {
		names = append(names, p.name)
	}
	hung := []string{"crank"}
	for _, l := range links {
		require.Contains(t, names, l.Joint)
		require.Contains(t, hung, l.Carrier)
		hung = append(hung, l.Carried)
	}
	require.Contains(t, links, Link{"crank wheel", "pulley", "crank wheel on pulley", false})
	require.Contains(t, links, Link{"exhaust sprocket", "drive", "drive to exhaust sprocket", true})
	require.Contains(t, names, marks[0].Itself())
	require.True(t, slices.Contains(hung, "exhaust cam"))

	_, err = Links(mark.Drive{}, []mark.Mark{{Name: "pin", On: "gearbox"}})
	require.ErrorContains(t, err, "gearbox")
}
